/** A plan answers the same bytes whatever it solved before: what it keeps from point to point must never show. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ElementOf } from '../contracts/element.ts';
import { planCircuit, type SolveOptions } from './plan.ts';
import type { Point } from './point.ts';
import { Tail } from './tail.ts';

type Element = ElementOf<number>;

const NODES = 8;

/** One set of numbers for the circuit below; `null` ohms: an open contact. */
interface Numbers {
  readonly contacts: readonly (number | null)[];
  readonly rest: number;
  readonly load: number;
  readonly panel: number;
  readonly watts: number;
  /** Resistances of the last two wires, handed in as a tail; null: as elements. */
  readonly tail: readonly [number, number] | null;
}

function elementsOf(n: Numbers): readonly Element[] {
  const contact = (i: number, a: number, b: number): Element => ({
    type: 'resistor',
    a,
    b,
    ohms: n.contacts[i] ?? Infinity,
  });
  return [
    { type: 'pieces', a: 1, b: 0, points: [[n.rest, 0]], below: 200, above: 60 },
    contact(0, 1, 2),
    contact(1, 2, 3),
    contact(2, 4, 5),
    // A load of several pieces, known by its last one while its voltage is high enough.
    {
      type: 'pieces',
      a: 3,
      b: 0,
      points: [
        [0, 0],
        [10, n.load],
      ],
      below: 0,
      above: 0,
    },
    // A straight line: a source behind a resistance.
    { type: 'pieces', a: 6, b: 0, points: [[n.panel, 0]], below: 4, above: 4 },
    { type: 'power', a: 5, b: 0, watts: n.watts, knee: 8, limit: 40 },
    { type: 'resistor', a: 6, b: 4, ohms: 0.2 },
    { type: 'resistor', a: 7, b: 0, ohms: 3 },
    { type: 'resistor', a: 2, b: 4, ohms: n.tail?.[0] ?? 0.01 },
    { type: 'resistor', a: 7, b: 3, ohms: n.tail?.[1] ?? 0.05 },
  ];
}

const TAIL_FROM = 9;

const optionsOf = (n: Numbers): SolveOptions =>
  n.tail === null ? {} : { tail: new Tail(TAIL_FROM, Float64Array.from(n.tail)) };

const few = (...values: number[]): fc.Arbitrary<number> => fc.constantFrom(...values);
const numbers: fc.Arbitrary<Numbers> = fc.record({
  contacts: fc.array(fc.option(few(0.001, 0.004), { freq: 3 }), { minLength: 3, maxLength: 3 }),
  rest: few(11.5, 12.6),
  load: few(2, 9),
  panel: few(0, 14.2),
  watts: few(0, 60),
  tail: fc.option(fc.tuple(few(0.01, 0.02), few(0.05, 2, Infinity))),
});

function bytes(point: Point): string {
  const all = [...point.volts, ...point.currents, ...point.island, point.settled ? 1 : 0];
  return all.join();
}

const fresh = (n: Numbers): string => {
  const elements = elementsOf(n);
  return bytes(planCircuit(NODES, 0, elements).solve(elements, optionsOf(n)));
};

/** A converter behind a regulator of these volts. */
const charging = (volts: number, efficiency: readonly (readonly [number, number])[]): readonly Element[] => [
  // Its row stands already when the converter breaks off.
  { type: 'hold', a: 1, b: 0, senseA: 1, senseB: 0, volts, least: 0, greatest: 90 },
  { type: 'pieces', a: 1, b: 0, points: [[12.6, 0]], below: 200, above: 60 },
  { type: 'resistor', a: 1, b: 2, ohms: 0.02 },
  {
    type: 'converter',
    inA: 2,
    inB: 0,
    outA: 3,
    outB: 0,
    senseA: 3,
    senseB: 0,
    on: true,
    idleOhms: 1e5,
    standbyAmps: 0.02,
    volts: 14.4,
    current: 20,
    ratedCurrent: 20,
    efficiency,
    inputLimit: 40,
    lowest: 10,
    lowInput: { type: 'none' },
    demand: null,
  },
  { type: 'pieces', a: 3, b: 0, points: [[13.2, 0]], below: 30, above: 25 },
];

