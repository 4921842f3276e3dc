/** Restores a data folder from an archive. What was there before stays beside it. */
import { existsSync } from 'node:fs';
import { mkdtemp, readdir, rename, rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { takeArchive, type Taken } from '../archive/take.ts';
import { faultOf } from '../faults.ts';
import { Problem } from '../problem.ts';
import { makeFolder, syncFolder } from '../store/disk.ts';
import { takeLock } from '../store/lock.ts';
import { openStore } from '../store/open.ts';
import { proveStore } from '../store/prove.ts';

export interface Restored {
  readonly folder: string;
  readonly taken: Taken;
  /** Where the folder's contents of before are; null: there were none. */
  readonly kept: string | null;
}

/**
 * Restores into a fresh folder beside the wanted one, proves it, and only then puts it in its place: by two renames, the old
 * one to a name with the time. Refused while the old one is in use.
 */
export async function restore(file: string, folder: string, now: () => string): Promise<Restored> {
  if (!existsSync(file)) throw missing(file);
  const parent = dirname(folder);
  try {
    await makeFolder(parent);
    const fresh = await mkdtemp(join(parent, `.${basename(folder)}-restoring-`));
    try {
      const taken = await fill(fresh, file);
      const kept = await putInPlace(fresh, folder, now());
      return { folder, taken, kept };
    } finally {
      await rm(fresh, { recursive: true, force: true });
    }
  } catch (error) {
    throw faultOf(error, folder) ?? error;
  }
}

async function fill(fresh: string, file: string): Promise<Taken> {
  const store = await openStore(fresh);
  try {
    const taken = await takeArchive(store, file);
    await proveStore(store);
    return taken;
  } finally {
    await store.close();
  }
}

async function putInPlace(fresh: string, folder: string, time: string): Promise<string | null> {
  const parent = dirname(folder);
  const used = existsSync(folder) && (await readdir(folder)).length > 0;
  const kept = used ? `${folder}.before-restore-${time.replaceAll(':', '-')}` : null;
  if (kept !== null) {
    // Held while the folder is moved, so that no server writes into what is being put aside.
    const lock = takeLock(folder);
    try {
      // Windows moves no folder that holds an open file.
      if (process.platform === 'win32') lock.release();
      await rename(folder, kept);
    } finally {
      lock.release();
    }
  } else await rm(folder, { recursive: true, force: true });
  try {
    await rename(fresh, folder);
  } catch (error) {
    if (kept !== null) await rename(kept, folder);
    throw error;
  }
  await syncFolder(parent);
  return kept;
}

const missing = (file: string): Problem =>
  new Problem({
    code: 'not-found',
    status: 404,
    title: 'Nothing was restored.',
    detail: `There is no file ${file}.`,
    todo: 'Name the archive that `loomwright backup` wrote.',
  });
