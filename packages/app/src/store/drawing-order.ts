/**
 * The order of the drawing of the build on the desk. It is kept with the build: on the store, and in this browser where there is
 * none or it does not answer. It is a hint: lost or out of date, the drawing is laid out afresh.
 */
import { readOrder, type Order } from '@loomwright/engine';
import { buildStore } from '../build-store.ts';
import { api, hasServer } from './api.ts';
import { keepOrderHere, orderHere } from './db.ts';
import { keepingStore } from './keeping.ts';
import { Store } from './store.ts';

/** Rises when a person changed the order: the drawing on view is to follow. */
export const orderStore = new Store({ changes: 0 });

let opened = -1;
let id: string | null = null;
let order: Order | null = null;
let unsent = false;
let ready: Promise<void> = Promise.resolve();
let timer: ReturnType<typeof setTimeout> | undefined;

const QUIET = 1500;

/** The order, once what is kept of it is known. */
export async function orderNow(): Promise<Order | null> {
  follow();
  await ready;
  return order;
}

/** The order as it is at hand. */
export const orderAtHand = (): Order | null => order;

/** Keeps the order of a drawing that was just laid out. */
export function keepOrder(next: Order): void {
  if (JSON.stringify(next) === JSON.stringify(order)) return;
  order = next;
  unsent = true;
  later();
}

keepingStore.watch(follow);

/** Another build on the desk has another order; one that has just been given a place takes its own along. */
function follow(): void {
  const now = keepingStore.get();
  if (now.opened !== opened) {
    clearTimeout(timer);
    [opened, id, order, unsent] = [now.opened, now.id, null, false];
    ready = id === null ? Promise.resolve() : load(id);
  } else if (now.id !== id) {
    ({ id } = now);
    later();
  } else if (unsent && now.base > 0) later();
}

buildStore.watch(() => {
  const { arranged } = buildStore.get();
  if (arranged === null || arranged === arrangedBefore) return;
  arrangedBefore = arranged;
  keepOrder(arranged);
  orderStore.set({ changes: orderStore.get().changes + 1 });
});
let arrangedBefore: Order | null = null;

async function load(wanted: string): Promise<void> {
  const [here, there] = await Promise.all([
    orderHere(wanted).catch(() => null),
    hasServer ? api.order(wanted).catch(() => null) : null,
  ]);
  if (id !== wanted || order !== null) return;
  const mine = here === null ? null : readOrder(here.order);
  order = here?.unsent === true ? mine : (readOrder(there) ?? mine);
  unsent = here?.unsent === true && mine !== null;
  if (unsent) later();
}

function later(): void {
  clearTimeout(timer);
  timer = setTimeout(() => void keep(), QUIET);
}

async function keep(): Promise<void> {
  if (id === null || order === null) return;
  const [own, now] = [id, order];
  const sends = hasServer && unsent && keepingStore.get().base > 0;
  const sent =
    sends &&
    (await api.keepOrder(own, now).then(
      () => true,
      () => false,
    ));
  if (sent && order === now) unsent = false;
  await keepOrderHere({ id: own, order: now, unsent: hasServer && !sent }).catch(() => undefined);
}
