/** Builds: making, listing, reading. */
import type { ExpressionBuilder, Transaction } from 'kysely';
import { notFound, Problem } from '../problem.ts';
import { sha256Of } from '../photos/files.ts';
import type { Store } from './open.ts';
import type { Tables } from './tables.ts';

/** A build without its text. */
export interface BuildHead {
  readonly id: string;
  /** What the workshop calls it; null: it goes by its title. */
  readonly name: string | null;
  readonly title: string;
  /** Number of the newest revision. */
  readonly head: number;
  /** Errors of the newest revision's document; above 0 it is a draft. */
  readonly faults: number;
  readonly draft: boolean;
  readonly created: string;
  /** When, by whom and why the newest revision was saved. */
  readonly saved: string;
  readonly who: string;
  readonly why: string;
  readonly archived: string | null;
  readonly copiedFrom: { readonly id: string; readonly revision: number } | null;
}

export interface RevisionHead {
  readonly number: number;
  readonly title: string;
  readonly faults: number;
  readonly who: string;
  readonly why: string;
  readonly saved: string;
  readonly saveId: string;
  readonly sha256: string;
}

export interface Revision extends RevisionHead {
  readonly text: string;
}

/** Who saves what, and why. */
export interface Saving {
  readonly saveId: string;
  readonly text: string;
  readonly title: string | null;
  readonly faults: number;
  readonly who: string;
  readonly why: string;
}

export interface NewBuild extends Saving {
  /** Chosen by the one who makes it, so that it can be made without a server; null: any. */
  readonly id: string | null;
  readonly name: string | null;
  readonly copiedFrom?: { readonly id: string; readonly revision: number };
}

export interface Saved {
  readonly build: BuildHead;
  readonly revision: RevisionHead;
  /** It was saved already, by an earlier try with the same save id. */
  readonly replayed: boolean;
}

type Db = Store['db'] | Transaction<Tables>;

export const UNTITLED = 'Untitled';

/** Makes a build with its first revision; a second try with the same save id gives the first one's result. */
export async function createBuild(store: Store, build: NewBuild): Promise<Saved> {
  const saved = await store.db.transaction().execute(async (db) => {
    const before = await savedBefore(db, build);
    if (before !== null) return before;
    const id = build.id ?? store.newId();
    const taken = await db.selectFrom('build').select('id').where('id', '=', id).executeTakeFirst();
    if (taken !== undefined) throw idTaken(id);
    const now = store.now();
    const { copiedFrom } = build;
    await db
      .insertInto('build')
      .values({
        id,
        name: build.name,
        head: 1,
        created: now,
        archived: null,
        copied_from: copiedFrom?.id ?? null,
        copied_revision: copiedFrom?.revision ?? null,
      })
      .execute();
    await addRevision(db, id, 1, build, now, build.title ?? build.name ?? UNTITLED);
    return { ...(await pair(db, id, 1)), replayed: false };
  });
  if (!saved.replayed) tell(store, saved);
  return saved;
}

/** The revision with this save id, when its text is the same; throws when the id was used for something else. */
export async function savedBefore(db: Db, saving: Saving, buildId?: string): Promise<Saved | null> {
  const row = await db
    .selectFrom('revision')
    .select(['build_id', 'number', 'sha256'])
    .where('save_id', '=', saving.saveId)
    .executeTakeFirst();
  if (row === undefined) return null;
  const same = row.sha256 === sha256Of(saving.text) && (buildId ?? row.build_id) === row.build_id;
  if (!same || (buildId === undefined && row.number !== 1)) throw saveIdReused();
  return { ...(await pair(db, row.build_id, row.number)), replayed: true };
}

export async function addRevision(
  db: Db,
  buildId: string,
  number: number,
  { text, faults, who, why, saveId }: Saving,
  saved: string,
  title: string,
): Promise<void> {
  await db
    .insertInto('revision')
    .values({
      build_id: buildId,
      number,
      text,
      sha256: sha256Of(text),
      title,
      faults,
      who,
      why,
      saved,
      save_id: saveId,
    })
    .execute();
}

export async function pair(db: Db, id: string, number: number): Promise<Omit<Saved, 'replayed'>> {
  return { build: await readHead(db, id), revision: headOf(await readRevision(db, id, number)) };
}

/** The build with its newest text. */
export async function readBuild(store: Store, id: string): Promise<{ build: BuildHead; revision: Revision }> {
  const build = await readHead(store.db, id);
  // A revision that is there stays as it is, so the two belong together without a transaction.
  return { build, revision: await readRevision(store.db, id, build.head) };
}

export async function readHead(db: Db, id: string): Promise<BuildHead> {
  const row = await heads(db).where('build.id', '=', id).executeTakeFirst();
  if (row === undefined) throw notFound(`build ${id}`);
  return buildHead(row);
}

