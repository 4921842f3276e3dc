/**
 * Blocks of parts, one a place, set into the side view: along the vehicle by station, up and down by level. Blocks at one level
 * make room for each other; the vehicle is drawn as long and as high as they need.
 */
import type { SubjectPlace } from '../subject.ts';

export interface Block {
  readonly place: SubjectPlace;
  readonly width: number;
  readonly height: number;
}

export interface Spot {
  /** Upper left corner, mm. */
  readonly x: number;
  readonly y: number;
}

export interface Arranged {
  readonly spots: readonly Spot[];
  readonly width: number;
  /** Where the bonnet ends: parts of an engine space stand before it, all others behind. */
  readonly bonnet: number;
  /** Height of the roof line (0) over the floor line. */
  readonly floor: number;
  /** Blocks on the roof and under the floor reach this far beyond. */
  readonly over: number;
  readonly under: number;
}

type Row = 'roof' | 'upper' | 'floor' | 'under';

/** Between blocks side by side, between rows, between the outline and a block, mm. */
const BESIDE = 11;
const BETWEEN = 12;
const INSIDE = 8;
/** Length of a nose that holds no parts; behind the engine's parts; behind the bonnet, low and
 * high; over the windscreen, mm. */
const NOSE = 16;
const BONNET = 4;
const BEHIND = 4;
const SLOPE = 16;
export const SCREEN = 30;
/** Least height of the body by its length. */
const HEIGHT_BY_LENGTH = 0.36;
/** Free levels that are tried in all combinations. */
const MOST_FREE = 6;

/** The best few ways to set the blocks, best first. */
export function arrangements(blocks: readonly Block[], length: number, width: number): readonly Arranged[] {
  const free = blocks
    .flatMap((b, i) => (b.place.levelKnown || b.place.engineSpace ? [] : [i]))
    .slice(0, MOST_FREE);
  const tried = Array.from({ length: 2 ** free.length }, (_each, mask) => {
    const lifted = (i: number): boolean => free.includes(i) && (mask >> free.indexOf(i)) % 2 === 1;
    const rows = blocks.map((block, i) => (lifted(i) ? 'upper' : rowOf(block.place)));
    const made = set(blocks, rows, length, width);
    // Wide is worse than high; a part that is lifted without being told so is a little worse.
    const count = free.filter(lifted).length;
    return { made, mask, cost: made.width * 2 + made.floor + 6 * count + away(made, blocks, length, width) };
  });
  return tried
    .filter(({ made }) => noseToTail(made, blocks))
    .toSorted((x, y) => x.cost - y.cost || x.mask - y.mask)
    .map((each) => each.made);
}

/** Stations this far apart may not be turned round, m; and how much a block may stand before one ahead of it, mm. */
const APART = 0.4;
const ASKEW = 10;

/** Whatever row they stand in, blocks come in the order of their stations: the picture is a map. */
function noseToTail({ spots }: Arranged, blocks: readonly Block[]): boolean {
  const middle = (i: number): number => (spots[i]?.x ?? 0) + (blocks[i]?.width ?? 0) / 2;
  const station = (i: number): number => blocks[i]?.place.station ?? 0;
  return blocks.every((_a, i) =>
    blocks.every((_b, j) => station(i) + APART > station(j) || middle(i) <= middle(j) + ASKEW),
  );
}

const ROWS: Readonly<Record<SubjectPlace['level'], Row>> = {
  roof: 'roof',
  upper: 'upper',
  floor: 'floor',
  'under floor': 'under',
};
const rowOf = (place: SubjectPlace): Row => ROWS[place.level];

const target = (block: Block, length: number, width: number): number =>
  ((block.place.station ?? 0) / length) * width;

/** How far blocks stand from where their station would have them, a tenth of it. */
function away({ spots }: Arranged, blocks: readonly Block[], length: number, width: number): number {
  return spots.reduce((sum, spot, i) => {
    const block = blocks[i];
    return block === undefined
      ? sum
      : sum + 0.1 * Math.abs(spot.x + block.width / 2 - target(block, length, width));
  }, 0);
}

