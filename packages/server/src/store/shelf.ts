/** The shelf: what the workshop uses again. Items are JSON documents with revisions, like builds. */
import { notFound, Problem } from '../problem.ts';
import { saveIdReused } from './builds.ts';
import type { Store } from './open.ts';
import type { Tables } from './tables.ts';

/** A part of the workshop's own, a surveyed vehicle, what is in stock, a confirmed table. */
export const SHELF_KINDS = ['part', 'vehicle', 'stock', 'table'] as const;
export type ShelfKind = (typeof SHELF_KINDS)[number];

export interface ShelfItem {
  readonly id: string;
  readonly kind: ShelfKind;
  readonly name: string;
  readonly head: number;
  readonly data: unknown;
  readonly created: string;
  readonly saved: string;
  readonly who: string;
  readonly why: string;
  readonly archived: string | null;
}

export interface ShelfRevision {
  readonly number: number;
  readonly name: string;
  readonly data: unknown;
  readonly who: string;
  readonly why: string;
  readonly saved: string;
  readonly saveId: string;
}

export interface ShelfSaving {
  readonly saveId: string;
  readonly name: string;
  readonly data: unknown;
  readonly who: string;
  readonly why: string;
}

export interface ShelfSaved {
  readonly item: ShelfItem;
  readonly replayed: boolean;
}

type Db = Store['db'];

/** Puts a new item on the shelf; once for each save id. */
export async function createItem(
  store: Store,
  kind: ShelfKind,
  wantedId: string | null,
  saving: ShelfSaving,
): Promise<ShelfSaved> {
  const saved = await store.db.transaction().execute(async (db): Promise<ShelfSaved> => {
    const before = await savedBefore(db, saving, null);
    if (before !== null) return before;
    const id = wantedId ?? store.newId();
    const taken = await db.selectFrom('shelf_item').select('id').where('id', '=', id).executeTakeFirst();
    if (taken !== undefined) throw idTaken(id);
    const now = store.now();
    await db.insertInto('shelf_item').values({ id, kind, head: 1, created: now, archived: null }).execute();
    await addRevision(db, id, 1, saving, now);
    return { item: await readItem(db, id), replayed: false };
  });
  return told(store, saved);
}

/** Saves a revision of an item on top of `base`; refused with both versions when `base` is not the newest. */
export async function saveItem(
  store: Store,
  id: string,
  base: number,
  saving: ShelfSaving,
): Promise<ShelfSaved> {
  const saved = await store.db.transaction().execute(async (db): Promise<ShelfSaved> => {
    const before = await savedBefore(db, saving, id);
    if (before !== null) return before;
    const moved = await db
      .updateTable('shelf_item')
      .set({ head: base + 1 })
      .where('id', '=', id)
      .where('head', '=', base)
      .executeTakeFirst();
    if (moved.numUpdatedRows !== 1n) throw await stale(db, id, base, saving);
    await addRevision(db, id, base + 1, saving, store.now());
    return { item: await readItem(db, id), replayed: false };
  });
  return told(store, saved);
}

export async function archiveItem(store: Store, id: string, archived: boolean): Promise<ShelfItem> {
  const item = await store.db.transaction().execute(async (db) => {
    const before = await readItem(db, id);
    if ((before.archived !== null) === archived) return before;
    await db
      .updateTable('shelf_item')
      .set({ archived: archived ? store.now() : null })
      .where('id', '=', id)
      .execute();
    return await readItem(db, id);
  });
  return told(store, { item, replayed: false }).item;
}

/** Items by name; of one kind, or of all. */
export async function listItems(
  store: Store,
  kind: ShelfKind | null,
  archived: 'no' | 'yes' | 'all',
): Promise<ShelfItem[]> {
  let query = items(store.db);
  if (kind !== null) query = query.where('kind', '=', kind);
  if (archived !== 'all') query = query.where('archived', archived === 'no' ? 'is' : 'is not', null);
  const rows = await query.orderBy('kind').orderBy('name').orderBy('id').execute();
  return rows.map(itemOf);
}

