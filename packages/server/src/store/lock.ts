/** One program at a time serves or replaces a data folder. The system itself lets go when the program dies. */
import { join } from 'node:path';
import { Problem } from '../problem.ts';
import { openSqlite, type Sqlite } from './driver.ts';

export interface Lock {
  release(): void;
}

/**
 * Takes the folder's lock: an exclusive transaction on a database of its own, which `kill -9` ends like everything else (a
 * file with a process number would stay). Throws `already-served`.
 */
export function takeLock(folder: string): Lock {
  const sqlite = openSqlite(join(folder, 'in-use'), { wait: 0 });
  try {
    sqlite.exec('PRAGMA journal_mode=DELETE; BEGIN EXCLUSIVE');
  } catch (error) {
    sqlite.close();
    throw isBusy(error) ? inUse(folder, error) : error;
  }
  return { release: () => release(sqlite) };
}

function release(sqlite: Sqlite): void {
  if (sqlite.isOpen) sqlite.close();
}

const isBusy = (error: unknown): boolean =>
  [5, 6].includes(((error as { errcode?: number }).errcode ?? 0) & 0xff);

const inUse = (folder: string, cause: unknown): Problem =>
  new Problem(
    {
      code: 'already-served',
      status: 503,
      title: 'The data folder is in use.',
      detail: `Another Loomwright works on ${folder}. Nothing was changed.`,
      todo: 'Use the one that runs, or stop it first; or name another folder with --data.',
    },
    cause,
  );
