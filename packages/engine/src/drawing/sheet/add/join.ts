/** Leads one wire that is new through a picture, and judges what comes of it. */
import type { Id } from '../../../contracts/index.ts';
import { portId, type Edge, type Node } from '../model.ts';
import { wireOutline } from '../outline.ts';
import { boxOf, cleaner, portPoint, type Picture, type PlacedNode } from '../picture.ts';
import { heightened, widened } from '../room.ts';
import { nodeIn, replaced, tapHeights, tapped, withEnd } from './ends.ts';
import { fits, mayMeetIn } from './fits.ts';
import { obstaclesOf } from './obstacles.ts';
import { endOf, middleOf, type EdgeEnd, type Floating } from './row-end.ts';
import { rowsFor, type Row } from './rows.ts';
import { WEIGHT } from './weight.ts';

export interface Joined {
  readonly picture: Picture;
  readonly cost: number;
}

export interface Sheet {
  /** Parts as the model has them, with all their ends. */
  readonly nodes: ReadonlyMap<Id, Node>;
  readonly air: number;
  /** Searches and pictures that may still be made: what is not found with them is left to the library. */
  readonly work: { left: number };
}

/** Heights looked at for a row, rows that are found good, and rows that are judged for that. */
const CUTS = 24;
const DRAWN = 3;
const JUDGED = 12;
/** A wire that costs less is good enough. */
const GOOD = 130;
/** Room made for an upright leg, mm. */
const LEG_ROOM = 3.2;

/** The picture with the wire; null where no way was found. */
export function joined(picture: Picture, edge: Edge, sheet: Sheet): Joined | null {
  let best: Joined | null = null;
  for (const { picture: from, cost } of withRooms(picture, edge)) {
    const found = cheapest(led(from, edge, sheet, null).slice(0, DRAWN), cost);
    if (found !== null && (best === null || found.cost < best.cost)) best = found;
    if (best !== null && best.cost < GOOD) return best;
  }
  return best;
}

const cheapest = (list: readonly Joined[], more: number): Joined | null => {
  let best: Joined | null = null;
  for (const each of list) if (best === null || each.cost < best.cost) best = each;
  return best === null ? null : { picture: best.picture, cost: best.cost + more };
};

/** The picture as it is, and with room for legs after the source, before the target, or for the label between them. */
function* withRooms(picture: Picture, edge: Edge): Iterable<Joined> {
  const [source, target] = [nodeIn(picture, edge.source.node), nodeIn(picture, edge.target.node)];
  if (source === undefined || target === undefined) return;
  const from = source.x + source.frame.width;
  const between = target.x - from;
  const least = edge.label.width + 3.6;
  if (between < 0) return;
  if (between < least) {
    yield wider(picture, target.x, least - between);
    yield wider(picture, target.x, least - between + 2 * LEG_ROOM);
    return;
  }
  yield { picture, cost: 0 };
  yield wider(picture, target.x, LEG_ROOM);
  yield wider(picture, from + 0.01, LEG_ROOM);
  const both = widened(picture, target.x, LEG_ROOM);
  yield { picture: widened(both, from + 0.01, LEG_ROOM), cost: 2 * WEIGHT.apart * LEG_ROOM };
}

const wider = (picture: Picture, x: number, dx: number): Joined => ({
  picture: widened(picture, x, dx),
  cost: WEIGHT.apart * dx,
});

/** Ways drawn and judged, best first as estimated; the floating part is placed with its wire. */
export function led(
  picture: Picture,
  edge: Edge,
  sheet: Sheet,
  floating: Floating | null,
): readonly Joined[] {
  const starts = startsOf(picture, edge, sheet, floating);
  const rows = starts.flatMap((start) => {
    const [source, target] = [endOf(start, edge.source, floating), endOf(start, edge.target, floating)];
    if (source === null || target === null || sheet.work.left <= 0) return [];
    sheet.work.left -= 1;
    const obstacles = obstaclesOf(start);
    const search = { source, target, label: edge.label, obstacles, air: sheet.air, most: CUTS };
    const found = rowsFor(search, JUDGED);
    const more = WEIGHT.apart * grownBy(picture, start);
    return found.map((row) => ({ start, row, more }));
  });
  const drawn: Joined[] = [];
  let judged = 0;
  for (const { start, row, more } of rows.toSorted((a, b) => a.row.cost + a.more - b.row.cost - b.more)) {
    if (sheet.work.left <= 0) return [];
    sheet.work.left -= 1;
    const made = drawnIn(start, row, edge, floating);
    if (made !== null) drawn.push({ picture: made.picture, cost: made.cost + more });
    judged += 1;
    if (drawn.length >= DRAWN || judged >= JUDGED) break;
  }
  return drawn;
}

