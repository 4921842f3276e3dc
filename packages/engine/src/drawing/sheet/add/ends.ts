/** Where a wire that is new may meet a part that stands, and the part with it. */
import type { Id } from '../../../contracts/index.ts';
import { FROM_EDGE, stretched } from '../bar.ts';
import { frameOf, LEAST_LUG, LEAST_PITCH, levelRows, mayReorder } from '../frame.ts';
import { portId, type Node, type Port } from '../model.ts';
import type { Picture, PlacedNode } from '../picture.ts';
import { heightened } from '../room.ts';

const SAME = 1e-6;

const sideOf = (node: Node, port: Port): readonly Port[] => (port.side === 'W' ? node.west : node.east);

export const nodeIn = ({ nodes }: Picture, id: Id): PlacedNode | undefined =>
  nodes.find((placed) => placed.node.id === id);

/** Height of an end in the picture. */
export const heightAt = (placed: PlacedNode, port: Port): number =>
  placed.y + (placed.frame.ports.get(portId(port)) ?? 0);

/** Heights of a part's ends at the side of `port`, from top to bottom. */
export const heightsBeside = (placed: PlacedNode, port: Port): readonly number[] =>
  sideOf(placed.node, port)
    .map((each) => heightAt(placed, each))
    .toSorted((a, b) => a - b);

export const replaced = ({ nodes, wires }: Picture, now: PlacedNode): Picture => ({
  nodes: nodes.map((n) => (n.node.id === now.node.id ? now : n)),
  wires,
});

function withPort(placed: PlacedNode, port: Port, y: number): PlacedNode {
  const { node, frame } = placed;
  const ports = new Map([...frame.ports, [portId(port), y - placed.y] as const]);
  const at = (each: Port): number => ports.get(portId(each)) ?? 0;
  const list = [...sideOf(node, port), port].toSorted((a, b) => at(a) - at(b));
  return {
    ...placed,
    node: { ...node, ...(port.side === 'W' ? { west: list } : { east: list }) },
    frame: { ...frame, ports },
  };
}

/** A bar with one tap more, at `y`; null where another one is too near. */
export function tapped(placed: PlacedNode, port: Port, y: number): PlacedNode | null {
  const near = heightsBeside(placed, port).some((at) => Math.abs(at - y) < LEAST_LUG - SAME);
  if (near) return null;
  const now = withPort(placed, port, y);
  return stretched(now, now.frame.ports);
}

/** Heights at which a bar takes a tap as it stands, best first: near `wanted`, and past few of its other taps. */
export function tapHeights(placed: PlacedNode, port: Port, wanted: number): readonly number[] {
  const taps = heightsBeside(placed, port);
  const [top, bottom] = [taps[0], taps.at(-1)];
  if (top === undefined || bottom === undefined) {
    const all = [...placed.frame.ports.values()].map((at) => placed.y + at);
    return [Math.min(Math.max(wanted, Math.min(...all)), Math.max(...all))];
  }
  const found = [Math.min(wanted, top - LEAST_LUG), Math.max(wanted, bottom + LEAST_LUG)].map((y) =>
    Math.min(Math.max(y, top - LEAST_LUG), bottom + LEAST_LUG),
  );
  taps.slice(1).forEach((low, i) => {
    const from = (taps[i] ?? low) + LEAST_LUG;
    const to = low - LEAST_LUG;
    if (from <= to + SAME) found.push(Math.min(Math.max(wanted, from), to));
  });
  const past = (y: number): number => taps.filter((t) => (t - y) * (t - wanted) < 0).length;
  const score = (y: number): number => Math.abs(y - wanted) + 40 * past(y);
  return found.toSorted((a, b) => score(a) - score(b));
}

/** The picture with a new end at a part that is no bar, at one or several heights; what must make room does. */
export function withEnd(
  picture: Picture,
  id: Id,
  full: Node,
  port: Port,
  wanted: number,
): readonly Picture[] {
  const placed = nodeIn(picture, id);
  if (placed === undefined) return [];
  if (placed.node.shape !== 'box') return onAxis(picture, placed, port);
  const made = indexes(placed, full, port).map((at) => inBox(picture, placed, port, at, wanted));
  const found = made.filter((each) => each !== null);
  const away = (each: Picture): number => {
    const own = nodeIn(each, id);
    return own === undefined ? 0 : Math.abs(heightAt(own, port) - wanted);
  };
  return found.filter((each) => isLevel(each, id, full)).toSorted((a, b) => away(a) - away(b));
}

