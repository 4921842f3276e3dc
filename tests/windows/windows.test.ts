/** Windows of chargers: the adaptive scan against a plain one, and against the closed form of a simple loop. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Operation, Window } from '../../packages/engine/src/index.ts';
import { openSession } from '../../packages/engine/src/session/index.ts';
import { huntingWindow } from '../../packages/engine/src/network/closed-form.ts';
import { generate } from '../documents/generate.ts';
import { plainScan } from './plain-scan.ts';

const SOAK = process.env['SOAK'] === '1';
const SEED = Number(process.env['SOAK_SEED'] ?? '1');
const LONG = 1_800_000;
/** Both ways find an edge to 1 mV, each within its own last cell. */
const MILLIVOLTS = 1.6e-3;

function operationOf(text: string): Operation {
  const session = openSession(text);
  expect(session.diagnostics).toEqual([]);
  return session.judge().operation;
}

const named = (w: Window): string => `${w.part} ${w.state} ${JSON.stringify(w.hands)}`;

/** Windows that the plain scan sees otherwise. */
function otherwise(op: Operation): readonly string[] {
  return op.windows().flatMap((w) => {
    const plain = plainScan(op, w);
    const alike =
      plain.length === w.spans.length &&
      plain.every((p, i) => {
        const span = w.spans[i];
        return (
          span !== undefined &&
          span.outcome === p.outcome &&
          Math.abs(span.from - p.from) <= MILLIVOLTS &&
          Math.abs(span.to - p.to) <= MILLIVOLTS
        );
      });
    return alike ? [] : [`${named(w)}\n  ${JSON.stringify(w.spans)}\n  ${JSON.stringify(plain)}`];
  });
}

const FOLDERS = ['../../examples/', '../scenarios/'];
const files = FOLDERS.flatMap((folder) =>
  readdirSync(new URL(folder, import.meta.url))
    .filter((file) => file.endsWith('.yaml'))
    .map((file): readonly [string, URL] => [file, new URL(`${folder}${file}`, import.meta.url)]),
);

describe('the adaptive scan sees what a plain one sees', () => {
  it.each(files)(
    'in %s',
    (_name, url) => {
      expect(otherwise(operationOf(readFileSync(url, 'utf8')))).toEqual([]);
    },
    LONG,
  );

  it(
    'in made-up builds',
    () => {
      const count = SOAK ? 45 : 30;
      for (let i = 0; i < count; i++) {
        const seed = SEED * 1000 + i;
        const text = generate(seed, { parts: 6 + (i % 15), owners: i % 2 });
        expect(otherwise(operationOf(text)), `seed ${seed}`).toEqual([]);
      }
    },
    LONG,
  );
});

interface Loop {
  /** Charger's start and stop threshold, V. */
  readonly on: number;
  readonly off: number;
  readonly amps: number;
  /** Length of each of the two wires, m. */
  readonly metres: number;
}

/** Resistance of 16 mm² stranded copper (IEC 60228 class 5) at 20 °C, Ω/m. */
const OHMS_PER_METRE = 1.21e-3;
const JOINT = 0.05e-3;
const DEVICE = 1e-3;
/** Nothing else draws: no load of the vehicle, a supply that never reaches its limit. */
const loopText = ({ on, off, amps, metres }: Loop): string => `loomwright: 1
title: A simple loop
practice: europe
systems: { vehicle: 12 V, house: 12 V }
vehicle: { supply: alternator, variable-voltage: no, automatic-stop: no }
settings: { resistance-at: 20 °C }
survey:
  driving: { posts: { min: 12.0 V, typical: 13.5 V, max: 15.5 V }, output: 900 A, load: 0 A }
places: { cab: { hottest: 40 °C } }
parts:
  vehicle-battery: { kind: battery, at: cab, role: vehicle, chemistry: agm, capacity: 90 Ah }
  feed-fuse: { kind: fuse, at: cab, family: bolt-down, rating: 200 A, cold-resistance: 1 mΩ }
  charger: { kind: dc-charger, at: cab, current: ${amps} A, voltage: { absorption: 14.4 V }, efficiency: 0.9, enable: voltage, starts: ${on} V after 5 s, stops: ${off} V after 3 s, minimum: 4 V, low-input: stops, negative: common, derates: 80 °C, input-limit: 900 A }
  house-battery: { kind: battery, at: cab, role: house, chemistry: lifepo4, capacity: 400 Ah }
wires:
  feed: { from: vehicle-battery.+, to: feed-fuse.line, size: 16 mm2, length: ${metres} m }
  feed-2: { from: feed-fuse.load, to: charger.in+, size: 16 mm2, length: ${metres} m }
  return: { from: charger.in-, to: vehicle-battery.-, size: 16 mm2, length: ${metres} m }
  out: { from: charger.out+, to: house-battery.+, size: 50 mm2, length: 1 m }
  out-minus: { from: charger.out-, to: house-battery.-, size: 50 mm2, length: 1 m }
`;

/** Where the charger cycles while driving, or where both are stable. */
function expectClosedForm(loop: Loop): void {
  const op = operationOf(loopText(loop));
  const window = op.windows().find((w) => w.state === 'driving');
  const spans = window?.spans ?? [];
  const ohms = 3 * loop.metres * OHMS_PER_METRE + 6 * JOINT + DEVICE;
  const expected = huntingWindow(loop.on, loop.off, (loop.amps * 14.4) / 0.9, ohms);
  const inside = spans.find((s) => s.outcome === (expected.hunts ? 'cycle' : 'depends'));
  // What lies between two set points of the grid may be passed over.
  if (Math.abs(expected.to - expected.from) < 0.055) return;
  const [from, to] = expected.hunts ? [expected.from, expected.to] : [expected.to, expected.from];
  const [low, high] = [spans[0]?.from ?? 0, spans.at(-1)?.to ?? 0];
  expect(spans[0]?.outcome, JSON.stringify({ spans, expected })).toBe(from > low ? 'off' : inside?.outcome);
  if (from > low) expect(Math.abs((inside?.from ?? 0) - from)).toBeLessThan(3e-3);
  if (to < high) expect(Math.abs((inside?.to ?? 0) - to)).toBeLessThan(3e-3);
}

describe('the window of a simple loop is that of the closed form', () => {
  it(
    'where its power can be drawn at the stop threshold, and where it cannot',
    () => {
      fc.assert(
        fc.property(
          fc.integer({ min: 120, max: 135 }),
          fc.integer({ min: 2, max: 25 }),
          fc.integer({ min: 10, max: 80 }),
          fc.integer({ min: 4, max: 120 }),
          (on, below, amps, decimetres) => {
            expectClosedForm({ on: on / 10, off: (on - below) / 10, amps, metres: decimetres / 10 });
          },
        ),
        { seed: SEED, numRuns: SOAK ? 200 : 40 },
      );
    },
    LONG,
  );
});
