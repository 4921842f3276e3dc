/** Names, the archive and copies of builds. Nothing here deletes. */
import { createBuild, pair, readHead, readRevision, tell, type BuildHead, type Saved } from './builds.ts';
import { lendOrder, readOrder } from './drawing-order.ts';
import type { Store } from './open.ts';
import { usesOf } from './photo-uses.ts';

export interface Renaming {
  /** null: it goes by its title again; absent: as it is. */
  readonly name?: string | null;
  readonly archived?: boolean;
  readonly who: string;
  readonly why: string;
}

/** Renames a build, puts it into the archive or takes it out, and notes who did it and why. */
export async function changeBuild(store: Store, id: string, change: Renaming): Promise<BuildHead> {
  const build = await store.db.transaction().execute(async (db) => {
    const before = await readHead(db, id);
    const note = (what: string, detail: string) =>
      db
        .insertInto('event')
        .values({ build_id: id, at: store.now(), who: change.who, why: change.why, what, detail })
        .execute();
    if (change.name !== undefined && change.name !== before.name) {
      await db.updateTable('build').set({ name: change.name }).where('id', '=', id).execute();
      await note('renamed', change.name ?? '');
    }
    if (change.archived !== undefined && change.archived !== (before.archived !== null)) {
      await db
        .updateTable('build')
        .set({ archived: change.archived ? store.now() : null })
        .where('id', '=', id)
        .execute();
      await note(change.archived ? 'archived' : 'unarchived', '');
    }
    return await readHead(db, id);
  });
  tell(store, { build });
  return build;
}

export interface BuildEvent {
  readonly at: string;
  readonly who: string;
  readonly why: string;
  /** `renamed` (detail: the new name), `archived`, `unarchived`. */
  readonly what: string;
  readonly detail: string;
}

/** What happened to a build besides being saved, oldest first. */
export async function listEvents(store: Store, id: string): Promise<BuildEvent[]> {
  await readHead(store.db, id);
  return await store.db
    .selectFrom('event')
    .select(['at', 'who', 'why', 'what', 'detail'])
    .where('build_id', '=', id)
    .orderBy('sequence')
    .execute();
}

export interface Copying {
  readonly id: string | null;
  /** Of the one to copy; null: the newest. */
  readonly revision: number | null;
  readonly name: string | null;
  /** Whether its photos show in the copy too. */
  readonly photos: boolean;
  readonly saveId: string;
  readonly who: string;
  readonly why: string;
}

/** A new build that begins as a revision of an earlier one. Tried again with the same save id, it is made once. */
export async function copyBuild(store: Store, from: string, copying: Copying): Promise<Saved> {
  const build = await readHead(store.db, from);
  const before = await copiedBefore(store, from, copying);
  if (before !== null) return before;
  const source = await readRevision(store.db, from, copying.revision ?? build.head);
  const saved = await createBuild(store, {
    ...copying,
    text: source.text,
    title: source.title,
    faults: source.faults,
    copiedFrom: { id: from, revision: source.number },
  });
  const order = await readOrder(store.db, from);
  if (order !== null) await lendOrder(store.db, saved.build.id, order);
  if (copying.photos) await copyUses(store, from, saved.build.id);
  return saved;
}

/** The copy that an earlier try with this save id made, though the original may have gone on since. */
async function copiedBefore(
  store: Store,
  from: string,
  { saveId, revision }: Copying,
): Promise<Saved | null> {
  const row = await store.db
    .selectFrom('revision')
    .innerJoin('build', 'build.id', 'revision.build_id')
    .select(['build.id', 'build.copied_revision'])
    .where('save_id', '=', saveId)
    .where('number', '=', 1)
    .where('copied_from', '=', from)
    .executeTakeFirst();
  if (row === undefined || (revision !== null && revision !== row.copied_revision)) return null;
  return { ...(await pair(store.db, row.id, 1)), replayed: true };
}

/** Each copied use has a save id made of the two builds' ids, so that it is there once however often it is copied. */
async function copyUses(store: Store, from: string, to: string): Promise<void> {
  const uses = await usesOf(store.db, from);
  await store.db.transaction().execute(async (db) => {
    for (const use of uses) {
      const copy = { ...use, id: store.newId(), build_id: to, save_id: `${to}/${use.id}` };
      await db
        .insertInto('photo_use')
        .values(copy)
        .onConflict((conflict) => conflict.column('save_id').doNothing())
        .execute();
    }
  });
}
