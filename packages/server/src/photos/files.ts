/** Photos as files named by the SHA-256 of their bytes, in folders by its first two digits. */
import { createHash } from 'node:crypto';
import { createReadStream, type ReadStream } from 'node:fs';
import { readdir, readFile, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { writeWhole } from '../store/disk.ts';

const SHA256 = /^[0-9a-f]{64}$/;

export const sha256Of = (bytes: Uint8Array | string): string =>
  createHash('sha256').update(bytes).digest('hex');

export class PhotoFiles {
  readonly #folder: string;

  constructor(dataFolder: string) {
    this.#folder = join(dataFolder, 'photos');
  }

  #path(sha256: string): string {
    if (!SHA256.test(sha256)) throw new Error('not a SHA-256');
    return join(this.#folder, sha256.slice(0, 2), sha256);
  }

  /** Keeps the bytes, once; on the disk when the promise is kept. A damaged copy is written anew. */
  async keep(bytes: Uint8Array): Promise<string> {
    const sha256 = sha256Of(bytes);
    if (!(await this.holds(sha256))) await writeWhole(this.#path(sha256), bytes);
    return sha256;
  }

  /** Whether the bytes are there, and are those of the name. */
  async holds(sha256: string): Promise<boolean> {
    try {
      return sha256Of(await readFile(this.#path(sha256))) === sha256;
    } catch (error) {
      if ((error as { code?: string }).code === 'ENOENT') return false;
      throw error;
    }
  }

  /** Size in bytes; null when there is no such file. */
  async size(sha256: string): Promise<number | null> {
    return await stat(this.#path(sha256)).then(
      (info) => info.size,
      () => null,
    );
  }

  async read(sha256: string): Promise<Buffer> {
    return await readFile(this.#path(sha256));
  }

  stream(sha256: string): ReadStream {
    return createReadStream(this.#path(sha256));
  }

  /** Removes what an interrupted write left behind. */
  async clear(): Promise<void> {
    const entries = await readdir(this.#folder, { recursive: true, withFileTypes: true }).catch(() => []);
    for (const entry of entries)
      if (entry.isFile() && entry.name.startsWith('.writing-'))
        await rm(join(entry.parentPath, entry.name), { force: true });
  }
}