export async function readItem(db: Db, id: string): Promise<ShelfItem> {
  const row = await items(db).where('id', '=', id).executeTakeFirst();
  if (row === undefined) throw notFound(`item ${id} on the shelf`);
  return itemOf(row);
}

/** All revisions of an item, newest first. */
export async function listItemRevisions(store: Store, id: string): Promise<ShelfRevision[]> {
  await readItem(store.db, id);
  const rows = await store.db
    .selectFrom('shelf_revision')
    .selectAll()
    .where('item_id', '=', id)
    .orderBy('number', 'desc')
    .execute();
  return rows.map(revisionOf);
}

async function addRevision(
  db: Db,
  id: string,
  number: number,
  saving: ShelfSaving,
  saved: string,
): Promise<void> {
  const { name, who, why, saveId } = saving;
  const data = JSON.stringify(saving.data);
  await db
    .insertInto('shelf_revision')
    .values({ item_id: id, number, name, data, who, why, saved, save_id: saveId })
    .execute();
}

async function savedBefore(db: Db, saving: ShelfSaving, id: string | null): Promise<ShelfSaved | null> {
  const row = await db
    .selectFrom('shelf_revision')
    .selectAll()
    .where('save_id', '=', saving.saveId)
    .executeTakeFirst();
  if (row === undefined) return null;
  const same = row.name === saving.name && row.data === JSON.stringify(saving.data);
  const place = id === null ? row.number === 1 : row.item_id === id;
  if (!same || !place) throw saveIdReused();
  return { item: await readItem(db, row.item_id), replayed: true };
}

async function stale(
  db: Db,
  id: string,
  base: number,
  { saveId, name, data, who, why }: ShelfSaving,
): Promise<Problem> {
  const item = await readItem(db, id);
  return new Problem({
    code: 'stale-revision',
    status: 409,
    title: 'Not saved. The item was changed meanwhile.',
    detail: `Yours changes revision ${base} of ${item.name}; the newest is ${item.head}, saved at ${item.saved}. Nothing was overwritten.`,
    todo: 'Compare the two, then save yours on top of the newest.',
    members: { theirs: item, yours: { base, saveId, name, data, who, why } },
  });
}

const items = (db: Db) =>
  db
    .selectFrom('shelf_item')
    .innerJoin('shelf_revision', (join) =>
      join
        .onRef('shelf_revision.item_id', '=', 'shelf_item.id')
        .onRef('shelf_revision.number', '=', 'shelf_item.head'),
    )
    .select(['id', 'kind', 'head', 'created', 'archived', 'name', 'data', 'saved', 'who', 'why']);

type ItemRow = Tables['shelf_item'] &
  Pick<Tables['shelf_revision'], 'name' | 'data' | 'saved' | 'who' | 'why'>;

const itemOf = (row: ItemRow): ShelfItem => ({
  id: row.id,
  kind: row.kind as ShelfKind,
  name: row.name,
  head: row.head,
  data: JSON.parse(row.data) as unknown,
  created: row.created,
  saved: row.saved,
  who: row.who,
  why: row.why,
  archived: row.archived,
});

const revisionOf = (row: Tables['shelf_revision']): ShelfRevision => ({
  number: row.number,
  name: row.name,
  data: JSON.parse(row.data) as unknown,
  who: row.who,
  why: row.why,
  saved: row.saved,
  saveId: row.save_id,
});

function told(store: Store, saved: ShelfSaved): ShelfSaved {
  const { id, head, who, saved: at } = saved.item;
  if (!saved.replayed) store.changes.tell({ what: 'shelf', id, head, who, saved: at });
  return saved;
}

const idTaken = (id: string): Problem =>
  new Problem({
    code: 'id-taken',
    status: 409,
    title: 'Not made. The id is taken.',
    detail: `There is an item ${id} on the shelf already. Nothing was changed.`,
    todo: 'Make it again under another id, or save a revision of the one that is there.',
  });
