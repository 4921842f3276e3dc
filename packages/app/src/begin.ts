/** What is on the desk when the app opens: the build of the address, else the last one, else six facts. */
import { beginIfNone } from './sheets/first-answer/first-store.ts';
import { keepAddress, lastBuild, readAddress } from './store/address.ts';
import { exampleAt } from './store/examples.ts';
import { listenToStore } from './store/changes.ts';
import { openKept } from './store/keeping.ts';
import { openExample } from './store/open-example.ts';
import { viewStore } from './view-store.ts';

export async function begin(): Promise<void> {
  const { id, sheet } = readAddress();
  if (sheet !== null) viewStore.set({ sheet });
  const example = exampleAt(id);
  const wanted = location.hash.startsWith('#/new') ? null : (id ?? lastBuild());
  if (example !== null) await openExample(example);
  else if (wanted === null || !(await openKept(wanted).catch(() => false))) await beginIfNone();
  keepAddress();
  listenToStore();
}
