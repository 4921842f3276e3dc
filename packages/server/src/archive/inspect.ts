/**
 * Reads an archive's table of contents and proves all of it before anything is taken: names, sizes, sums, and that builds,
 * items and photos are whole. The archive stays where it is; contents are read by their place in it.
 */
import { isUtf8 } from 'node:buffer';
import { open, type FileHandle } from 'node:fs/promises';
import { sha256Of } from '../photos/files.ts';
import { MOST_PHOTO } from '../photos/sniff.ts';
import { MOST_TEXT } from '../document.ts';
import { HEAD_NAME, NAMES, SUMS_NAME } from './layout.ts';
import { refused } from './refused.ts';
import { BLOCK, paddingOf, quote, readTarHead, TarFault, type Entry } from './tar.ts';

const MIB = 1024 * 1024;

/** The largest file of each sort, bytes. */
const MOST: Readonly<Record<keyof typeof NAMES, number>> = {
  head: 4096,
  sums: 128 * MIB,
  revision: MOST_TEXT,
  build: 256 * MIB,
  item: 256 * MIB,
  photo: MOST_PHOTO,
};

const MOST_ENTRIES = 1_000_000;

interface Place {
  readonly offset: number;
  readonly size: number;
  readonly sha256: string;
}

/** An archive that is open for reading. */
export class Archive {
  readonly #file: FileHandle;
  readonly #places = new Map<string, Place>();

  private constructor(file: FileHandle) {
    this.#file = file;
  }

  /** Opens and proves the container: every file listed, allowed, within its size, and as its sum says. */
  static async open(path: string): Promise<Archive> {
    const archive = new Archive(await open(path, 'r'));
    try {
      await archive.#scan();
      await archive.#proveSums();
      return archive;
    } catch (error) {
      await archive.close();
      throw error instanceof TarFault ? refused(error.message, error) : error;
    }
  }

  get names(): readonly string[] {
    return [...this.#places.keys()];
  }

  sha256(name: string): string | null {
    return this.#places.get(name)?.sha256 ?? null;
  }

  async read(name: string): Promise<Buffer> {
    const place = this.#places.get(name);
    if (place === undefined) throw refused(`it holds no ${quote(name)}`);
    return await this.#bytes(place.offset, place.size);
  }

  async close(): Promise<void> {
    await this.#file.close();
  }

  async #scan(): Promise<void> {
    const { size: total } = await this.#file.stat();
    let at = 0;
    while (at + BLOCK <= total) {
      const entry = readTarHead(await this.#bytes(at, BLOCK));
      if (entry === null) break;
      at += BLOCK;
      this.#prove(entry, total - at);
      const content = await this.#bytes(at, entry.size);
      if (NAMES.revision.test(entry.name) && !(isUtf8(content) && !content.includes(0)))
        throw refused(`${quote(entry.name)} in it is no text`);
      this.#places.set(entry.name, { offset: at, size: entry.size, sha256: sha256Of(content) });
      at += entry.size + paddingOf(entry.size);
    }
    await this.#proveEnd(at, total);
  }

  #prove({ name, size }: Entry, left: number): void {
    const sort = (Object.keys(NAMES) as (keyof typeof NAMES)[]).find((each) => NAMES[each].test(name));
    if (sort === undefined) throw refused(`it holds ${quote(name)}, which is no file of an archive`);
    if (this.#places.has(name)) throw refused(`it holds ${quote(name)} twice`);
    if (size > MOST[sort]) throw refused(`${quote(name)} in it has ${size} bytes; the most is ${MOST[sort]}`);
    if (size > left) throw refused(`it is cut off inside ${quote(name)}`);
    if (this.#places.size === 0 && name !== HEAD_NAME) throw refused(`it does not begin with ${HEAD_NAME}`);
    if (this.#places.has(SUMS_NAME)) throw refused(`it goes on behind ${SUMS_NAME}`);
    if (this.#places.size >= MOST_ENTRIES) throw refused(`it holds more than ${MOST_ENTRIES} files`);
  }

  async #proveEnd(at: number, total: number): Promise<void> {
    if (!this.#places.has(SUMS_NAME)) throw refused(`it is cut off: ${SUMS_NAME}, its last file, is missing`);
    // Tar programs fill up to 10 KiB; more behind the end is not looked for, it is refused.
    if (total - at > 64 * BLOCK) throw refused('something stands behind its end');
    const rest = await this.#bytes(at, Math.max(0, total - at));
    if (rest.some((byte) => byte !== 0)) throw refused('something stands behind its end');
  }

  async #proveSums(): Promise<void> {
    const lines = (await this.read(SUMS_NAME)).toString('utf8').split('\n');
    if (lines.pop() !== '') throw refused(`${SUMS_NAME} is cut off`);
    const sums = new Map<string, string>();
    for (const line of lines) {
      const [, sum, name] = /^([0-9a-f]{64}) {2}(.+)$/.exec(line) ?? [];
      if (sum === undefined || name === undefined) throw refused(`a line of ${SUMS_NAME} is none`);
      sums.set(name, sum);
    }
    for (const [name, { sha256 }] of this.#places)
      if (name !== SUMS_NAME && sums.get(name) !== sha256)
        throw refused(`${quote(name)} in it is damaged (its sum is wrong)`);
    const lost = [...sums.keys()].find((name) => !this.#places.has(name));
    if (lost !== undefined) throw refused(`${quote(lost)} is missing from it`);
  }

  async #bytes(offset: number, size: number): Promise<Buffer> {
    const bytes = Buffer.alloc(size);
    let done = 0;
    while (done < size) {
      const { bytesRead } = await this.#file.read(bytes, done, size - done, offset + done);
      if (bytesRead === 0) throw refused('it ends too early');
      done += bytesRead;
    }
    return bytes;
  }
}
