/** Which photo shows which place or part of a build. */
import { notFound } from '../problem.ts';
import { readHead, saveIdReused } from './builds.ts';
import type { Store } from './open.ts';
import type { PhotoUseTable, Tables } from './tables.ts';

export interface Photo {
  readonly sha256: string;
  readonly type: string;
  readonly bytes: number;
  /** Picture elements. */
  readonly width: number;
  readonly height: number;
}

export interface PhotoUse extends Photo {
  readonly id: string;
  readonly on: { readonly place: string } | { readonly part: string };
  readonly caption: string;
  readonly who: string;
  readonly added: string;
  readonly removed: string | null;
}

export interface NewUse {
  readonly saveId: string;
  readonly sha256: string;
  readonly on: { readonly kind: 'place' | 'part'; readonly id: string };
  readonly caption: string;
  readonly who: string;
}

/** Notes a photo whose bytes are on the disk; once. */
export async function notePhoto(store: Store, photo: Photo): Promise<void> {
  await store.db
    .insertInto('photo')
    .values({ ...photo, created: store.now() })
    .onConflict((conflict) => conflict.column('sha256').doNothing())
    .execute();
}

export async function readPhoto(store: Store, sha256: string): Promise<Photo> {
  const row = await store.db
    .selectFrom('photo')
    .select(['sha256', 'type', 'bytes', 'width', 'height'])
    .where('sha256', '=', sha256)
    .executeTakeFirst();
  if (row === undefined) throw notFound('photo of this name');
  return row;
}

/** Puts a photo on a place or a part; tried again with the same save id, it is there once. */
export async function addUse(store: Store, buildId: string, use: NewUse): Promise<PhotoUse> {
  const made = await store.db.transaction().execute(async (db) => {
    await readHead(db, buildId);
    const photo = await db
      .selectFrom('photo')
      .select('sha256')
      .where('sha256', '=', use.sha256)
      .executeTakeFirst();
    if (photo === undefined) throw notFound('photo of this name; send its bytes first');
    const before = await db
      .selectFrom('photo_use')
      .selectAll()
      .where('save_id', '=', use.saveId)
      .executeTakeFirst();
    if (before !== undefined && (before.build_id !== buildId || before.sha256 !== use.sha256))
      throw saveIdReused();
    const id = before?.id ?? store.newId();
    if (before === undefined) {
      await db
        .insertInto('photo_use')
        .values({
          id,
          build_id: buildId,
          sha256: use.sha256,
          on_kind: use.on.kind,
          on_id: use.on.id,
          caption: use.caption,
          who: use.who,
          added: store.now(),
          removed: null,
          save_id: use.saveId,
        })
        .execute();
    }
    return await readUse(db, buildId, id);
  });
  await tellPhotos(store, buildId);
  return made;
}

async function tellPhotos(store: Store, buildId: string): Promise<void> {
  const { id, head, who, saved } = await readHead(store.db, buildId);
  store.changes.tell({ what: 'photos', id, head, who, saved });
}

/** Takes a photo off, or puts it back; the bytes stay. */
export async function setRemoved(
  store: Store,
  buildId: string,
  id: string,
  removed: boolean,
): Promise<PhotoUse> {
  const made = await store.db.transaction().execute(async (db) => {
    const use = await readUse(db, buildId, id);
    if ((use.removed !== null) === removed) return use;
    await db
      .updateTable('photo_use')
      .set({ removed: removed ? store.now() : null })
      .where('id', '=', id)
      .execute();
    return await readUse(db, buildId, id);
  });
  await tellPhotos(store, buildId);
  return made;
}

/** Photos of a build, oldest first; those taken off only when asked for. */
export async function listUses(store: Store, buildId: string, all: boolean): Promise<PhotoUse[]> {
  await readHead(store.db, buildId);
  let query = uses(store.db).where('build_id', '=', buildId);
  if (!all) query = query.where('removed', 'is', null);
  const rows = await query.orderBy('added').orderBy('photo_use.id').execute();
  return rows.map(useOf);
}

/** Rows as they are stored, those taken off left out. */
export async function usesOf(db: Store['db'], buildId: string): Promise<PhotoUseTable[]> {
  return await db
    .selectFrom('photo_use')
    .selectAll()
    .where('build_id', '=', buildId)
    .where('removed', 'is', null)
    .execute();
}

async function readUse(db: Store['db'], buildId: string, id: string): Promise<PhotoUse> {
  const row = await uses(db)
    .where('photo_use.id', '=', id)
    .where('build_id', '=', buildId)
    .executeTakeFirst();
  if (row === undefined) throw notFound(`photo ${id} on this build`);
  return useOf(row);
}

const uses = (db: Store['db']) =>
  db
    .selectFrom('photo_use')
    .innerJoin('photo', 'photo.sha256', 'photo_use.sha256')
    .selectAll('photo_use')
    .select(['photo.type', 'photo.bytes', 'photo.width', 'photo.height']);

const useOf = (
  row: PhotoUseTable & Pick<Tables['photo'], 'type' | 'bytes' | 'width' | 'height'>,
): PhotoUse => ({
  id: row.id,
  sha256: row.sha256,
  type: row.type,
  bytes: row.bytes,
  width: row.width,
  height: row.height,
  on: row.on_kind === 'place' ? { place: row.on_id } : { part: row.on_id },
  caption: row.caption,
  who: row.who,
  added: row.added,
  removed: row.removed,
});
