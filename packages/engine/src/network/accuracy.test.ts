import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ElementOf } from '../contracts/element.ts';
import { planCircuit } from './plan.ts';

type Element = ElementOf<number>;

/** Exact fractions of whole numbers. */
class Fraction {
  readonly n: bigint;
  readonly d: bigint;

  constructor(n: bigint, d: bigint) {
    const g = gcd(n < 0n ? -n : n, d);
    this.n = n / g;
    this.d = d / g;
  }

  /** A double, exactly. */
  static of(x: number): Fraction {
    let scale = 0n;
    let value = x;
    while (!Number.isInteger(value)) {
      value *= 2;
      scale += 1n;
    }
    return new Fraction(BigInt(value), 1n << scale);
  }

  plus(o: Fraction): Fraction {
    return new Fraction(this.n * o.d + o.n * this.d, this.d * o.d);
  }

  minus(o: Fraction): Fraction {
    return new Fraction(this.n * o.d - o.n * this.d, this.d * o.d);
  }

  times(o: Fraction): Fraction {
    return new Fraction(this.n * o.n, this.d * o.d);
  }

  over(o: Fraction): Fraction {
    const sign = o.n < 0n ? -1n : 1n;
    return new Fraction(sign * this.n * o.d, sign * this.d * o.n);
  }

  /** Nearest number, good to more than 17 digits. */
  toNumber(): number {
    if (this.n === 0n) return 0;
    const shift = 80 - (bits(this.n) - bits(this.d));
    const scaled = shift >= 0 ? (this.n << BigInt(shift)) / this.d : this.n / (this.d << BigInt(-shift));
    return Number(scaled) * 2 ** -shift;
  }
}

/** Binary digits of a whole number. */
function bits(v: bigint): number {
  return (v < 0n ? -v : v).toString(2).length;
}

function gcd(a: bigint, b: bigint): bigint {
  let x = a;
  let y = b;
  while (y !== 0n) [x, y] = [y, x % y];
  return x === 0n ? 1n : x;
}

const NONE = new Fraction(0n, 1n);

/** Exact node voltages of resistors and straight-line sources; node 0 is the reference. */
function exact(nodes: number, elements: readonly Element[]): Fraction[] {
  const n = nodes - 1;
  const rows = Array.from({ length: n }, () => Array.from({ length: n + 1 }, () => NONE));
  const add = (r: number, c: number, by: Fraction): void => {
    const row = rows[r - 1];
    if (row !== undefined && c !== 0) row[c - 1] = (row[c - 1] ?? NONE).plus(by);
  };
  const one = new Fraction(1n, 1n);
  for (const e of elements) {
    if (e.type !== 'resistor' && e.type !== 'pieces') continue;
    const g = e.type === 'resistor' ? one.over(Fraction.of(e.ohms)) : Fraction.of(e.below);
    for (const [p, q] of [
      [e.a, e.b],
      [e.b, e.a],
    ] as const) {
      add(p, p, g);
      add(p, q, NONE.minus(g));
    }
    if (e.type !== 'pieces') continue;
    const [volts, amps] = e.points[0] ?? [0, 0];
    const known = Fraction.of(amps).minus(g.times(Fraction.of(volts)));
    add(e.a, n + 1, NONE.minus(known));
    add(e.b, n + 1, known);
  }
  return eliminate(rows, n);
}

function eliminate(rows: Fraction[][], n: number): Fraction[] {
  for (let k = 0; k < n; k += 1) {
    const pivot = rows[k]?.[k] ?? NONE;
    for (let r = 0; r < n; r += 1) {
      const entry = rows[r]?.[k] ?? NONE;
      if (r === k || entry.n === 0n) continue;
      const f = entry.over(pivot);
      for (let c = k; c <= n; c += 1) {
        const row = rows[r] ?? [];
        row[c] = (row[c] ?? NONE).minus(f.times(rows[k]?.[c] ?? NONE));
      }
    }
  }
  return [NONE, ...rows.map((row, k) => (row[n] ?? NONE).over(row[k] ?? NONE))];
}

const NODES = 8;
const siemens = fc.double({ min: Math.log(1e-9), max: Math.log(1e4), noNaN: true }).map(Math.exp);
const node = fc.integer({ min: 0, max: NODES - 1 });

/** Nets whose conductances go from 1e-9 to 1e4 S, fed by two batteries; the second from node 5 to `minus`. */
function net(minus: number): fc.Arbitrary<Element[]> {
  return fc
    .tuple(
      fc.array(siemens, { minLength: NODES - 1, maxLength: NODES - 1 }),
      fc.array(fc.tuple(node, node, siemens), { maxLength: 10 }),
      fc.double({ min: 10, max: 15, noNaN: true }),
      fc.double({ min: 20, max: 2000, noNaN: true }),
    )
    .map(([links, chords, volts, g]): Element[] => [
      ...links.map((s, i): Element => ({ type: 'resistor', a: i, b: i + 1, ohms: 1 / s })),
      ...chords
        .filter(([a, b]) => a !== b)
        .map(([a, b, s]): Element => ({ type: 'resistor', a, b, ohms: 1 / s })),
      { type: 'pieces', a: 2, b: 0, points: [[volts, 0]], below: g, above: g },
      { type: 'pieces', a: 5, b: minus, points: [[volts - 0.3, 0]], below: g / 7, above: g / 7 },
    ]);
}

describe('against exact arithmetic', () => {
  it('voltages are right to 1e-14 of (volts + 1 mV), whatever the ratios of conductances', () => {
    fc.assert(
      fc.property(net(0), (elements) => {
        const truth = exact(NODES, elements).map((v) => v.toNumber());
        const { volts } = planCircuit(NODES, 0, elements).solve(elements);
        truth.forEach((v, n) =>
          expect(Math.abs((volts[n] ?? 0) - v) / (Math.abs(v) + 1e-3)).toBeLessThan(1e-14),
        );
      }),
      { seed: 4711, numRuns: 150 },
    );
  });

  // a current of 1 A is a number with a last place of 2e-16 A; what flows beside it cannot be known better
  it.each([
    ['batteries on the reference', 0],
    ['a battery between floating nodes', 4],
  ])(
    'currents and drops are right to 1e-11 of themselves and 1e-14 of the largest current: %s',
    (_, minus) => {
      fc.assert(
        fc.property(net(minus), (elements) => {
          const truth = exact(NODES, elements);
          const point = planCircuit(NODES, 0, elements).solve(elements);
          const largest = Math.max(...point.currents.map(Math.abs));
          elements.forEach((e, k) => {
            if (e.type !== 'resistor') return;
            const drop = (truth[e.a] ?? NONE).minus(truth[e.b] ?? NONE);
            const amps = drop.over(Fraction.of(e.ohms)).toNumber();
            const allowed = 1e-11 * Math.abs(amps) + 1e-14 * largest;
            expect(Math.abs(point.current(k) - amps)).toBeLessThan(allowed);
            expect(Math.abs(point.drop(k) - drop.toNumber())).toBeLessThan(allowed * e.ohms);
          });
        }),
        { seed: 4712, numRuns: 150 },
      );
    },
  );
});
