/**
 * Remembers layouts by what they depend on: boxes, ports, label boxes, options. An edit that changes none of them (a rating, a
 * length, most names) keeps every position and only rewrites the words.
 */
import type { Frame } from './frame.ts';
import { framesOf, layOut, orderOf, type LayoutOptions } from './layout.ts';
import { portId, type Port, type SheetModel } from './model.ts';
import type { Picture } from './picture.ts';
import { added } from './add/added.ts';
import { refitted, reworded } from './refit.ts';

export interface Layouts {
  layOut(model: SheetModel, options: Omit<LayoutOptions, 'elk'>): Promise<Picture>;
  /** The same when it is known already. */
  known(model: SheetModel, options: Omit<LayoutOptions, 'elk'>): Picture | null;
  /** Of an order that is kept: the picture known, or its last one where changed words and what is added find room. */
  standing(model: SheetModel, options: Omit<LayoutOptions, 'elk'>): Picture | null;
  /** Runs of the layout library so far. */
  readonly runs: number;
}

/** Pictures that are kept; the oldest goes first. */
const MOST = 200;
/** Additions one after the other that can be taken back to the very picture before them. */
const LONGEST = 20;

export function makeLayouts(elk: LayoutOptions['elk']): Layouts {
  const kept = new Map<string, Picture>();
  const lastIn = new Map<string, readonly Picture[]>();
  const signature = makeSignature();
  let runs = 0;
  /** What no room was found for when it was asked for last: it is asked for again when it is laid out. */
  let refused: string | null = null;
  const counted: LayoutOptions['elk'] = async (graph) => {
    runs += 1;
    return elk(graph);
  };
  const known: Layouts['known'] = (model, options) => {
    const old = kept.get(signature(model, options));
    return old === undefined ? null : reworded(old, model);
  };
  const keep = (key: string, picture: Picture): void => put(kept, key, picture);
  return {
    known,
    standing: (model, options) => {
      const found = known(model, options);
      const past = options.kept === null ? [] : (lastIn.get(JSON.stringify(options.kept)) ?? []);
      const last = past.at(-1);
      if (found !== null || last === undefined) return found;
      const { air } = options;
      // The next edit starts from what was laid out or added to, too: room that is no longer needed is given back.
      const keepWith = (made: Picture, chain: readonly Picture[]): Picture => {
        keep(signature(model, options), made);
        put(lastIn, JSON.stringify(orderOf(made, options.kept)), chain.slice(-LONGEST));
        return made;
      };
      for (const [i, picture] of past.entries()) {
        const refit = refitted(picture, model);
        if (refit !== null) return keepWith(refit, past.slice(0, i + 1));
      }
      const asked = signature(model, options);
      const more = asked === refused ? null : added(last, model, air);
      refused = more === null ? asked : refused;
      return more === null ? null : keepWith(more, [...past, more]);
    },
    layOut: async (model, options) => {
      const old = known(model, options);
      if (old !== null) return old;
      const made = await layOut(model, { ...options, elk: counted });
      keep(signature(model, options), made);
      // Asked for again in its own order, it stays as it is.
      const order = orderOf(made, options.kept);
      keep(signature(model, { ...options, kept: order }), made);
      put(lastIn, JSON.stringify(order), [made]);
      return made;
    },
    get runs() {
      return runs;
    },
  };
}

function put<T>(to: Map<string, T>, key: string, what: T): void {
  to.set(key, what);
  const [oldest] = to.keys();
  if (to.size > MOST && oldest !== undefined) to.delete(oldest);
}

const sideOf = (ports: readonly Port[]): readonly string[] =>
  ports.map((port) => `${portId(port)} ${port.terminal}`);

type Signature = (model: SheetModel, options: Omit<LayoutOptions, 'elk'>) => string;

/** A model is looked for in several orders, one after the other: its own part is written once. */
function makeSignature(): Signature {
  let last: { readonly model: SheetModel; readonly air: number; readonly shape: string } | null = null;
  return (model, options) => {
    const { air } = options;
    if (last?.model !== model || last.air !== air) last = { model, air, shape: shapeOf(model, air) };
    const how = options.kept ?? [options.thoroughness, options.orders];
    return `${last.shape}${JSON.stringify(how)}`;
  };
}

function shapeOf(model: SheetModel, air: number): string {
  const frames = framesOf(model, air);
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
  return JSON.stringify([nodes, edges, model.places, air]);
}

const sizes = (frame: Frame | undefined): unknown =>
  frame === undefined ? null : [frame.width, frame.height, frame.core, [...frame.ports.values()]];
