import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ElementOf } from '../contracts/element.ts';
import { planCircuit } from './plan.ts';
import type { Point } from './point.ts';

type Element = ElementOf<number>;

const RUNS = { seed: 20_260_107, numRuns: 60 } as const;

function solve(nodes: number, elements: readonly Element[]): Point {
  const point = planCircuit(nodes, 0, elements).solve(elements);
  expect(point.settled).toBe(true);
  return point;
}

function at(values: ArrayLike<number>, index: number): number {
  return values[index] ?? Number.NaN;
}

const ohms = fc.double({ min: 1e-3, max: 10, noNaN: true });

/** A connected net of resistors on `nodes` nodes: a chain and some chords, nodes 0 .. nodes - 1. */
function mesh(nodes: number): fc.Arbitrary<Element[]> {
  const chain = fc.array(ohms, { minLength: nodes - 1, maxLength: nodes - 1 });
  const node = fc.integer({ min: 0, max: nodes - 1 });
  const chords = fc.array(fc.tuple(node, node, ohms), { maxLength: 8 });
  return fc
    .tuple(chain, chords)
    .map(([links, more]) => [
      ...links.map((r, i): Element => ({ type: 'resistor', a: i, b: i + 1, ohms: r })),
      ...more.filter(([a, b]) => a !== b).map(([a, b, r]): Element => ({ type: 'resistor', a, b, ohms: r })),
    ]);
}

const NODES = 7;

/** A vehicle in small: battery, alternator, converter, house battery, constant power, in a resistor net. */
const vehicle = fc
  .record({
    wires: mesh(NODES),
    rest: fc.double({ min: 12, max: 12.8, noNaN: true }),
    set: fc.double({ min: 13.4, max: 14.6, noNaN: true }),
    limit: fc.double({ min: 0, max: 150, noNaN: true }),
    feed: fc.double({ min: 5e-3, max: 0.05, noNaN: true }),
    current: fc.double({ min: 5, max: 25, noNaN: true }),
    watts: fc.double({ min: 1, max: 60, noNaN: true }),
    negative: fc.double({ min: 5e-4, max: 0.02, noNaN: true }),
  })
  .map(({ wires, rest, set, limit, feed, current, watts, negative }): Element[] => {
    const n = NODES;
    const loads = wires.map((e): Element => (e.type === 'resistor' ? { ...e, ohms: e.ohms * 20 } : e));
    return [
      ...loads,
      {
        type: 'pieces',
        a: 1,
        b: 0,
        points: [
          [rest, 0],
          [rest + 1, 12],
        ],
        below: 120,
        above: 0.5,
      },
      { type: 'hold', a: 1, b: 0, senseA: 1, senseB: 0, volts: set, least: 0, greatest: limit },
      { type: 'resistor', a: 1, b: n, ohms: feed },
      { type: 'resistor', a: n + 1, b: 0, ohms: negative },
      {
        type: 'converter',
        inA: n,
        inB: n + 1,
        outA: n + 2,
        outB: n + 1,
        senseA: n + 2,
        senseB: n + 1,
        on: true,
        idleOhms: 1e5,
        standbyAmps: 0.05,
        volts: 14.4,
        current,
        efficiency: [[1, 0.9]],
        ratedCurrent: current,
        inputLimit: 60,
        lowest: 8,
        lowInput: { type: 'none' },
        demand: null,
      },
      { type: 'resistor', a: n + 2, b: n + 3, ohms: 5e-3 },
      { type: 'pieces', a: n + 3, b: n + 1, points: [[13.2, 0]], below: 200, above: 60 },
      { type: 'power', a: n + 3, b: n + 1, watts, knee: 9, limit: Infinity },
    ];
  });
const VEHICLE_NODES = NODES + 4;

describe('balance', () => {
  it('currents add up at every node and power is balanced', () => {
    fc.assert(
      fc.property(vehicle, (elements) => {
        const { proof } = solve(VEHICLE_NODES, elements);
        expect(proof.holds).toBe(true);
        expect(proof.worstResidual).toBeLessThanOrEqual(1e-9 * proof.largestCurrent);
        expect(proof.powerImbalance).toBeLessThanOrEqual(1e-9 * 15 * proof.largestCurrent);
      }),
      RUNS,
    );
  });
});

