/**
 * What is stored of a drawing with its build: order, never coordinates. It is a hint: lost or out of date, the drawing is laid out
 * afresh.
 */
import type { Id } from '../contracts/index.ts';
import type { Kept } from './sheet/layout.ts';
import type { View } from './subject.ts';

export interface Order {
  readonly version: 1;
  readonly views: Readonly<Partial<Record<View, ViewOrder>>>;
}

export interface ViewOrder {
  /** Of the whole view as on a screen. */
  readonly screen?: Kept;
  /** Of its pages: which wires stand on each, and in which order. */
  readonly pages?: readonly PageOrder[];
  /** Paper that the pages were cut for. */
  readonly paper?: string;
}

export interface PageOrder {
  readonly wires: readonly Id[];
  readonly kept: Kept;
}

export const NO_ORDER: Order = { version: 1, views: {} };

export function withView(order: Order, view: View, change: ViewOrder): Order {
  return { version: 1, views: { ...order.views, [view]: { ...order.views[view], ...change } } };
}

/** Reads an order from data of unknown origin; anything that is none gives null. */
export function readOrder(data: unknown): Order | null {
  if (!isRecord(data) || data['version'] !== 1 || !isRecord(data['views'])) return null;
  const views: Partial<Record<View, ViewOrder>> = {};
  for (const view of ['power', 'control', 'negative', 'all'] as const) {
    const read = readView(data['views'][view]);
    if (read !== null) views[view] = read;
  }
  return { version: 1, views };
}

type Loose = Readonly<Record<string, unknown>>;

const isRecord = (data: unknown): data is Loose =>
  typeof data === 'object' && data !== null && !Array.isArray(data);

const isIds = (data: unknown): data is readonly Id[] =>
  Array.isArray(data) && data.every((each) => typeof each === 'string');

function readView(data: unknown): ViewOrder | null {
  if (!isRecord(data)) return null;
  const screen = readKept(data['screen']);
  const listed = Array.isArray(data['pages']) ? data['pages'].map(readPage) : null;
  const pages = listed === null || listed.includes(null) ? null : listed.filter((page) => page !== null);
  return {
    ...(screen === null ? {} : { screen }),
    ...(pages === null ? {} : { pages }),
    ...(typeof data['paper'] === 'string' ? { paper: data['paper'] } : {}),
  };
}

function readPage(data: unknown): PageOrder | null {
  if (!isRecord(data) || !isIds(data['wires'])) return null;
  const kept = readKept(data['kept']);
  return kept === null ? null : { wires: data['wires'], kept };
}

function readKept(data: unknown): Kept | null {
  if (!isRecord(data) || !isIds(data['nodes']) || !isRecord(data['sides'])) return null;
  const sides = Object.entries(data['sides']).map(([id, side]) => {
    const [west, east] = isRecord(side) ? [side['west'], side['east']] : [null, null];
    return isIds(west) && isIds(east) ? ([id, { west, east }] as const) : null;
  });
  if (sides.includes(null)) return null;
  return {
    nodes: data['nodes'],
    sides: Object.fromEntries(sides.filter((side) => side !== null)),
    ...(data['firm'] === true ? { firm: true } : {}),
  };
}
