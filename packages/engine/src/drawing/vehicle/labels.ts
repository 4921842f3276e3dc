/** Finds room for the labels of wires that lie already: on a level run, else beside an upright one. */
import { overlap } from '../sheet/outline.ts';
import { ABOVE } from '../sheet/label.ts';
import type { Edge } from '../sheet/model.ts';
import { boxOf, labelBox, type Box, type Picture, type PlacedWire } from '../sheet/picture.ts';
import type { Point } from '../sheet/elk.ts';
import { ASCENT, blockHeight, LINE } from '../text/measure.ts';

export interface Bare {
  readonly edge: Edge;
  readonly points: readonly Point[];
}

/** Distance between places that are tried along a run, and of a label from an upright wire, mm. */
const TRY = 2;
const BESIDE = 0.8;
/** Half of the thickest line and a little air, mm. */
const HAIR = 0.6;

/** null: one of them finds no room. The wires with the fewest places to stand come first. */
export function labelled(
  bare: readonly Bare[],
  standing: Picture,
  bounds: Box,
): readonly PlacedWire[] | null {
  const runs = bare.map((wire) => ({ wire, boxes: runsOf(wire.points) }));
  const others: readonly Box[] = [
    ...standing.nodes.map(boxOf),
    ...standing.wires.map(labelBox),
    ...standing.wires.flatMap((w) => runsOf(w.points)),
  ];
  const taken: Box[] = [];
  const done: PlacedWire[] = [];
  const level = ({ wire }: { readonly wire: Bare }): number =>
    Math.max(0, ...wire.points.slice(1).map((b, i) => Math.abs(b.x - (wire.points[i]?.x ?? b.x))));
  for (const { wire } of runs.toSorted(
    (a, b) => level(a) - level(b) || (a.wire.edge.wire.id < b.wire.edge.wire.id ? -1 : 1),
  )) {
    const lines = runs.flatMap((each) => (each.wire === wire ? [] : each.boxes));
    const free = (box: Box): boolean =>
      within(box, bounds) && ![...others, ...lines, ...taken].some((each) => overlap(box, each));
    const found = onLevel(wire, free) ?? besideUpright(wire, free);
    if (found === null) return null;
    taken.push(labelBox(found));
    done.push(found);
  }
  return done;
}

const within = (box: Box, bounds: Box): boolean =>
  box.left >= bounds.left &&
  box.right <= bounds.right &&
  box.top >= bounds.top &&
  box.bottom <= bounds.bottom;

interface Run {
  readonly from: number;
  readonly to: number;
  readonly at: number;
}

const isLevel = (a: Point, b: Point): boolean => Math.abs(a.y - b.y) < 1e-6;

function runsAlong(points: readonly Point[], level: boolean): readonly Run[] {
  return points
    .slice(1)
    .flatMap((b, i) => {
      const a = points[i] ?? b;
      if (isLevel(a, b) !== level) return [];
      return level
        ? [{ from: Math.min(a.x, b.x), to: Math.max(a.x, b.x), at: a.y }]
        : [{ from: Math.min(a.y, b.y), to: Math.max(a.y, b.y), at: a.x }];
    })
    .toSorted((a, b) => b.to - b.from - (a.to - a.from));
}

/** From the middle of a run outwards. */
function* along(run: Run, room: number): Iterable<number> {
  const slack = run.to - run.from - room;
  if (slack < 0) return;
  for (let k = 0; k <= Math.ceil(slack / TRY); k += 1) {
    yield (run.from + run.to) / 2 + Math.min(slack / 2, TRY * Math.ceil(k / 2)) * (k % 2 === 0 ? 1 : -1);
  }
}

function onLevel({ edge, points }: Bare, free: (box: Box) => boolean): PlacedWire | null {
  const upright = runsOf(points).filter((box) => box.bottom - box.top > 2 * HAIR + 1e-6);
  for (const run of runsAlong(points, true)) {
    for (const x of along(run, edge.label.width)) {
      const placed: PlacedWire = { edge, points, label: { x, y: run.at } };
      const box = labelBox(placed);
      if (free(box) && !upright.some((each) => overlap(box, each))) return placed;
    }
  }
  return null;
}

/** All lines at the right or the left of the wire. */
function besideUpright({ edge, points }: Bare, free: (box: Box) => boolean): PlacedWire | null {
  const lines = [...edge.label.above, ...edge.label.below];
  const { width } = edge.label;
  const tall = blockHeight(lines.length);
  // Its box ends under the letters: the label does not straddle.
  const up = ABOVE + (lines.length - 1) * LINE + ASCENT;
  const beside: Edge = { ...edge, label: { above: lines, below: [], width, up, down: tall - up } };
  for (const run of runsAlong(points, false)) {
    for (const side of [1, -1]) {
      for (const middle of along(run, tall)) {
        const label = { x: run.at + side * (width / 2 + BESIDE), y: middle + up - tall / 2 };
        const placed: PlacedWire = { edge: beside, points, label };
        const box = labelBox(placed);
        const own = runsOf(points).some((each) => overlap(box, each));
        if (!own && free(box)) return placed;
      }
    }
  }
  return null;
}

function runsOf(points: readonly Point[]): readonly Box[] {
  return points.slice(1).map((b, i) => {
    const a = points[i] ?? b;
    const [x, y] = isLevel(a, b) ? [0, HAIR] : [HAIR, 0];
    return {
      left: Math.min(a.x, b.x) - x,
      right: Math.max(a.x, b.x) + x,
      top: Math.min(a.y, b.y) - y,
      bottom: Math.max(a.y, b.y) + y,
    };
  });
}
