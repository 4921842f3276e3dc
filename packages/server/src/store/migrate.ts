/** Brings a store's tables up to date, one transaction for each step: a step is done whole, or not at all. */
import { sql, type Kysely, type RawBuilder } from 'kysely';
import { Problem } from '../problem.ts';
import { builds } from './migrations/0001-builds.ts';
import { shelf } from './migrations/0002-shelf.ts';
import { photos } from './migrations/0003-photos.ts';
import { drawingOrder } from './migrations/0004-drawing-order.ts';
import type { Tables } from './tables.ts';

/** What differs between databases in a migration. */
export interface ColumnTypes {
  /** A number that counts up by itself, and the table's key. */
  readonly serial: RawBuilder<unknown>;
}

export interface Migration {
  readonly number: number;
  readonly name: string;
  up(db: Kysely<never>, types: ColumnTypes): Promise<void>;
}

/** In order, numbered from 1 without gaps. A migration that was released is never changed. */
export const migrations: readonly Migration[] = [builds, shelf, photos, drawingOrder];

const TYPES: ColumnTypes = { serial: sql`integer primary key autoincrement` };

/** Steps that a store has behind it; 0 for an empty file. */
export async function versionOf(db: Kysely<Tables>): Promise<number> {
  const tables = await db.introspection.getTables();
  if (!tables.some((table) => table.name === 'migration')) return 0;
  const row = await db
    .selectFrom('migration')
    .select(({ fn }) => fn.max('number').as('number'))
    .executeTakeFirst();
  return row?.number ?? 0;
}

/** Runs the steps that are missing; `until` stops earlier, for tests. Refuses a store that a newer program made. */
export async function migrate(
  db: Kysely<Tables>,
  now: () => string,
  until: number = migrations.length,
): Promise<number> {
  await db.schema
    .createTable('migration')
    .ifNotExists()
    .addColumn('number', 'integer', (c) => c.primaryKey())
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('at', 'text', (c) => c.notNull())
    .execute();
  const version = await versionOf(db);
  if (version > migrations.length) throw newerStore(version);
  for (const step of migrations.slice(version, until)) {
    await db.transaction().execute(async (transaction) => {
      await step.up(transaction as unknown as Kysely<never>, TYPES);
      await transaction
        .insertInto('migration')
        .values({ number: step.number, name: step.name, at: now() })
        .execute();
    });
  }
  return await versionOf(db);
}

const newerStore = (version: number): Problem =>
  new Problem({
    code: 'newer-store',
    status: 503,
    title: 'The store was written by a newer version.',
    detail: `The data folder is at step ${version}; this program knows ${migrations.length}. Nothing was changed.`,
    todo: 'Start the newer program, or name another folder with --data.',
  });
