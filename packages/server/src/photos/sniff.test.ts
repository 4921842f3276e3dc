import { describe, expect, it } from 'vitest';
import { pngOf } from '../testing/store.ts';
import { sniffPhoto } from './sniff.ts';

const segment = (marker: number, ...data: number[]): number[] => [0xff, marker, 0, data.length + 2, ...data];
const frame = (height: number, width: number): number[] =>
  segment(0xc2, 8, height >> 8, height & 255, width >> 8, width & 255, 3);
const vp8 = (fourCc: string, ...data: number[]): Buffer =>
  Buffer.concat([
    Buffer.from(`RIFF\0\0\0\0WEBP${fourCc}\0\0\0\0`, 'latin1'),
    Buffer.from(data),
    Buffer.alloc(16),
  ]);

describe('what a photo is', () => {
  it('PNG: width and height of its first chunk (W3C PNG 11.2.1)', () => {
    expect(sniffPhoto(pngOf(1, 640, 480))).toMatchObject({ type: 'image/png', width: 640, height: 480 });
  });

  it('JPEG: of its frame, behind other segments and fill bytes (ITU-T T.81 B.2.2)', () => {
    const bytes = Buffer.from([
      0xff,
      0xd8,
      ...segment(0xe0, 1, 2, 3),
      0xff,
      ...segment(0xc4, 9),
      ...frame(480, 640),
      0,
      0,
    ]);
    expect(sniffPhoto(bytes)).toMatchObject({ type: 'image/jpeg', width: 640, height: 480 });
  });

  it('WebP: of all three forms (RFC 9649 2.5 to 2.7)', () => {
    const simple = vp8('VP8 ', 0, 0, 0, 0x9d, 0x01, 0x2a, 0x80, 0x02, 0xe0, 0x01);
    const bits = (640 - 1) | ((480 - 1) << 14);
    const lossless = vp8('VP8L', 0x2f, bits & 255, (bits >> 8) & 255, (bits >> 16) & 255, (bits >> 24) & 255);
    const extended = vp8('VP8X', 0, 0, 0, 0, 0x7f, 0x02, 0, 0xdf, 0x01, 0);
    for (const bytes of [simple, lossless, extended])
      expect(sniffPhoto(bytes)).toMatchObject({ type: 'image/webp', width: 640, height: 480 });
  });

  it('never ends in an endless loop or beyond the bytes', () => {
    const head = [0xff, 0xd8, 0xff, 0xe0];
    for (let length = 0; length < 40; length += 1)
      for (const fill of [0, 1, 0xd0, 0xff])
        expect(() => sniffPhoto(Buffer.from([...head, ...Array.from({ length }, () => fill)]))).toThrow(
          'no photo',
        );
  });
});
