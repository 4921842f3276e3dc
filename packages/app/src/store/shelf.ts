/** The shelf: what of a build is put on it, and what taking it does to the build on the desk. */
import type { Change } from '@loomwright/engine';
import { buildStore, edit, reader } from '../build-store.ts';
import type { Diagnostic } from '../engine/plain.ts';
import { firstStore, giveFacts } from '../sheets/first-answer/first-store.ts';
import { viewStore } from '../view-store.ts';
import { words } from '../words.ts';
import { api, type ShelfItem } from './api.ts';

type Tree = Readonly<Record<string, unknown>>;

const treeOf = (value: unknown): Tree =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Tree) : {};
const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

const wordOf = (value: unknown): string => (typeof value === 'string' ? value : '');

export interface ToPut {
  readonly kind: 'part' | 'vehicle' | 'stock' | 'table';
  readonly name: string;
  readonly data: Tree;
}

/** What of the build on the desk may go on the shelf, the picked part first. */
export async function toPut(picked: string | null): Promise<readonly ToPut[]> {
  const { text, build } = buildStore.get();
  if (text === null || build === null) return [];
  const document = treeOf(await reader.ask.notation(text));
  const part = picked === null ? undefined : treeOf(document['parts'])[picked];
  const stock = treeOf(document['stock']);
  const surveyed = { vehicle: document['vehicle'], survey: document['survey'], climate: document['climate'] };
  return [
    ...(picked === null || part === undefined
      ? []
      : [{ kind: 'part' as const, name: picked, data: { id: picked, part } }]),
    ...(Object.keys(stock).length === 0
      ? []
      : [{ kind: 'stock' as const, name: words.shelf.stockName, data: { stock } }]),
    ...(surveyed.vehicle === undefined && surveyed.survey === undefined
      ? []
      : [{ kind: 'vehicle' as const, name: build.title, data: plain(surveyed) }]),
    ...listOf(document['confirmed']).map((entry) => ({
      kind: 'table' as const,
      name: wordOf(treeOf(entry)['table']),
      data: { confirmed: entry },
    })),
  ];
}

/** Without what is not there. */
const plain = (tree: Tree): Tree =>
  Object.fromEntries(Object.entries(tree).filter(([, value]) => value !== undefined));

export async function putOnShelf({ kind, name, data }: ToPut): Promise<void> {
  await api.putOnShelf(kind, name, data, viewStore.get().who);
}

/** Takes an item for the build on the desk; resolves with why that was refused. */
export async function takeFromShelf(item: ShelfItem): Promise<readonly Diagnostic[] | string> {
  const sizes = listOf(treeOf(item.data['stock'])['sizes']).map(wordOf);
  if (item.kind === 'stock' && firstStore.get().standing === 'six-only' && sizes.length > 0)
    return await giveFacts({ stock: sizes.join(', ') }, words.shelf.taken(item.name));
  return await edit(changesFor(item), words.shelf.taken(item.name));
}

function changesFor({ kind, data }: ShelfItem): readonly Change[] {
  const { build } = buildStore.get();
  if (kind === 'stock') return [{ set: ['stock'], to: data['stock'] }];
  if (kind === 'vehicle')
    return ['vehicle', 'survey', 'climate'].flatMap((section) =>
      data[section] === undefined ? [] : [{ set: [section], to: data[section] }],
    );
  if (kind === 'table') {
    const count = build?.confirmed.length ?? 0;
    return count === 0
      ? [{ set: ['confirmed'], to: [data['confirmed']] }]
      : [{ add: ['confirmed', count], value: data['confirmed'] }];
  }
  const { at, ...part } = treeOf(data['part']);
  const here = build?.places.has(wordOf(at)) === true ? { at } : {};
  return [{ add: ['parts', freeName(wordOf(data['id']))], value: { ...part, ...here } }];
}

/** The name, or the name with the next free number. */
function freeName(wanted: string): string {
  const { build } = buildStore.get();
  let name = wanted;
  for (let number = 2; build?.parts.has(name) === true; number += 1) name = `${wanted}-${number}`;
  return name;
}
