/** The order of a build's drawing. The last one told stands; lost, the drawing is laid out afresh. */
import type { Transaction } from 'kysely';
import { readHead } from './builds.ts';
import type { Store } from './open.ts';
import type { Tables } from './tables.ts';

/** As the drawing keeps it; the store does not look into its views. */
export interface DrawingOrder {
  readonly version: 1;
  readonly views: Readonly<Record<string, unknown>>;
}

type Db = Store['db'] | Transaction<Tables>;

/** null: none was told yet. */
export async function readOrder(db: Db, build: string): Promise<DrawingOrder | null> {
  const row = await db
    .selectFrom('drawing_order')
    .select('data')
    .where('build_id', '=', build)
    .executeTakeFirst();
  return row === undefined ? null : (JSON.parse(row.data) as DrawingOrder);
}

export async function keepOrder(db: Db, build: string, order: DrawingOrder): Promise<void> {
  await readHead(db, build);
  const data = JSON.stringify(order);
  await db
    .insertInto('drawing_order')
    .values({ build_id: build, data })
    .onConflict((conflict) => conflict.column('build_id').doUpdateSet({ data }))
    .execute();
}

/** Of an archive or a copy: only where there is none yet. */
export async function lendOrder(db: Db, build: string, order: DrawingOrder): Promise<void> {
  await db
    .insertInto('drawing_order')
    .values({ build_id: build, data: JSON.stringify(order) })
    .onConflict((conflict) => conflict.column('build_id').doNothing())
    .execute();
}