/** Resistance between two nodes of a net: a known current of 1 A sent through it. */
function resistance(nodes: number, net: readonly Element[], a: number, b: number): number {
  const source: Element = { type: 'pieces', a: b, b: a, points: [[0, 1]], below: 0, above: 0 };
  const point = solve(nodes, [...net, source]);
  return at(point.volts, a) - at(point.volts, b);
}

describe('Rayleigh', () => {
  it('lowering one resistance never raises the resistance between any two terminals', () => {
    fc.assert(
      fc.property(
        mesh(NODES),
        fc.nat(),
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        (net, which, share) => {
          const k = which % net.length;
          const lower = net.map((e, i): Element =>
            i === k && e.type === 'resistor' ? { ...e, ohms: e.ohms * share } : e,
          );
          for (const [a, b] of [
            [0, NODES - 1],
            [1, 4],
            [2, 5],
          ] as const) {
            expect(resistance(NODES, lower, a, b)).toBeLessThanOrEqual(
              resistance(NODES, net, a, b) * (1 + 1e-12),
            );
          }
        },
      ),
      RUNS,
    );
  });
});

type Scaling = { readonly volts: number; readonly amps: number };

/** Every number of an element with volts and amperes scaled (ohms and watts follow). */
function scaled(e: Element, { volts, amps }: Scaling): Element {
  const ohm = volts / amps;
  switch (e.type) {
    case 'resistor':
      return { ...e, ohms: e.ohms * ohm };
    case 'pieces':
      return {
        ...e,
        points: e.points.map(([v, i]) => [v * volts, i * amps] as const),
        below: e.below / ohm,
        above: e.above / ohm,
      };
    case 'hold':
      return { ...e, volts: e.volts * volts, least: e.least * amps, greatest: e.greatest * amps };
    case 'power':
      return { ...e, watts: e.watts * volts * amps, knee: e.knee * volts, limit: e.limit * amps };
    default:
      return {
        ...e,
        idleOhms: e.idleOhms * ohm,
        standbyAmps: e.standbyAmps * amps,
        volts: e.volts * volts,
        current: e.current * amps,
        ratedCurrent: e.ratedCurrent * amps,
        inputLimit: e.inputLimit * amps,
        lowest: e.lowest * volts,
      };
  }
}

describe('scaling', () => {
  it.each([
    ['resistances x 3 with powers and currents / 3 leave all voltages', { volts: 1, amps: 1 / 3 }],
    ['doubled voltages at the same powers (resistances x 4) halve the currents', { volts: 2, amps: 0.5 }],
  ])('%s', (_, by) => {
    fc.assert(
      fc.property(vehicle, (elements) => {
        const point = solve(VEHICLE_NODES, elements);
        const other = solve(
          VEHICLE_NODES,
          elements.map((e) => scaled(e, by)),
        );
        for (let n = 0; n < VEHICLE_NODES; n += 1) {
          expect(Math.abs(at(other.volts, n) / by.volts - at(point.volts, n))).toBeLessThan(1e-9);
        }
        elements.forEach((_e, e) =>
          expect(Math.abs(other.current(e) / by.amps - point.current(e))).toBeLessThan(1e-6),
        );
      }),
      RUNS,
    );
  });
});