function set(blocks: readonly Block[], rows: readonly Row[], length: number, width: number): Arranged {
  const x = new Map<number, number>();
  const engine = blocks.flatMap((b, i) => (b.place.engineSpace ? [i] : []));
  let bonnet = NOSE;
  for (const i of engine) {
    x.set(i, bonnet === NOSE ? INSIDE : bonnet + BESIDE);
    bonnet = (x.get(i) ?? 0) + (blocks[i]?.width ?? 0);
  }
  if (engine.length > 0) bonnet += BONNET;
  let needed = width;
  for (const row of ['roof', 'upper', 'floor', 'under'] as const) {
    const own = blocks.flatMap((_b, i) => (rows[i] === row && !engine.includes(i) ? [i] : []));
    const from = bonnet + (row === 'roof' ? SCREEN : row === 'upper' ? SLOPE : BEHIND);
    needed = Math.max(needed, line(own, blocks, x, { length, width, from }));
  }
  const tall = (row: Row): number =>
    Math.max(0, ...blocks.flatMap((b, i) => (rows[i] === row ? [b.height] : [])));
  const floor = Math.max(HEIGHT_BY_LENGTH * needed, interior(blocks, rows, x));
  const y = (i: number): number => {
    const height = blocks[i]?.height ?? 0;
    const row = rows[i];
    if (row === 'roof') return -height - 3;
    if (row === 'upper') return INSIDE;
    return row === 'under' ? floor + 4 : floor - 5 - height;
  };
  return {
    spots: blocks.map((_b, i) => ({ x: x.get(i) ?? 0, y: y(i) })),
    width: needed,
    bonnet,
    floor,
    over: tall('roof') === 0 ? 0 : tall('roof') + 4,
    under: tall('under') === 0 ? 0 : tall('under') + 5,
  };
}

/** Side by side in the order of stations, each as near to its own as the others let it. Gives the width that was needed. */
function line(
  own: readonly number[],
  blocks: readonly Block[],
  x: Map<number, number>,
  { length, width, from }: { readonly length: number; readonly width: number; readonly from: number },
): number {
  const widthOf = (i: number): number => blocks[i]?.width ?? 0;
  const wanted = own.map((i) => {
    const block = blocks[i];
    return block === undefined ? 0 : target(block, length, width) - block.width / 2;
  });
  let edge = from;
  own.forEach((i, k) => {
    const at = Math.max(wanted[k] ?? 0, edge);
    x.set(i, at);
    edge = at + widthOf(i) + BESIDE;
  });
  let end = width - INSIDE;
  for (const i of own.toReversed()) {
    const at = Math.min(x.get(i) ?? 0, end - widthOf(i));
    x.set(i, at);
    end = at - BESIDE;
  }
  // Pushed out at the nose: what does not fit makes the vehicle longer.
  if (own.length === 0 || (x.get(own[0] ?? -1) ?? from) >= from) return width;
  let next = from;
  for (const i of own) {
    x.set(i, next);
    next += widthOf(i) + BESIDE;
  }
  return next - BESIDE + INSIDE;
}

/** Height from roof to floor: where an upper block stands over one on the floor both must have room. */
function interior(blocks: readonly Block[], rows: readonly Row[], x: ReadonlyMap<number, number>): number {
  let most = 0;
  blocks.forEach((block, i) => {
    if (rows[i] !== 'upper' && rows[i] !== 'floor') return;
    most = Math.max(most, block.height + INSIDE + 5 + 6);
    if (rows[i] !== 'upper') return;
    blocks.forEach((other, j) => {
      if (rows[j] !== 'floor') return;
      const [a, b] = [x.get(i) ?? 0, x.get(j) ?? 0];
      const over = a < b + other.width + BESIDE && b < a + block.width + BESIDE;
      if (over) most = Math.max(most, block.height + other.height + INSIDE + 5 + BETWEEN);
    });
  });
  return most;
}
