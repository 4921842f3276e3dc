import { expect, test } from 'vitest';
import { EMPTY, lengthOf, type Measured, type MeasuredWire, type Point } from './measure.ts';
import { placeOnWires } from './places-on-wires.ts';
import { besideUpright, boxAt, freeSpot, meets } from './spots.ts';

function wire(id: string, ...points: readonly (readonly [number, number])[]): MeasuredWire {
  const corners = points.map(([x, y]): Point => ({ x, y }));
  // Nothing here looks at what the browser made.
  const made = { id, points: corners, length: lengthOf(corners), label: null };
  return made as unknown as MeasuredWire;
}

const drawing = (...wires: readonly MeasuredWire[]): Measured => ({
  ...EMPTY,
  wires: new Map(wires.map((each) => [each.id, each])),
});

const FIGURE = { half: 6, up: 5, down: -0.5, level: true };

test('a figure stands above a level run, clear of a wire that crosses it', () => {
  const level = wire('level', [0, 50], [60, 50]);
  const upright = wire('upright', [30, 0], [30, 100]);
  const alone = freeSpot(drawing(level), level, FIGURE, []);
  expect(alone?.x).toBeCloseTo(30, 0);
  const crossed = freeSpot(drawing(level, upright), level, FIGURE, []);
  expect(crossed).not.toBeNull();
  const box = boxAt(crossed ?? { x: 30, y: 50 }, true, FIGURE);
  expect(box.right <= 30 || box.left >= 30).toBe(true);
});

test('where no level run is free, a figure stands beside an upright one', () => {
  const upright = wire('upright', [30, 0], [30, 60]);
  const size = { half: 6, tall: 5, air: 3 };
  expect(freeSpot(drawing(upright), upright, FIGURE, [])).toBeNull();
  expect(besideUpright(drawing(upright), upright, size, [])?.x).toBe(39);
  const next = wire('next', [38, 0], [38, 60]);
  expect(besideUpright(drawing(upright, next), upright, size, [])).toBeNull();
});

test('figures keep clear of each other and of room that is kept', () => {
  const wires = [wire('a', [0, 20], [40, 20]), wire('b', [0, 24], [40, 24]), wire('c', [0, 80], [40, 80])];
  const measured = drawing(...wires);
  const amps = { amps: 12, volts: null };
  const reading = { wires: { a: amps, b: amps, c: amps } } as unknown as Parameters<typeof placeOnWires>[2];
  const kept = [{ left: 0, right: 40, top: 70, bottom: 90 }];
  const placed = placeOnWires(measured, new Map(), reading, { scale: 4, least: 1, kept });
  expect([...placed.figures.keys()]).toEqual(['a']);
  const boxes = placed.taken;
  expect(boxes.every((box, i) => boxes.every((other, k) => i === k || !meets(box, other)))).toBe(true);
});