describe('what changes nothing', () => {
  it('exchanging the resistance of the positive and of the negative leaves the drop of a two-wire loop', () => {
    fc.assert(
      fc.property(ohms, ohms, fc.double({ min: 1, max: 400, noNaN: true }), (plus, minus, watts) => {
        const build = (p: number, m: number): Element[] => [
          { type: 'hold', a: 1, b: 0, senseA: 1, senseB: 0, volts: 14, least: -Infinity, greatest: Infinity },
          { type: 'resistor', a: 1, b: 2, ohms: p / 100 },
          { type: 'resistor', a: 3, b: 0, ohms: m / 100 },
          { type: 'power', a: 2, b: 3, watts, knee: 6, limit: Infinity },
        ];
        expect(
          Math.abs(solve(4, build(plus, minus)).drop(3) - solve(4, build(minus, plus)).drop(3)),
        ).toBeLessThan(1e-12);
      }),
      RUNS,
    );
  });

  it('renumbering nodes and shuffling elements changes no number by more than 1e-9', () => {
    fc.assert(
      fc.property(vehicle, fc.infiniteStream(fc.nat()), (elements, stream) => {
        const order = (count: number, from: number): number[] => {
          const keys = Array.from({ length: count }, () => stream.next().value);
          const all = Array.from({ length: count }, (_, i) => i);
          return all.toSorted((a, b) =>
            a < from || b < from ? a - b : (keys[a] ?? 0) - (keys[b] ?? 0) || a - b,
          );
        };
        const rename = order(VEHICLE_NODES, 1);
        const shuffle = order(elements.length, 0);
        const node = (n: number): number => rename[n] ?? n;
        const renamed = shuffle.map((i) => renumber(elements[i] ?? elements[0], node));
        const point = solve(VEHICLE_NODES, elements);
        const other = solve(VEHICLE_NODES, renamed);
        for (let n = 0; n < VEHICLE_NODES; n += 1) {
          expect(Math.abs(at(other.volts, node(n)) - at(point.volts, n))).toBeLessThan(1e-9);
        }
        shuffle.forEach((i, e) => expect(Math.abs(other.current(e) - point.current(i))).toBeLessThan(1e-9));
      }),
      RUNS,
    );
  });

  it('a dead wire added, or a wire split in two halves, changes nothing', () => {
    fc.assert(
      fc.property(vehicle, fc.nat(), (elements, which) => {
        const point = solve(VEHICLE_NODES, elements);
        const wires = elements.flatMap((e, i) => (e.type === 'resistor' ? [i] : []));
        const k = wires[which % wires.length] ?? 0;
        const wire = elements[k];
        if (wire?.type !== 'resistor') throw new Error('not a wire');
        const half: Element = { type: 'resistor', a: VEHICLE_NODES, b: wire.b, ohms: wire.ohms / 2 };
        const split = elements.with(k, { ...wire, b: VEHICLE_NODES, ohms: wire.ohms / 2 });
        const dead: Element = { type: 'resistor', a: wire.a, b: VEHICLE_NODES, ohms: 0.3 };
        for (const changed of [
          [...elements, dead],
          [...split, half],
        ]) {
          const other = solve(VEHICLE_NODES + 1, changed);
          for (let n = 0; n < VEHICLE_NODES; n += 1) {
            expect(Math.abs(at(other.volts, n) - at(point.volts, n))).toBeLessThan(1e-9);
          }
        }
      }),
      RUNS,
    );
  });

  it('opening a contact and closing it again gives the same bytes as before', () => {
    fc.assert(
      fc.property(vehicle, fc.nat(), (elements, which) => {
        const plan = planCircuit(VEHICLE_NODES, 0, elements);
        const first = plan.solve(elements).volts.slice();
        const k = elements.findIndex((e, i) => e.type === 'resistor' && i >= which % 6);
        const e = elements[k];
        if (e?.type === 'resistor') plan.solve(elements.with(k, { ...e, ohms: Infinity }));
        expect(new Uint8Array(plan.solve(elements).volts.slice().buffer)).toEqual(
          new Uint8Array(first.buffer),
        );
      }),
      RUNS,
    );
  });
});

function renumber(e: Element, node: (n: number) => number): Element {
  if (e.type === 'converter') {
    return {
      ...e,
      inA: node(e.inA),
      inB: node(e.inB),
      outA: node(e.outA),
      outB: node(e.outB),
      senseA: node(e.senseA),
      senseB: node(e.senseB),
    };
  }
  if (e.type === 'hold') {
    return { ...e, a: node(e.a), b: node(e.b), senseA: node(e.senseA), senseB: node(e.senseB) };
  }
  return { ...e, a: node(e.a), b: node(e.b) };
}
