/** What this browser keeps: every build on a desk with its way back, until it is safe on the disk and after. */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Order } from '@loomwright/engine';
import type { Step } from './steps.ts';

export interface KeptBuild {
  /** `build/window`: two windows on one build never write over each other. */
  readonly key: string;
  readonly id: string;
  readonly window: string;
  readonly title: string;
  readonly text: string;
  /** The text as it is safe on the server, and its revision; null and 0: not there. */
  readonly baseText: string | null;
  readonly base: number;
  /** Changes that are not on the server. */
  readonly unsent: number;
  /** A save that was tried and not answered: tried again under the same name, so that it is saved once. */
  readonly sending: { readonly saveId: string; readonly text: string; readonly why?: string } | null;
  readonly back: readonly Step[];
  readonly forth: readonly Step[];
  /** When it was changed here last. */
  readonly at: string;
}

/** The order of a build's drawing; `unsent`: the store does not have it yet. */
export interface KeptOrder {
  readonly id: string;
  readonly order: Order;
  readonly unsent: boolean;
}

interface Schema extends DBSchema {
  orders: { key: string; value: KeptOrder };
  builds: { key: string; value: KeptBuild; indexes: { id: string } };
}

let opening: Promise<IDBPDatabase<Schema>> | null = null;

async function database(): Promise<IDBPDatabase<Schema>> {
  opening ??= openDB<Schema>('loomwright', 2, {
    upgrade(db, from) {
      if (from < 1) db.createObjectStore('builds', { keyPath: 'key' }).createIndex('id', 'id');
      if (from < 2) db.createObjectStore('orders', { keyPath: 'id' });
    },
    // Another window opened a newer version of the app: it may bring the database up to date.
    blocking(_current, _blocked, event) {
      (event.target as IDBDatabase | null)?.close();
      opening = null;
    },
  });
  return await opening;
}

export async function keepBuild(build: KeptBuild): Promise<void> {
  await (await database()).put('builds', build);
}

export async function forgetBuild(key: string): Promise<void> {
  await (await database()).delete('builds', key);
}

export async function keptOf(id: string): Promise<readonly KeptBuild[]> {
  return await (await database()).getAllFromIndex('builds', 'id', id);
}

export async function allKept(): Promise<readonly KeptBuild[]> {
  return await (await database()).getAll('builds');
}

export async function keepOrderHere(kept: KeptOrder): Promise<void> {
  await (await database()).put('orders', kept);
}

export async function orderHere(id: string): Promise<KeptOrder | null> {
  return (await (await database()).get('orders', id)) ?? null;
}
