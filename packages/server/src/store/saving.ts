/** Saving a build: only on top of the revision that was changed, and once however often it is tried. */
import { Problem } from '../problem.ts';
import {
  addRevision,
  pair,
  readHead,
  readRevision,
  savedBefore,
  tell,
  type BuildHead,
  type Revision,
  type Saved,
  type Saving,
} from './builds.ts';
import type { Store } from './open.ts';

/**
 * Saves a revision on top of `base`. When `base` is not the newest, nothing is written and `stale-revision` is thrown, which
 * carries what was to be saved, the newest revision, and the one both came from. Saved means: on the disk.
 */
export async function saveRevision(store: Store, id: string, base: number, saving: Saving): Promise<Saved> {
  const saved = await store.db.transaction().execute(async (db): Promise<Saved> => {
    const before = await savedBefore(db, saving, id);
    if (before !== null) return before;
    const moved = await db
      .updateTable('build')
      .set({ head: base + 1 })
      .where('id', '=', id)
      .where('head', '=', base)
      .executeTakeFirst();
    if (moved.numUpdatedRows !== 1n) throw await stale(db, id, base, saving);
    const title = saving.title ?? (await readRevision(db, id, base)).title;
    await addRevision(db, id, base + 1, saving, store.now(), title);
    return { ...(await pair(db, id, base + 1)), replayed: false };
  });
  if (!saved.replayed) tell(store, saved);
  return saved;
}

async function stale(db: Store['db'], id: string, base: number, saving: Saving): Promise<Problem> {
  const build = await readHead(db, id);
  const theirs = await readRevision(db, id, build.head);
  const common = base >= 1 && base < build.head ? await readRevision(db, id, base) : null;
  return staleProblem(build, theirs, common, base, saving);
}

function staleProblem(
  build: BuildHead,
  theirs: Revision,
  common: Revision | null,
  base: number,
  { saveId, text, who, why }: Saving,
): Problem {
  const by = theirs.who === '' ? '' : ` by ${theirs.who}`;
  return new Problem({
    code: 'stale-revision',
    status: 409,
    title: 'Not saved. The build was changed meanwhile.',
    detail: `Yours changes revision ${base}; the newest is ${theirs.number}, saved${by} at ${theirs.saved}. Nothing was overwritten.`,
    todo: 'Compare the two, then save yours on top of the newest.',
    members: { build, base: common, theirs, yours: { base, saveId, text, who, why } },
  });
}