const bottomOf = ({ nodes }: Picture): number => Math.max(...nodes.map((n) => n.y + n.frame.height));

const grownBy = (before: Picture, after: Picture): number =>
  before === after ? 0 : Math.max(0, bottomOf(after) - bottomOf(before));

/** Where an end at a box is new, the box takes it first, in the best two ways. */
function startsOf(picture: Picture, edge: Edge, sheet: Sheet, floating: Floating | null): readonly Picture[] {
  let starts: readonly Picture[] = [picture];
  for (const [end, far] of [
    [edge.source, edge.target],
    [edge.target, edge.source],
  ] as const) {
    if (end.node === floating?.node.id) continue;
    starts = starts.flatMap((start) => taken(start, end, far, sheet)).slice(0, 4);
  }
  return starts;
}

function taken(picture: Picture, end: EdgeEnd, far: EdgeEnd, sheet: Sheet): readonly Picture[] {
  const placed = nodeIn(picture, end.node);
  const full = sheet.nodes.get(end.node);
  if (placed === undefined || full === undefined) return [];
  if (placed.frame.ports.has(portId(end.port)) || placed.node.shape === 'bar') return [picture];
  const other = nodeIn(picture, far.node);
  const wanted = other === undefined ? placed.y + placed.frame.height / 2 : middleOf(other);
  return withEnd(picture, end.node, full, end.port, wanted).slice(0, 2);
}

function drawnIn(start: Picture, row: Row, edge: Edge, floating: Floating | null): Joined | null {
  const opened = row.apart > 0 ? heightened(start, row.cut, row.apart) : start;
  let now = row.under > 0 ? heightened(opened, row.y + 0.001, row.under) : opened;
  const changed = new Set<Id>();
  if (floating !== null) {
    now = { nodes: [...now.nodes, placedOn(floating, edge, row.y)], wires: now.wires };
    changed.add(floating.node.id);
  }
  const ends = [edge.source, edge.target].map((end, i) => {
    const placed = nodeIn(now, end.node);
    if (placed === undefined) return null;
    if (placed.frame.ports.has(portId(end.port))) return portPoint(placed, end.port);
    const straight = row.legs[i] === null;
    const bar = tapped(
      placed,
      end.port,
      straight ? row.y : (tapHeights(placed, end.port, row.y)[0] ?? row.y),
    );
    if (bar === null) return null;
    changed.add(end.node);
    now = replaced(now, bar);
    return portPoint(bar, end.port);
  });
  const [from, to] = ends;
  if (from === null || to === null || from === undefined || to === undefined) return null;
  const [a, b] = row.legs;
  const points = cleaner([
    from,
    ...(a === null
      ? []
      : [
          { x: a, y: from.y },
          { x: a, y: row.y },
        ]),
    ...(b === null
      ? []
      : [
          { x: b, y: row.y },
          { x: b, y: to.y },
        ]),
    to,
  ]);
  const wire = { edge, points, label: { x: row.labelX, y: row.y } };
  const picture = { nodes: now.nodes, wires: [...now.wires, wire] };
  const own = picture.nodes.filter(({ node }) => changed.has(node.id)).map(boxOf);
  const mayMeet = mayMeetIn(start, row.apart + row.under, [wireOutline(wire).around, ...own]);
  const crossed = fits(picture, changed, mayMeet);
  if (crossed === null) return null;
  const length = points.slice(1).reduce((sum, p, i) => sum + apart(p, points[i] ?? p), 0);
  return {
    picture,
    cost:
      WEIGHT.crossing * crossed +
      WEIGHT.bend * (points.length - 2) +
      WEIGHT.apart * (row.apart + row.under) +
      WEIGHT.length * length,
  };
}

const apart = (p: { x: number; y: number }, q: { x: number; y: number }): number =>
  Math.abs(p.x - q.x) + Math.abs(p.y - q.y);

function placedOn({ node, frame, x }: Floating, edge: Edge, y: number): PlacedNode {
  const end = edge.source.node === node.id ? edge.source : edge.target;
  return { node, frame, x, y: y - (frame.ports.get(portId(end.port)) ?? 0) };
}
