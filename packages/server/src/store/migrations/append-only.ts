/** Rows that may be added, never changed or deleted: the database itself says no. */
import { sql, type Kysely } from 'kysely';

export async function appendOnly(db: Kysely<never>, table: string): Promise<void> {
  for (const deed of ['update', 'delete']) {
    await sql`create trigger ${sql.id(`${table}_no_${deed}`)} before ${sql.raw(deed)} on ${sql.id(table)}
      begin select raise(abort, 'append-only'); end`.execute(db);
  }
}
