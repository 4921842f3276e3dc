/**
 * The POSIX ustar container (IEEE Std 1003.1, pax, "ustar Interchange Format"), the small part of it that an archive needs:
 * regular files with short names. Any tar program opens what is written; of what is read, everything else is refused.
 */

export const BLOCK = 512;
/** Longest name: the field of the head; the prefix field is not used. */
export const MOST_NAME = 100;

export interface Entry {
  readonly name: string;
  /** Bytes. */
  readonly size: number;
}

/** Bytes that fill the last block of a file. */
export const paddingOf = (size: number): number => (BLOCK - (size % BLOCK)) % BLOCK;

/** The head of a regular file; `time` in seconds since 1970. */
export function tarHead({ name, size }: Entry, time: number): Buffer {
  if (Buffer.byteLength(name) > MOST_NAME) throw new Error(`a name in an archive is too long: ${name}`);
  const head = Buffer.alloc(BLOCK);
  head.write(name, 0, 'latin1');
  head.write('0000600\0', 100, 'latin1');
  head.write('0000000\0', 108, 'latin1');
  head.write('0000000\0', 116, 'latin1');
  head.write(`${octal(size, 11)}\0`, 124, 'latin1');
  head.write(`${octal(time, 11)}\0`, 136, 'latin1');
  head.write('        ', 148, 'latin1');
  head.write('0', 156, 'latin1');
  head.write('ustar\u000000', 257, 'latin1');
  head.write(`${octal(checksum(head), 6)}\0 `, 148, 'latin1');
  return head;
}

/** Two empty blocks end an archive. */
export const tarEnd = (): Buffer => Buffer.alloc(2 * BLOCK);

export class TarFault extends Error {}

/** Reads a head; null for an empty block. Throws a TarFault in words for anything but a regular file with a plain head. */
export function readTarHead(head: Buffer): Entry | null {
  if (head.every((byte) => byte === 0)) return null;
  if (head.toString('latin1', 257, 262) !== 'ustar')
    throw new TarFault('it is not a tar file of the ustar form');
  if (number(head, 148, 8) !== checksum(head))
    throw new TarFault('a head in it is damaged (its checksum is wrong)');
  const name = words(head, 0, 100);
  const type = head[156];
  if (type !== 0x30 && type !== 0)
    throw new TarFault(`${quote(name)} is no plain file: links, folders, devices and extensions are refused`);
  if (words(head, 345, 155) !== '' || words(head, 157, 100) !== '')
    throw new TarFault(`${quote(name)} has a prefix or a link`);
  return { name, size: number(head, 124, 12) };
}

const octal = (value: number, digits: number): string => {
  const text = value.toString(8).padStart(digits, '0');
  if (text.length > digits) throw new Error('a file is too large for an archive');
  return text;
};

/** Sum of the head's bytes, its own field counted as spaces. */
function checksum(head: Buffer): number {
  let sum = 8 * 0x20;
  for (let at = 0; at < BLOCK; at += 1) if (at < 148 || at >= 156) sum += head[at] ?? 0;
  return sum;
}

/** An octal number; the base-256 form of other programs is refused with everything else that is none. */
function number(head: Buffer, at: number, length: number): number {
  const text = head
    .toString('latin1', at, at + length)
    .replace(/[\0 ]+$/, '')
    .replace(/^ +/, '');
  if (!/^[0-7]{1,12}$/.test(text)) throw new TarFault('a head in it is damaged (a number is none)');
  return Number.parseInt(text, 8);
}

function words(head: Buffer, at: number, length: number): string {
  const text = head.toString('latin1', at, at + length);
  const end = text.indexOf('\0');
  return end < 0 ? text : text.slice(0, end);
}

/** A name for a message: short, without control characters. */
export const quote = (name: string): string => `"${name.replace(/[^\x20-\x7e]/g, '?').slice(0, 80)}"`;