export interface Wanted {
  readonly archived: 'no' | 'yes' | 'all';
  /** Part of a name or title, in any case (of ASCII letters); empty: all. */
  readonly search: string;
  readonly limit: number;
}

/** Builds, last saved first. `more`: there were others behind the limit. */
export async function listBuilds(
  store: Store,
  { archived, search, limit }: Wanted,
): Promise<{ builds: BuildHead[]; more: boolean }> {
  let query = heads(store.db);
  if (archived === 'no') query = query.where('build.archived', 'is', null);
  if (archived === 'yes') query = query.where('build.archived', 'is not', null);
  if (search !== '') query = query.where((where) => holds(where, search));
  const rows = await query
    .orderBy('revision.saved', 'desc')
    .orderBy('build.id')
    .limit(limit + 1)
    .execute();
  return { builds: rows.slice(0, limit).map(buildHead), more: rows.length > limit };
}

function holds(
  where: ExpressionBuilder<Pick<Tables, 'build' | 'revision'>, 'build' | 'revision'>,
  search: string,
) {
  const wanted = search.toLowerCase();
  const found = (column: 'build.name' | 'revision.title') =>
    where(where.fn<number>('instr', [where.fn('lower', [column]), where.val(wanted)]), '>', 0);
  return where.or([found('build.name'), found('revision.title')]);
}

export async function readRevision(db: Db, id: string, number: number): Promise<Revision> {
  const row = await db
    .selectFrom('revision')
    .selectAll()
    .where('build_id', '=', id)
    .where('number', '=', number)
    .executeTakeFirst();
  if (row === undefined) throw notFound(`revision ${number} of build ${id}`);
  return { ...revisionHead(row), text: row.text };
}

const HEAD_COLUMNS = ['number', 'title', 'faults', 'who', 'why', 'saved', 'save_id', 'sha256'] as const;

/** Revisions without their texts, newest first, below `before`. */
export async function listRevisions(
  store: Store,
  id: string,
  before: number | null,
  limit: number,
): Promise<{ revisions: RevisionHead[]; more: boolean }> {
  await readHead(store.db, id);
  let query = store.db.selectFrom('revision').select(HEAD_COLUMNS).where('build_id', '=', id);
  if (before !== null) query = query.where('number', '<', before);
  const rows = await query
    .orderBy('number', 'desc')
    .limit(limit + 1)
    .execute();
  return { revisions: rows.slice(0, limit).map(revisionHead), more: rows.length > limit };
}

function heads(db: Db) {
  return db
    .selectFrom('build')
    .innerJoin('revision', (join) =>
      join.onRef('revision.build_id', '=', 'build.id').onRef('revision.number', '=', 'build.head'),
    )
    .select([
      'build.id',
      'build.name',
      'build.head',
      'build.created',
      'build.archived',
      'build.copied_from',
      'build.copied_revision',
      'revision.title',
      'revision.faults',
      'revision.saved',
      'revision.who',
      'revision.why',
    ]);
}

type HeadRow = Tables['build'] & Pick<Tables['revision'], 'title' | 'faults' | 'saved' | 'who' | 'why'>;

const buildHead = (row: HeadRow): BuildHead => ({
  id: row.id,
  name: row.name,
  title: row.title,
  head: row.head,
  faults: row.faults,
  draft: row.faults > 0,
  created: row.created,
  saved: row.saved,
  who: row.who,
  why: row.why,
  archived: row.archived,
  copiedFrom:
    row.copied_from === null || row.copied_revision === null
      ? null
      : { id: row.copied_from, revision: row.copied_revision },
});

const revisionHead = (row: Pick<Tables['revision'], (typeof HEAD_COLUMNS)[number]>): RevisionHead => ({
  number: row.number,
  title: row.title,
  faults: row.faults,
  who: row.who,
  why: row.why,
  saved: row.saved,
  saveId: row.save_id,
  sha256: row.sha256,
});

/** A revision without its text. */
export function headOf(revision: Revision): RevisionHead {
  const { number, title, faults, who, why, saved, saveId, sha256 } = revision;
  return { number, title, faults, who, why, saved, saveId, sha256 };
}

export function tell(store: Store, { build }: Pick<Saved, 'build'>): void {
  store.changes.tell({ what: 'build', id: build.id, head: build.head, who: build.who, saved: build.saved });
}

const idTaken = (id: string): Problem =>
  new Problem({
    code: 'id-taken',
    status: 409,
    title: 'Not made. The id is taken.',
    detail: `There is a build ${id} already. Nothing was changed.`,
    todo: 'Make it again under another id, or save a revision of the one that is there.',
  });

export const saveIdReused = (): Problem =>
  new Problem({
    code: 'save-id-reused',
    status: 409,
    title: 'Not saved. The save id was used before.',
    detail: 'The same save id came earlier with other contents. Nothing was changed.',
    todo: 'Make a new save id for every new save; keep it only for tries of the same save.',
  });
