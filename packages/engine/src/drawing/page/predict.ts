/**
 * How large a drawing of some wires will be, guessed without laying it out: its columns by longest paths inside each place, the
 * widest box of each, the labels between them; the tallest column.
 */
import type { Id } from '../../contracts/index.ts';
import type { Frame } from '../sheet/frame.ts';
import { framesOf } from '../sheet/layout.ts';
import type { Node, SheetModel } from '../sheet/model.ts';
import type { Subject } from '../subject.ts';
import { leastWidth } from './bands.ts';

export interface Guess {
  readonly width: number;
  readonly height: number;
}

/** Between two columns beside the label, mm. */
const GAP = 3.6;
const BAND_PAD = 4;
const WHITE = 4;

interface Columns {
  readonly layerOf: ReadonlyMap<Id, number>;
  /** Number of layers by place. */
  readonly depth: ReadonlyMap<number, number>;
}

export function guess(model: SheetModel, subject: Subject, air: number): Guess {
  const frames = framesOf(model, air);
  const columns = columnsOf(model);
  let width = 0;
  let height = 0;
  model.places.forEach((place, i) => {
    const inside = placeSize(model, frames, columns, place, air);
    const label = subject.places[place]?.label ?? '';
    width += Math.max(inside.width + BAND_PAD, leastWidth(label));
    height = Math.max(height, inside.height);
    if (i + 1 < model.places.length) width += between(model, place);
  });
  return { width, height };
}

/** Room between two places: the widest label of a wire that leaves the first towards the tail. */
function between(model: SheetModel, place: number): number {
  const labels = model.edges.filter(
    (e) => placeIn(model, e.source.node) === place && placeIn(model, e.target.node) !== place,
  );
  const label = Math.max(0, ...labels.map((e) => e.label.width));
  return Math.max(WHITE, label + GAP - BAND_PAD);
}

const nodesKnown = new WeakMap<SheetModel, ReadonlyMap<Id, Node>>();

function nodesIn(model: SheetModel): ReadonlyMap<Id, Node> {
  const known = nodesKnown.get(model);
  if (known !== undefined) return known;
  const made = new Map(model.nodes.map((node) => [node.id, node]));
  nodesKnown.set(model, made);
  return made;
}

const placeIn = (model: SheetModel, id: Id): number => nodesIn(model).get(id)?.place ?? 0;

/** Longest path from the west along wires inside a place. */
export function columnsOf(model: SheetModel): Columns {
  const before = new Map<Id, Id[]>();
  for (const { source, target } of model.edges) {
    if (placeIn(model, source.node) !== placeIn(model, target.node)) continue;
    before.set(target.node, [...(before.get(target.node) ?? []), source.node]);
  }
  const layerOf = new Map<Id, number>();
  const visit = (id: Id, open: ReadonlySet<Id>): number => {
    const known = layerOf.get(id);
    if (known !== undefined) return known;
    // A ring of wires: the one that closes it does not count.
    const list = (before.get(id) ?? []).filter((each) => !open.has(each));
    const layer = Math.max(-1, ...list.map((each) => visit(each, new Set([...open, id])))) + 1;
    layerOf.set(id, layer);
    return layer;
  };
  const depth = new Map<number, number>();
  for (const node of model.nodes) {
    const layer = visit(node.id, new Set([node.id]));
    depth.set(node.place, Math.max(depth.get(node.place) ?? 0, layer + 1));
  }
  return { layerOf, depth };
}

function placeSize(
  model: SheetModel,
  frames: ReadonlyMap<Id, Frame>,
  { layerOf, depth }: Columns,
  place: number,
  air: number,
): { readonly width: number; readonly height: number } {
  const count = depth.get(place) ?? 0;
  let width = 0;
  let tallest = 0;
  for (let layer = 0; layer < count; layer += 1) {
    const nodes = model.nodes.filter((node) => node.place === place && layerOf.get(node.id) === layer);
    width += Math.max(0, ...nodes.map((node) => frames.get(node.id)?.width ?? 0));
    const boxes = nodes.reduce((sum, node) => sum + (frames.get(node.id)?.height ?? 0) + air, -air);
    const passing = model.edges.filter((e) => passes(model, layerOf, e, place, layer));
    const lanes = passing.reduce((sum, e) => sum + e.label.up + e.label.down + air, 0);
    tallest = Math.max(tallest, boxes + lanes);
    if (layer + 1 === count) continue;
    const inside = model.edges.filter(
      (e) =>
        placeIn(model, e.source.node) === place &&
        placeIn(model, e.target.node) === place &&
        layerOf.get(e.source.node) === layer,
    );
    width += Math.max(0, ...inside.map((e) => e.label.width)) + GAP;
  }
  return { width, height: tallest };
}

/** A wire goes by a column without ending in it. */
function passes(
  model: SheetModel,
  layerOf: ReadonlyMap<Id, number>,
  { source, target }: SheetModel['edges'][number],
  place: number,
  layer: number,
): boolean {
  const before = (node: Id): boolean =>
    placeIn(model, node) < place || (placeIn(model, node) === place && (layerOf.get(node) ?? 0) < layer);
  const behind = (node: Id): boolean =>
    placeIn(model, node) > place || (placeIn(model, node) === place && (layerOf.get(node) ?? 0) > layer);
  return before(source.node) && behind(target.node);
}
