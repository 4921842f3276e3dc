/** What an image file is, by its first bytes, and how large its picture is. Nothing is decoded. */
import { Problem } from '../problem.ts';
import type { Photo } from '../store/photo-uses.ts';
import { sha256Of } from './files.ts';

/** Largest photo, bytes. */
export const MOST_PHOTO = 12 * 1024 * 1024;
/** Largest picture, picture elements: a small file may hold a picture that fills a browser's memory. */
const MOST_ELEMENTS = 100_000_000;

type Size = readonly [width: number, height: number];

interface Form {
  readonly type: string;
  readonly extension: string;
  readonly begins: (b: Buffer) => boolean;
  /** null when the file ends too early or is damaged. */
  readonly size: (b: Buffer) => Size | null;
}

const text = (b: Buffer, from: number, to: number): string => b.toString('latin1', from, to);

/** Portable Network Graphics: signature, then the chunk IHDR. Source: W3C PNG specification, 5.2 and 11.2.1 */
const png: Form = {
  type: 'image/png',
  extension: 'png',
  begins: (b) => text(b, 0, 8) === '\x89PNG\r\n\x1a\n',
  size: (b) =>
    b.length >= 33 && text(b, 12, 16) === 'IHDR' ? [b.readUInt32BE(16), b.readUInt32BE(20)] : null,
};

/** JPEG: segments up to a start of frame. Source: ITU-T T.81, B.1.1 and B.2.2 */
const jpeg: Form = {
  type: 'image/jpeg',
  extension: 'jpg',
  begins: (b) => b[0] === 0xff && b[1] === 0xd8 && b[2] === 0xff,
  size: jpegSize,
};

/** Start-of-frame markers: C0 to CF without the tables DHT (C4), JPG (C8) and DAC (CC). */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);

function jpegSize(b: Buffer): Size | null {
  let at = 2;
  while (at + 9 <= b.length) {
    if (b[at] !== 0xff) return null;
    const marker = b[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (isFrame(marker)) return [b.readUInt16BE(at + 7), b.readUInt16BE(at + 5)];
    // Restart markers and TEM stand alone; everything else has a length that counts itself.
    const alone = marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7);
    const length = alone ? 0 : b.readUInt16BE(at + 2);
    if (!alone && length < 2) return null;
    at += 2 + length;
  }
  return null;
}

/** WebP: a RIFF file whose first chunk is VP8, VP8L or VP8X. Source: RFC 9649, 2.4 to 2.7 */
const webp: Form = {
  type: 'image/webp',
  extension: 'webp',
  begins: (b) => text(b, 0, 4) === 'RIFF' && text(b, 8, 12) === 'WEBP',
  size: webpSize,
};

function webpSize(b: Buffer): Size | null {
  if (b.length < 30) return null;
  const chunk = text(b, 12, 16);
  if (chunk === 'VP8X') return [b.readUIntLE(24, 3) + 1, b.readUIntLE(27, 3) + 1];
  if (chunk === 'VP8L' && b[20] === 0x2f) {
    const bits = b.readUInt32LE(21);
    return [(bits & 0x3fff) + 1, ((bits >>> 14) & 0x3fff) + 1];
  }
  if (chunk === 'VP8 ' && text(b, 23, 26) === '\x9d\x01\x2a')
    return [b.readUInt16LE(26) & 0x3fff, b.readUInt16LE(28) & 0x3fff];
  return null;
}

const FORMS: readonly Form[] = [jpeg, png, webp];

/** Says what a photo is; throws `not-a-photo` or `too-large`. The name and the type that came with it are not asked. */
export function sniffPhoto(bytes: Buffer): Photo {
  if (bytes.length > MOST_PHOTO)
    throw tooLarge(`It has ${(bytes.length / 1048576).toFixed(1)} MiB; the most is 12 MiB.`);
  const form = FORMS.find((each) => each.begins(bytes));
  if (form === undefined) throw notAPhoto('The bytes are not those of a JPEG, PNG or WebP file.');
  const size = form.size(bytes);
  if (size === null || size[0] < 1 || size[1] < 1) throw notAPhoto('The file is damaged or was cut off.');
  const [width, height] = size;
  if (width * height > MOST_ELEMENTS)
    throw tooLarge(`The picture is ${width} by ${height}; the most is 100 million dots.`);
  return { sha256: sha256Of(bytes), type: form.type, bytes: bytes.length, width, height };
}

/** Ending of a file's name for a type that `sniffPhoto` gave. */
export const extensionOf = (type: string): string =>
  FORMS.find((form) => form.type === type)?.extension ?? 'bin';

const notAPhoto = (detail: string): Problem =>
  new Problem({
    code: 'not-a-photo',
    status: 415,
    title: 'Not kept. That is no photo.',
    detail,
    todo: 'Send a JPEG, PNG or WebP file.',
  });

const tooLarge = (detail: string): Problem =>
  new Problem({
    code: 'too-large',
    status: 413,
    title: 'Not kept. The photo is too large.',
    detail,
    todo: 'Make it smaller and send it again.',
  });
