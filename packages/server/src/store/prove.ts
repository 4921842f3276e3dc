/** Proves a store: the database's own structure, and that every revision's text is the one that was saved. */
import { sql } from 'kysely';
import { sha256Of } from '../photos/files.ts';
import { Problem } from '../problem.ts';
import type { Store } from './open.ts';

/** Throws `store-damaged` with what was found; reads all of the store. */
export async function proveStore({ db, folder }: Store): Promise<void> {
  const structure = await sql<Record<string, string>>`pragma integrity_check(5)`.execute(db);
  const words = structure.rows.flatMap((row) => Object.values(row));
  if (words.join() !== 'ok') throw damaged(folder, words.join('; '));
  const loose = await sql`pragma foreign_key_check`.execute(db);
  if (loose.rows.length > 0) throw damaged(folder, `${loose.rows.length} rows belong to nothing`);
  const gaps = await db
    .selectFrom('build')
    .select(['id', 'head'])
    .select((where) =>
      where
        .selectFrom('revision')
        .select(({ fn }) => fn.countAll<number>().as('n'))
        .whereRef('revision.build_id', '=', 'build.id')
        .as('n'),
    )
    .execute();
  const torn = gaps.find((build) => build.n !== build.head);
  if (torn !== undefined)
    throw damaged(folder, `build ${torn.id} has ${torn.n} revisions and says ${torn.head}`);
  for await (const row of db.selectFrom('revision').select(['build_id', 'number', 'text', 'sha256']).stream())
    if (sha256Of(row.text) !== row.sha256)
      throw damaged(folder, `revision ${row.number} of build ${row.build_id} is not as saved`);
}

const damaged = (folder: string, what: string): Problem =>
  new Problem({
    code: 'store-damaged',
    status: 503,
    title: 'The store is damaged.',
    detail: `${folder}: ${what}. Nothing was written.`,
    todo: 'Copy the whole data folder before anything else, then restore the newest backup.',
  });
