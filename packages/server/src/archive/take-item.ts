/** Takes one item of an archive's shelf into the store. */
import { sha256Of } from '../photos/files.ts';
import type { Store } from '../store/open.ts';
import type { ArchivedItem } from './layout.ts';
import { commonLength } from './take-build.ts';
import type { Fate } from './take.ts';

export async function takeItem(store: Store, item: ArchivedItem): Promise<Fate> {
  const ours = await sumsOf(store, item.id);
  const theirs = item.revisions.map(({ name, data }) => sumOf(name, JSON.stringify(data)));
  const common = commonLength(ours, theirs);
  if (ours.length === 0) return await addWhole(store, item);
  if (common === theirs.length) return 'present';
  if (common === ours.length) {
    await addRevisions(store, item, common);
    await store.db.updateTable('shelf_item').set({ head: theirs.length }).where('id', '=', item.id).execute();
    return 'extended';
  }
  const id = `beside-${sha256Of([item.id, ...theirs].join('\n')).slice(0, 32)}`;
  if ((await sumsOf(store, id)).length > 0) return 'present';
  const revisions = item.revisions.map((each) => ({
    ...each,
    name: `${each.name.slice(0, 180)} (from archive)`,
  }));
  await addWhole(store, { ...item, id, revisions });
  return 'keptBeside';
}

async function addWhole(store: Store, item: ArchivedItem): Promise<Fate> {
  const { id, kind, created, archived, revisions } = item;
  await store.db
    .insertInto('shelf_item')
    .values({ id, kind, head: revisions.length, created, archived })
    .execute();
  await addRevisions(store, item, 0);
  return 'added';
}

async function addRevisions(store: Store, item: ArchivedItem, from: number): Promise<void> {
  for (const { saveId, data, ...revision } of item.revisions.slice(from)) {
    const taken = await store.db
      .selectFrom('shelf_revision')
      .select('number')
      .where('save_id', '=', saveId)
      .executeTakeFirst();
    const save_id = taken === undefined ? saveId : `${item.id}/${revision.number}`;
    await store.db
      .insertInto('shelf_revision')
      .values({ ...revision, item_id: item.id, data: JSON.stringify(data), save_id })
      .execute();
  }
}

async function sumsOf(store: Store, id: string): Promise<string[]> {
  const rows = await store.db
    .selectFrom('shelf_revision')
    .select(['name', 'data'])
    .where('item_id', '=', id)
    .orderBy('number')
    .execute();
  return rows.map(({ name, data }) => sumOf(name, data));
}

const sumOf = (name: string, data: string): string => sha256Of(`${name}\n${data}`);
