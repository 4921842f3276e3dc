/** Small circuits out of the elements of kinds: for tests. */
import type { ElementOf } from '../../contracts/index.ts';
import { planCircuit } from '../../network/index.ts';

/** Current of a monotone piecewise-linear element at a voltage, A. */
export function ampsAt(e: ElementOf<string> | undefined, volts: number): number {
  if (e?.type !== 'pieces') throw new Error('not made of pieces');
  const [first, last] = [e.points[0], e.points.at(-1)];
  if (first === undefined || last === undefined) throw new Error('no points');
  if (volts <= first[0]) return first[1] + (volts - first[0]) * e.below;
  if (volts >= last[0]) return last[1] + (volts - last[0]) * e.above;
  const i = e.points.findIndex((point) => point[0] >= volts);
  const [a, b] = [e.points[i - 1] ?? first, e.points[i] ?? last];
  return a[1] + ((volts - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
}

function renamed<T>(e: ElementOf<string>, to: (name: string) => T): ElementOf<T> {
  if (e.type === 'hold') return { ...e, a: to(e.a), b: to(e.b), senseA: to(e.senseA), senseB: to(e.senseB) };
  if (e.type === 'converter') {
    return {
      ...e,
      inA: to(e.inA),
      inB: to(e.inB),
      outA: to(e.outA),
      outB: to(e.outB),
      senseA: to(e.senseA),
      senseB: to(e.senseB),
    };
  }
  return { ...e, a: to(e.a), b: to(e.b) };
}

/** Solves elements whose nodes of one name are one node; `zero` is the reference. */
export function solved(elements: readonly ElementOf<string>[], zero: string) {
  const numbers = new Map<string, number>([[zero, 0]]);
  const to = (name: string): number => {
    const known = numbers.get(name) ?? numbers.size;
    numbers.set(name, known);
    return known;
  };
  const all = elements.map((e) => renamed(e, to));
  const point = planCircuit(numbers.size, 0, all).solve(all);
  return {
    settled: point.settled,
    amps: (element: number): number => point.current(element),
    outAmps: (element: number): number => point.outCurrent(element),
    regime: (element: number): string => point.regime(element),
    volts: (a: string, b: string): number => (point.volts[to(a)] ?? NaN) - (point.volts[to(b)] ?? NaN),
  };
}

/** The same elements with other names for their nodes. */
export const wired = (
  elements: readonly ElementOf<string>[],
  names: Readonly<Record<string, string>>,
): readonly ElementOf<string>[] => elements.map((e) => renamed(e, (node) => names[node] ?? node));
