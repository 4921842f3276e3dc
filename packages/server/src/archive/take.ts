/** Takes the contents of an archive into a store. What is there already is never changed: it is added to, or stood beside. */
import type { Photo } from '../store/photo-uses.ts';
import { notePhoto } from '../store/photo-uses.ts';
import type { Store } from '../store/open.ts';
import { contentsOf } from './contents.ts';
import { Archive } from './inspect.ts';
import { takeBuild } from './take-build.ts';
import { takeItem } from './take-item.ts';

/** How something of the archive ended up. */
export type Fate = 'added' | 'extended' | 'present' | 'keptBeside';

export interface Taken {
  readonly builds: Readonly<Record<Fate, number>>;
  readonly items: Readonly<Record<Fate, number>>;
  readonly photos: { readonly added: number; readonly present: number };
}

/**
 * Takes an archive: proved whole first, then all of it in one transaction or nothing. A build that is not here is added; one
 * whose history goes on in the archive is extended; one that went another way is added beside ours under an id made from its
 * contents, so that taking the same archive again adds nothing.
 */
export async function takeArchive(store: Store, path: string): Promise<Taken> {
  const archive = await Archive.open(path);
  try {
    const contents = await contentsOf(archive);
    const photos = await takePhotos(store, archive, contents.photos);
    const builds = none();
    const items = none();
    await store.db.transaction().execute(async (db) => {
      const inside = { ...store, db };
      for (const photo of contents.photos) await notePhoto(inside, bare(photo));
      for (const build of contents.builds) builds[await takeBuild(inside, archive, build)] += 1;
      for (const item of contents.items) items[await takeItem(inside, item)] += 1;
    });
    return { builds, items, photos };
  } finally {
    await archive.close();
  }
}

const none = (): Record<Fate, number> => ({ added: 0, extended: 0, present: 0, keptBeside: 0 });

const bare = ({ sha256, type, bytes, width, height }: Photo): Photo => ({
  sha256,
  type,
  bytes,
  width,
  height,
});

/** The files first: one that no row names does no harm, a row without a file would. */
async function takePhotos(
  store: Store,
  archive: Archive,
  photos: readonly (Photo & { readonly name: string })[],
): Promise<Taken['photos']> {
  let added = 0;
  for (const { sha256, name } of photos) {
    if (await store.photos.holds(sha256)) continue;
    await store.photos.keep(await archive.read(name));
    added += 1;
  }
  return { added, present: photos.length - added };
}
