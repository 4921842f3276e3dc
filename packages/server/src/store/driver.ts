/** SQLite: Node's own where it exists, else a package with the same interface. */
import type { DatabaseSyncInstance } from '@photostructure/sqlite';
import { SqliteDialect, type SqliteDatabase, type SqliteStatement } from 'kysely';

export type Sqlite = DatabaseSyncInstance;

interface Driver {
  readonly DatabaseSync: new (path: string, options?: { readonly readOnly?: boolean }) => Sqlite;
}

// A variable, so that type declarations of an older Node need not know the module.
const builtin: string = 'node:sqlite';
const driver = (await import(builtin).catch(() => import('@photostructure/sqlite'))) as Driver;

export interface OpenOptions {
  readonly readOnly?: boolean;
  /** Milliseconds to wait for another process's lock. */
  readonly wait?: number;
}

/** Opens a database file, and makes it when it is missing (not when read-only). Throws SQLite's errors. */
export function openSqlite(path: string, { readOnly = false, wait = 5000 }: OpenOptions = {}): Sqlite {
  const sqlite = new driver.DatabaseSync(path, { readOnly });
  try {
    sqlite.exec(`PRAGMA busy_timeout=${wait}`);
  } catch (error) {
    sqlite.close();
    throw error;
  }
  return sqlite;
}

/** Statements that are kept compiled; there are fewer in the whole program. */
const MOST_KEPT = 300;

/**
 * The query builder's dialect over an open database. Writers begin `immediate`: the write lock is taken (and waited for) at
 * the start, so that a transaction never fails half-way because another process wrote first.
 */
export function dialectOf(sqlite: Sqlite, begin: 'immediate' | 'deferred'): SqliteDialect {
  const kept = new Map<string, SqliteStatement>();
  const prepare = (text: string): SqliteStatement => {
    const known = kept.get(text);
    if (known !== undefined) return known;
    const made =
      text === 'rollback' ? rollback(sqlite) : statement(sqlite, text === 'begin' ? `begin ${begin}` : text);
    if (kept.size < MOST_KEPT) kept.set(text, made);
    return made;
  };
  const database: SqliteDatabase = {
    prepare,
    close: () => {
      kept.clear();
      sqlite.close();
    },
  };
  return new SqliteDialect({ database });
}

function statement(sqlite: Sqlite, text: string): SqliteStatement {
  const prepared = sqlite.prepare(text);
  return {
    reader: prepared.columns().length > 0,
    all: (parameters) => prepared.all(...(parameters as never[])),
    run: (parameters) => prepared.run(...(parameters as never[])),
    iterate: (parameters) => prepared.iterate(...(parameters as never[])) as IterableIterator<unknown>,
  };
}

/**
 * SQLite itself rolls back on a full disk, an input or output error and a few more, and then refuses a second rollback; that
 * refusal must not hide the error that matters.
 */
function rollback(sqlite: Sqlite): SqliteStatement {
  return {
    reader: false,
    all: () => [],
    iterate: () => [][Symbol.iterator](),
    run: () => {
      if (sqlite.isTransaction) sqlite.exec('rollback');
      return { changes: 0, lastInsertRowid: 0 };
    },
  };
}