/** A symbol in line, or a round one: its free side. */
function onAxis(picture: Picture, placed: PlacedNode, port: Port): readonly Picture[] {
  if (placed.node.shape === 'bar' || sideOf(placed.node, port).length > 0) return [];
  const [axis] = [...placed.frame.ports.values()];
  return axis === undefined ? [] : [replaced(picture, withPort(placed, port, placed.y + axis))];
}

/** Which ends of its side may stand above it: those of one terminal, and those of one row of the symbol, stay together. */
function indexes({ node }: PlacedNode, full: Node, port: Port): readonly number[] {
  const list = sideOf(node, port);
  const order = sideOf(full, port).map(portId);
  const rank = (each: Port): number => order.indexOf(portId(each));
  const all = Array.from({ length: list.length + 1 }, (_, i) => i);
  if (!mayReorder(full)) {
    const before = list.filter((each) => rank(each) < rank(port)).length;
    return list.slice(0, before).every((each) => rank(each) < rank(port)) ? [before] : [];
  }
  const group = groupsOf(full);
  const own = group(port.terminal);
  const mates = all.filter((i) => sharing(list, i, (p) => p.terminal === port.terminal));
  if (list.some((p) => p.terminal === port.terminal)) return mates;
  const rows = all.filter((i) => sharing(list, i, (p) => group(p.terminal) === own));
  const splits = (i: number): boolean => {
    const [a, b] = [list[i - 1], list[i]];
    if (a === undefined || b === undefined) return false;
    if (a.terminal === b.terminal) return true;
    return group(a.terminal) === group(b.terminal) && group(a.terminal) !== own;
  };
  const grouped = list.some((p) => group(p.terminal) === own) ? rows : all;
  return grouped.filter((i) => !splits(i));
}

const sharing = (list: readonly Port[], i: number, same: (port: Port) => boolean): boolean =>
  [list[i - 1], list[i]].some((each) => each !== undefined && same(each));

function groupsOf(node: Node): (terminal: string) => string {
  const rows = node.part.symbol.rows ?? [];
  return (terminal) => {
    const i = rows.findIndex((row) => row.left === terminal || row.right === terminal);
    return i < 0 ? terminal : `\n${i}`;
  };
}

function inBox(picture: Picture, placed: PlacedNode, port: Port, at: number, wanted: number): Picture | null {
  const list = sideOf(placed.node, port);
  const [over, under] = [list[at - 1], list[at]];
  const least = (other: Port): number => (other.terminal === port.terminal ? LEAST_LUG : LEAST_PITCH);
  const top = placed.y + placed.frame.core.y;
  const bottom = top + placed.frame.core.height;
  const from = over === undefined ? top + FROM_EDGE : heightAt(placed, over) + least(over);
  const to = under === undefined ? bottom - FROM_EDGE : heightAt(placed, under) - least(under);
  const best = acrossFrom(placed, port) ?? wanted;
  if (from <= to + SAME) return replaced(picture, withPort(placed, port, Math.min(Math.max(best, from), to)));
  const cut = under === undefined ? bottom : heightAt(placed, under);
  const opened = heightened(picture, cut, from - to, placed.node.id);
  const longer = nodeIn(opened, placed.node.id);
  return longer === undefined ? null : replaced(opened, withPort(longer, port, from));
}

/** Where the other end of its row of the symbol stands, at the other side; null: there is none, or more than one. */
function acrossFrom(placed: PlacedNode, port: Port): number | null {
  const { node } = placed;
  const row = (node.part.symbol.rows ?? []).find(
    (r) => r.left === port.terminal || r.right === port.terminal,
  );
  const other = row?.left === port.terminal ? row.right : row?.left;
  const found = (port.side === 'W' ? node.east : node.west).filter((p) => p.terminal === other);
  const [only] = found;
  return only === undefined || found.length > 1 ? null : heightAt(placed, only);
}

/** Rows of its symbol that go straight across are level. */
function isLevel(picture: Picture, id: Id, full: Node): boolean {
  const placed = nodeIn(picture, id);
  if (placed === undefined) return false;
  const { node } = placed;
  const complete =
    node.west.length === full.west.length && node.east.length === full.east.length ? full : node;
  if (mayReorder(complete) && levelRows(node).length === 0) return true;
  return levelRows(node).every(({ w, e }) => {
    const [west, east] = [node.west[w], node.east[e]];
    if (west === undefined || east === undefined) return true;
    return Math.abs(heightAt(placed, west) - heightAt(placed, east)) < 0.01;
  });
}

/** What the box of a part needs in width with all its ends, mm. */
export const widthWith = (full: Node): number => frameOf(full, { west: [], east: [] }).width;
