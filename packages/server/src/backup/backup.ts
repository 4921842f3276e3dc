/** A backup: everything in one archive, while the server may go on. */
import { createWriteStream, existsSync } from 'node:fs';
import { open, rename, rm } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { contentsOf } from '../archive/contents.ts';
import { Archive } from '../archive/inspect.ts';
import { nothing, writeArchive, type Written } from '../archive/write.ts';
import { faultOf } from '../faults.ts';
import { Problem } from '../problem.ts';
import { proveStore } from '../store/prove.ts';
import { syncFolder } from '../store/disk.ts';
import { readStore, type Store } from '../store/open.ts';

export interface BackedUp extends Written {
  readonly path: string;
}

/**
 * Writes a backup of a data folder to a file that is not there yet. The store is proved first, the archive afterwards, by
 * reading it back as a restore would; only then does it get its name.
 */
export async function backup(folder: string, file: string): Promise<BackedUp> {
  const path = resolve(file);
  if (existsSync(path)) throw exists(path);
  const store = await readStore(folder);
  const draft = `${path}.writing`;
  try {
    await proveStore(store);
    const written = await write(store, draft);
    await prove(draft);
    await rename(draft, path);
    await syncFolder(dirname(path));
    return { ...written, path };
  } catch (error) {
    throw faultOf(error, path) ?? error;
  } finally {
    await store.close();
    await rm(draft, { force: true });
  }
}

async function write(store: Store, draft: string): Promise<Written> {
  const written = nothing();
  const pieces = Readable.from(writeArchive(store, store.now(), written), { objectMode: false });
  await pipeline(pieces, createWriteStream(draft, { mode: 0o600 }));
  const file = await open(draft, 'r+');
  try {
    await file.sync();
  } finally {
    await file.close();
  }
  return written;
}

async function prove(path: string): Promise<void> {
  const archive = await Archive.open(path);
  try {
    await contentsOf(archive);
  } finally {
    await archive.close();
  }
}

const exists = (path: string): Problem =>
  new Problem({
    code: 'exists',
    status: 409,
    title: 'No backup was made.',
    detail: `${path} is there already. Nothing was overwritten.`,
    todo: 'Choose another name with --out.',
  });
