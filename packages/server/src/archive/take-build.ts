/** Takes one build of an archive into the store. */
import { sha256Of } from '../photos/files.ts';
import { lendOrder } from '../store/drawing-order.ts';
import type { Store } from '../store/open.ts';
import type { Archive } from './inspect.ts';
import { revisionName, type ArchivedBuild } from './layout.ts';
import type { Fate } from './take.ts';

export async function takeBuild(store: Store, archive: Archive, build: ArchivedBuild): Promise<Fate> {
  const ours = await sumsOf(store, build.id);
  const theirs = build.revisions.map((revision) => revision.sha256);
  const common = commonLength(ours, theirs);
  if (ours.length === 0) return await addWhole(store, archive, build);
  if (common === theirs.length) {
    await addSides(store, build.id, build);
    return 'present';
  }
  if (common === ours.length) {
    await addRevisions(store, archive, build, build.id, common);
    await store.db.updateTable('build').set({ head: theirs.length }).where('id', '=', build.id).execute();
    await addSides(store, build.id, build);
    return 'extended';
  }
  return await addBeside(store, archive, build, common);
}

/** The build went another way here: theirs stands beside ours. */
async function addBeside(
  store: Store,
  archive: Archive,
  build: ArchivedBuild,
  common: number,
): Promise<Fate> {
  const print = sha256Of([build.id, ...build.revisions.map((revision) => revision.sha256)].join('\n'));
  const id = `beside-${print.slice(0, 32)}`;
  if ((await sumsOf(store, id)).length > 0) return 'present';
  const called = build.name ?? build.revisions.at(-1)?.title ?? '';
  const copiedFrom = common > 0 ? { id: build.id, revision: common } : null;
  const renamed = { ...build, id, name: `${called.slice(0, 180)} (from archive)`, copiedFrom };
  await addWhole(store, archive, renamed, build.id);
  return 'keptBeside';
}

async function addWhole(
  store: Store,
  archive: Archive,
  build: ArchivedBuild,
  source = build.id,
): Promise<Fate> {
  await store.db
    .insertInto('build')
    .values({
      id: build.id,
      name: build.name,
      head: build.revisions.length,
      created: build.created,
      archived: build.archived,
      copied_from: build.copiedFrom?.id ?? null,
      copied_revision: build.copiedFrom?.revision ?? null,
    })
    .execute();
  await addRevisions(store, archive, build, source, 0);
  await addSides(store, build.id, build);
  return 'added';
}

/** Adds the revisions behind the first `from`; their texts stand in the archive under `source`. */
async function addRevisions(
  store: Store,
  archive: Archive,
  build: ArchivedBuild,
  source: string,
  from: number,
): Promise<void> {
  for (const { saveId, ...revision } of build.revisions.slice(from)) {
    const text = (await archive.read(revisionName(source, revision.number))).toString('utf8');
    const taken = await store.db
      .selectFrom('revision')
      .select('number')
      .where('save_id', '=', saveId)
      .executeTakeFirst();
    const save_id = taken === undefined ? saveId : `${build.id}/${revision.number}`;
    await store.db
      .insertInto('revision')
      .values({ ...revision, build_id: build.id, text, save_id })
      .execute();
  }
}

/** Events, photos and the drawing's order that are not there yet. A photo whose file is neither here nor in the archive is left out. */
async function addSides(store: Store, id: string, build: ArchivedBuild): Promise<void> {
  const known = await store.db.selectFrom('event').selectAll().where('build_id', '=', id).execute();
  const keys = new Set(known.map((event) => [event.at, event.what, event.detail].join('\n')));
  for (const event of build.events)
    if (!keys.has([event.at, event.what, event.detail].join('\n')))
      await store.db
        .insertInto('event')
        .values({ ...event, build_id: id })
        .execute();
  for (const use of build.photos) await addUse(store, id, use);
  if (build.drawing !== null) await lendOrder(store.db, id, build.drawing);
}

async function addUse(store: Store, buildId: string, use: ArchivedBuild['photos'][number]): Promise<void> {
  const photo = await store.db
    .selectFrom('photo')
    .select('sha256')
    .where('sha256', '=', use.sha256)
    .executeTakeFirst();
  if (photo === undefined) return;
  const clash = await store.db
    .selectFrom('photo_use')
    .select(['id', 'build_id'])
    .where((where) => where.or([where('id', '=', use.id), where('save_id', '=', use.saveId)]))
    .execute();
  if (clash.some((other) => other.build_id === buildId)) return;
  const fresh = clash.length > 0;
  const id = fresh ? store.newId() : use.id;
  const [kind, on] = 'place' in use.on ? ['place', use.on.place] : ['part', use.on.part];
  await store.db
    .insertInto('photo_use')
    .values({
      id,
      build_id: buildId,
      sha256: use.sha256,
      on_kind: kind,
      on_id: on,
      caption: use.caption,
      who: use.who,
      added: use.added,
      removed: use.removed,
      save_id: fresh ? `${buildId}/${id}` : use.saveId,
    })
    .execute();
}

async function sumsOf(store: Store, id: string): Promise<string[]> {
  const rows = await store.db
    .selectFrom('revision')
    .select('sha256')
    .where('build_id', '=', id)
    .orderBy('number')
    .execute();
  return rows.map((row) => row.sha256);
}

/** How many of the first revisions are the same. */
export function commonLength(ours: readonly string[], theirs: readonly string[]): number {
  const differs = ours.findIndex((sum, index) => sum !== theirs[index]);
  return differs < 0 ? Math.min(ours.length, theirs.length) : differs;
}
