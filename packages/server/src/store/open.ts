/** Opens the store of a data folder. */
import { randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Kysely } from 'kysely';
import { faultOf } from '../faults.ts';
import { Problem } from '../problem.ts';
import { PhotoFiles } from '../photos/files.ts';
import { Changes } from './changes.ts';
import { makeFolder, syncFolder } from './disk.ts';
import { dialectOf, openSqlite, type Sqlite } from './driver.ts';
import { takeLock } from './lock.ts';
import { migrate, migrations, versionOf } from './migrate.ts';
import type { Tables } from './tables.ts';

export interface Store {
  readonly folder: string;
  readonly db: Kysely<Tables>;
  readonly photos: PhotoFiles;
  readonly changes: Changes;
  readonly now: () => string;
  readonly newId: () => string;
  close(): Promise<void>;
}

export interface StoreOptions {
  readonly now?: () => string;
  /** Most pages of 4 KiB of the database file: a full disk, for tests. */
  readonly mostPages?: number;
  /** The last step of migration to run, for tests. */
  readonly until?: number;
}

export const STORE_FILE = 'store.sqlite';
/** "Loom" in ASCII, in the file's head: `file` and other programs can tell what it is. */
const APPLICATION = 0x4c6f6f6d;

const clock = (): string => new Date().toISOString();

/** Opens the store for writing, and makes it when it is new. Takes the folder's lock. Throws problems in plain words. */
export async function openStore(folder: string, options: StoreOptions = {}): Promise<Store> {
  const undo: (() => unknown)[] = [];
  try {
    await makeFolder(folder);
    const lock = takeLock(folder);
    undo.push(() => lock.release());
    const sqlite = openSqlite(join(folder, STORE_FILE));
    const db = new Kysely<Tables>({ dialect: dialectOf(sqlite, 'immediate') });
    undo.push(() => db.destroy());
    prepare(sqlite, folder, options);
    await keepBeforeMigration(db, sqlite, folder);
    await migrate(db, options.now ?? clock, options.until);
    await syncFolder(folder);
    const photos = new PhotoFiles(folder);
    await photos.clear();
    return {
      ...common(folder, db, photos, options),
      close: async () => {
        await db.destroy();
        lock.release();
      },
    };
  } catch (error) {
    for (const step of undo.toReversed()) await step();
    throw faultOf(error, folder) ?? error;
  }
}

/** Opens a second, reading view of a store that another may be serving: one unchanging state when read in a transaction. */
export async function readStore(folder: string): Promise<Store> {
  const path = join(folder, STORE_FILE);
  if (!existsSync(path)) throw noStore(folder);
  let db: Kysely<Tables> | null = null;
  try {
    db = new Kysely<Tables>({ dialect: dialectOf(openSqlite(path), 'deferred') });
    const opened = db;
    if ((await versionOf(opened)) !== migrations.length) throw otherVersion(folder);
    return { ...common(folder, opened, new PhotoFiles(folder), {}), close: () => opened.destroy() };
  } catch (error) {
    await db?.destroy();
    throw faultOf(error, folder) ?? error;
  }
}

function common(
  folder: string,
  db: Kysely<Tables>,
  photos: PhotoFiles,
  options: StoreOptions,
): Omit<Store, 'close'> {
  return { folder, db, photos, changes: new Changes(), now: options.now ?? clock, newId: randomUUID };
}

function prepare(sqlite: Sqlite, folder: string, { mostPages }: StoreOptions): void {
  const one = (pragma: string): unknown => Object.values(sqlite.prepare(`PRAGMA ${pragma}`).get() ?? {})[0];
  const application = one('application_id');
  const tables = sqlite.prepare('select count(*) as n from sqlite_master').get() as { readonly n: number };
  if (application !== APPLICATION && (application !== 0 || tables.n > 0)) throw foreign(folder);
  if (one('journal_mode=WAL') !== 'wal') throw noLog(folder);
  sqlite.exec('PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON; PRAGMA trusted_schema=OFF');
  if (application !== APPLICATION) sqlite.exec(`PRAGMA application_id=${APPLICATION}`);
  if (mostPages !== undefined) sqlite.exec(`PRAGMA max_page_count=${mostPages}`);
}

/** A store that is about to be changed in shape is copied first. */
async function keepBeforeMigration(db: Kysely<Tables>, sqlite: Sqlite, folder: string): Promise<void> {
  const version = await versionOf(db);
  if (version === 0 || version >= migrations.length) return;
  const copy = join(folder, `store-before-step-${version + 1}.sqlite`);
  if (!existsSync(copy)) sqlite.prepare('VACUUM INTO ?').run(copy);
}

const foreign = (folder: string): Problem =>
  new Problem({
    code: 'folder-refused',
    status: 503,
    title: 'The data folder belongs to another program.',
    detail: `${join(folder, STORE_FILE)} is a database, but not of Loomwright. Nothing was changed.`,
    todo: 'Name another folder with --data.',
  });

const noLog = (folder: string): Problem =>
  new Problem({
    code: 'folder-refused',
    status: 503,
    title: 'The data folder cannot be used.',
    detail: `${folder} is on a disk where saves cannot be made safe (often a network drive).`,
    todo: 'Name a folder on a disk of this machine with --data.',
  });

const otherVersion = (folder: string): Problem =>
  new Problem({
    code: 'newer-store',
    status: 503,
    title: 'The store is of another version.',
    detail: `${folder} was last used by another version of the program. Nothing was changed.`,
    todo: 'Start `loomwright serve` on it once: it brings the store up to date and keeps a copy of it as it was.',
  });

const noStore = (folder: string): Problem =>
  new Problem({
    code: 'not-found',
    status: 404,
    title: 'There is nothing to back up.',
    detail: `${folder} holds no builds.`,
    todo: 'Name the data folder with --data.',
  });
