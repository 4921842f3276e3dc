/** Everything of the store as one archive. */
import { ask } from './api.ts';
import { listsStore } from './changes.ts';

type Fates = Readonly<Record<'added' | 'extended' | 'present' | 'keptBeside', number>>;

/** What became of the contents of an archive. */
export interface Taken {
  readonly builds: Fates;
  readonly items: Fates;
  readonly photos: { readonly added: number; readonly present: number };
}

/** An archive of many photos takes its time, ms. */
const PATIENCE = 600_000;

/** Gives an archive to the store, which proves it whole and takes all of it or nothing. Throws the refusal in words. */
export async function takeArchive(file: Blob): Promise<Taken> {
  const type = 'application/x-tar';
  const taken = await ask<Taken>('POST', '/archive', file.slice(0, file.size, type), type, PATIENCE);
  listsStore.set({ changes: listsStore.get().changes + 1 });
  return taken;
}
