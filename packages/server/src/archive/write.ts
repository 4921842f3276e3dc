/** Writes everything that a store holds as one archive, piece by piece. */
import { sha256Of } from '../photos/files.ts';
import { extensionOf } from '../photos/sniff.ts';
import { readOrder } from '../store/drawing-order.ts';
import type { Store } from '../store/open.ts';
import { HEAD_NAME, revisionName, SUMS_NAME, type ArchivedBuild, type ArchivedItem } from './layout.ts';
import { paddingOf, tarEnd, tarHead } from './tar.ts';

type Db = Store['db'];

/** What was written, for those who tell it. */
export interface Written {
  builds: number;
  items: number;
  photos: number;
  /** SHA-256 of photos whose files are gone or damaged; they are not in the archive. */
  missing: string[];
}

/** Takes files and gives their blocks; keeps the sums. */
class Packer {
  readonly #sums: string[] = [];
  readonly #time: number;

  constructor(made: string) {
    this.#time = Math.floor(Date.parse(made) / 1000);
  }

  *file(name: string, content: Uint8Array | string): Generator<Buffer> {
    const bytes = Buffer.from(content as string);
    this.#sums.push(`${sha256Of(bytes)}  ${name}\n`);
    yield* this.#blocks(name, bytes);
  }

  *end(): Generator<Buffer> {
    yield* this.#blocks(SUMS_NAME, Buffer.from(this.#sums.join('')));
    yield tarEnd();
  }

  *#blocks(name: string, bytes: Buffer): Generator<Buffer> {
    yield tarHead({ name, size: bytes.length }, this.#time);
    yield bytes;
    const padding = paddingOf(bytes.length);
    if (padding > 0) yield Buffer.alloc(padding);
  }
}

/**
 * The archive's bytes. `store` is a reading view (`readStore`): all of it is read in one transaction, so that what is saved
 * meanwhile does not tear it. The order is fixed: two archives of one state differ in `made` only.
 */
export async function* writeArchive(
  store: Store,
  made: string,
  written: Written = nothing(),
): AsyncGenerator<Buffer> {
  const transaction = await store.db.startTransaction().execute();
  try {
    yield* writeAll(transaction, store, made, written);
  } finally {
    await transaction.rollback().execute();
  }
}

export const nothing = (): Written => ({ builds: 0, items: 0, photos: 0, missing: [] });

async function* writeAll(db: Db, store: Store, made: string, written: Written): AsyncGenerator<Buffer> {
  const builds = await db.selectFrom('build').selectAll().orderBy('id').execute();
  const items = await db.selectFrom('shelf_item').selectAll().orderBy('id').execute();
  const photos = await db.selectFrom('photo').select(['sha256', 'type']).orderBy('sha256').execute();
  for (const { sha256 } of photos) if (!(await store.photos.holds(sha256))) written.missing.push(sha256);
  const missing = new Set(written.missing);
  Object.assign(written, {
    builds: builds.length,
    items: items.length,
    photos: photos.length - missing.size,
  });
  const packer = new Packer(made);
  const { missing: _, ...counts } = written;
  yield* packer.file(HEAD_NAME, json({ format: 1, made, ...counts, missing: missing.size }));
  for (const build of builds) yield* writeBuild(db, packer, build);
  for (const item of items) yield* packer.file(`shelf/${item.id}.json`, json(await archivedItem(db, item)));
  for (const { sha256, type } of photos)
    if (!missing.has(sha256))
      yield* packer.file(`photos/${sha256}.${extensionOf(type)}`, await store.photos.read(sha256));
  yield* packer.end();
}

type BuildRow = Awaited<ReturnType<typeof buildRow>>;
const buildRow = (db: Db) => db.selectFrom('build').selectAll().executeTakeFirstOrThrow();

async function* writeBuild(db: Db, packer: Packer, build: BuildRow): AsyncGenerator<Buffer> {
  for (let number = 1; number <= build.head; number += 1) {
    const { text } = await db
      .selectFrom('revision')
      .select('text')
      .where('build_id', '=', build.id)
      .where('number', '=', number)
      .executeTakeFirstOrThrow();
    yield* packer.file(revisionName(build.id, number), text);
  }
  yield* packer.file(`builds/${build.id}/build.json`, json(await archivedBuild(db, build)));
}

async function archivedBuild(db: Db, build: BuildRow): Promise<ArchivedBuild> {
  const revisions = await db
    .selectFrom('revision')
    .select(['number', 'sha256', 'title', 'faults', 'who', 'why', 'saved', 'save_id as saveId'])
    .where('build_id', '=', build.id)
    .orderBy('number')
    .execute();
  const events = await db
    .selectFrom('event')
    .select(['at', 'who', 'why', 'what', 'detail'])
    .where('build_id', '=', build.id)
    .orderBy('sequence')
    .execute();
  const uses = await db
    .selectFrom('photo_use')
    .selectAll()
    .where('build_id', '=', build.id)
    .orderBy('added')
    .orderBy('id')
    .execute();
  const { copied_from: from, copied_revision: revision } = build;
  return {
    id: build.id,
    name: build.name,
    created: build.created,
    archived: build.archived,
    copiedFrom: from === null || revision === null ? null : { id: from, revision },
    revisions,
    events,
    photos: uses.map((use) => ({
      id: use.id,
      sha256: use.sha256,
      on: use.on_kind === 'place' ? { place: use.on_id } : { part: use.on_id },
      caption: use.caption,
      who: use.who,
      added: use.added,
      removed: use.removed,
      saveId: use.save_id,
    })),
    drawing: await readOrder(db, build.id),
  };
}

async function archivedItem(
  db: Db,
  item: {
    readonly id: string;
    readonly kind: string;
    readonly created: string;
    readonly archived: string | null;
  },
): Promise<ArchivedItem> {
  const revisions = await db
    .selectFrom('shelf_revision')
    .selectAll()
    .where('item_id', '=', item.id)
    .orderBy('number')
    .execute();
  return {
    id: item.id,
    kind: item.kind as ArchivedItem['kind'],
    created: item.created,
    archived: item.archived,
    revisions: revisions.map((row) => ({
      number: row.number,
      name: row.name,
      data: JSON.parse(row.data) as unknown,
      who: row.who,
      why: row.why,
      saved: row.saved,
      saveId: row.save_id,
    })),
  };
}

const json = (value: unknown): string => `${JSON.stringify(value, null, 1)}\n`;