describe('a plan that has solved other points', () => {
  it('answers as a fresh one, contacts, sources, loads and tails changing in any order', () => {
    fc.assert(
      fc.property(fc.array(numbers, { minLength: 2, maxLength: 12 }), (sequence) => {
        const plan = planCircuit(NODES, 0, elementsOf(sequence[0]));
        for (const n of sequence) expect(bytes(plan.solve(elementsOf(n), optionsOf(n)))).toBe(fresh(n));
      }),
      { seed: 20_261_125, numRuns: 300 },
    );
  });

  it('does so with elements that are the same objects, and after a refusal amid them', () => {
    fc.assert(
      fc.property(numbers, numbers, fc.nat(TAIL_FROM - 1), (one, other, place) => {
        const [first, second] = [elementsOf(one), elementsOf(other)];
        const plan = planCircuit(NODES, 0, first);
        plan.solve(first, optionsOf(one));
        const mixed = second.map((e, i) => (i < place ? e : first[i]));
        const wrong = mixed.map((e, i): Element =>
          i === 8 ? { type: 'resistor', a: 7, b: 0, ohms: -1 } : e,
        );
        expect(() => plan.solve(wrong, optionsOf(other))).toThrow('not a resistance');
        const after = bytes(plan.solve(mixed, optionsOf(other)));
        expect(after).toBe(bytes(planCircuit(NODES, 0, mixed).solve(mixed, optionsOf(other))));
      }),
      { seed: 20_261_126, numRuns: 300 },
    );
  });

  it('does so after an element that is none', () => {
    fc.assert(
      fc.property(numbers, numbers, fc.nat(TAIL_FROM - 1), (one, other, place) => {
        const [first, second] = [elementsOf(one), elementsOf(other)];
        const plan = planCircuit(NODES, 0, first);
        plan.solve(first);
        expect(() => plan.solve(second.with(place, undefined as never))).toThrow();
        expect(bytes(plan.solve(second))).toBe(bytes(planCircuit(NODES, 0, second).solve(second)));
      }),
      { seed: 20_261_128, numRuns: 100 },
    );
  });

  it('does so after an error amid the solving', () => {
    const sound = charging(13.9, [
      [0.2, 0.8],
      [1, 0.9],
    ]);
    const expected = bytes(planCircuit(4, 0, sound).solve(sound));
    const plan = planCircuit(4, 0, sound);
    let thrown = 0;
    for (let most = 0; most < 60; most += 1) {
      let read = 0;
      const breaking = new Proxy(sound[3]?.type === 'converter' ? sound[3].efficiency : [], {
        get(list, key): unknown {
          if (key === '0') read += 1;
          if (read > most) throw new Error('read once too often');
          return Reflect.get(list, key) as unknown;
        },
      });
      try {
        plan.solve(charging(13.3, breaking));
      } catch {
        thrown += 1;
      }
      expect(bytes(plan.solve(sound))).toBe(expected);
    }
    expect(thrown).toBeGreaterThan(5);
  });

  it('refuses a tail that does not end where the circuit does, and one without a resistance', () => {
    const elements = elementsOf({
      contacts: [0.001, 0.001, 0.001],
      rest: 12.6,
      load: 2,
      panel: 0,
      watts: 0,
      tail: null,
    });
    const plan = planCircuit(NODES, 0, elements);
    for (const ohms of [[0.1], [0.1, 0.1, 0.1]])
      expect(() => plan.solve(elements, { tail: new Tail(TAIL_FROM, Float64Array.from(ohms)) })).toThrow(
        'does not end',
      );
    for (const none of [0, -1, Number.NaN])
      expect(() => new Tail(TAIL_FROM, Float64Array.of(0.1, none))).toThrow('element 10');
    expect(bytes(plan.solve(elements))).toBe(bytes(planCircuit(NODES, 0, elements).solve(elements)));
  });

  it('keeps what earlier points said', () => {
    fc.assert(
      fc.property(fc.array(numbers, { minLength: 2, maxLength: 40 }), (sequence) => {
        const plan = planCircuit(NODES, 0, elementsOf(sequence[0]));
        // Their currents are asked for only after all of them were solved.
        const points = sequence.map((n) => plan.solve(elementsOf(n), optionsOf(n)));
        points.forEach((point, i) => expect(bytes(point)).toBe(fresh(sequence[i])));
      }),
      { seed: 20_261_127, numRuns: 100 },
    );
  });
});
