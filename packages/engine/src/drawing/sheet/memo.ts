/**
 * Remembers layouts by what they depend on: boxes, ports, label boxes, options. An edit that changes none of them (a rating, a
 * length, most names) keeps every position and only rewrites the words.
 */
import type { Frame } from './frame.ts';
import { framesOf, layOut, orderOf, type LayoutOptions } from './layout.ts';
import { portId, type Edge, type Port, type SheetModel } from './model.ts';
import type { Picture } from './picture.ts';

export interface Layouts {
  layOut(model: SheetModel, options: Omit<LayoutOptions, 'elk'>): Promise<Picture>;
  /** The same when it is known already. */
  known(model: SheetModel, options: Omit<LayoutOptions, 'elk'>): Picture | null;
  /** Runs of the layout library so far. */
  readonly runs: number;
}

/** Pictures that are kept; the oldest goes first. */
const MOST = 200;

export function makeLayouts(elk: LayoutOptions['elk']): Layouts {
  const kept = new Map<string, Picture>();
  let runs = 0;
  const counted: LayoutOptions['elk'] = async (graph) => {
    runs += 1;
    return elk(graph);
  };
  const known: Layouts['known'] = (model, options) => {
    const old = kept.get(signature(model, options));
    return old === undefined ? null : reworded(old, model);
  };
  const keep = (key: string, picture: Picture): void => {
    kept.set(key, picture);
    const [oldest] = kept.keys();
    if (kept.size > MOST && oldest !== undefined) kept.delete(oldest);
  };
  return {
    known,
    layOut: async (model, options) => {
      const old = known(model, options);
      if (old !== null) return old;
      const made = await layOut(model, { ...options, elk: counted });
      keep(signature(model, options), made);
      // Asked for again in its own order, it stays as it is.
      keep(signature(model, { ...options, kept: orderOf(made, options.kept) }), made);
      return made;
    },
    get runs() {
      return runs;
    },
  };
}

const sideOf = (ports: readonly Port[]): readonly string[] =>
  ports.map((port) => `${portId(port)} ${port.terminal}`);

function signature(model: SheetModel, options: Omit<LayoutOptions, 'elk'>): string {
  const frames = framesOf(model, options.air);
  const nodes = model.nodes.map((node) => [
    node.id,
    node.place,
    node.shape,
    sideOf(node.west),
    sideOf(node.east),
    sizes(frames.get(node.id)),
  ]);
  const edges = model.edges.map(({ wire, label }) => [
    wire.id,
    label.width,
    label.up,
    label.down,
    (wire.areaMm2 ?? 0) >= 10,
  ]);
  const how = options.kept ?? [options.thoroughness, options.orders];
  return JSON.stringify([nodes, edges, model.places, options.air, how]);
}

const sizes = (frame: Frame | undefined): unknown =>
  frame === undefined ? null : [frame.width, frame.height, frame.core, [...frame.ports.values()]];

const sameWay = (a: Edge, b: Edge): boolean =>
  a.source.node === b.source.node &&
  a.target.node === b.target.node &&
  portId(a.source.port) === portId(b.source.port);

/** The same positions with the words of another model: what that has no more is left out, what is new in it is not there yet. */
export function reworded(picture: Picture, model: SheetModel): Picture {
  const nodes = new Map(model.nodes.map((node) => [node.id, node]));
  const edges = new Map(model.edges.map((edge) => [edge.wire.id, edge]));
  return {
    nodes: picture.nodes.flatMap((placed) => {
      const node = nodes.get(placed.node.id);
      const { west, east } = placed.node;
      return node === undefined ? [] : [{ ...placed, node: { ...node, west, east } }];
    }),
    wires: picture.wires.flatMap((wire) => {
      const edge = edges.get(wire.edge.wire.id);
      return edge === undefined || !sameWay(edge, wire.edge) ? [] : [{ ...wire, edge }];
    }),
  };
}
