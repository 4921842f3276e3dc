/** Elements of several straight lines of current against voltage: batteries, diodes, loads, converters that are off. */
import type { ElementOf } from '../contracts/index.ts';
import { carriesNothing } from '../network/index.ts';

/** A line of current against voltage, from `from` to `to` volts. */
export interface Line {
  readonly siemens: number;
  /** At no volts, A. */
  readonly amps: number;
  readonly from: number;
  readonly to: number;
}

export interface Bent {
  readonly index: number;
  readonly a: number;
  readonly b: number;
  readonly lines: readonly Line[];
}

/** What bends, with its lines; a load that draws nothing on any of them does not. */
export function bentOf(e: ElementOf<number>, index: number): readonly Bent[] {
  if (e.type === 'pieces') {
    return carriesNothing(e) ? [] : [{ index, a: e.a, b: e.b, lines: linesOf(e.points, e.below, e.above) }];
  }
  if (e.type !== 'converter') return [];
  const idle = 1 / e.idleOhms;
  const points = [
    [0, 0],
    [1, idle + e.standbyAmps],
  ] as const;
  return [{ index, a: e.inA, b: e.inB, lines: linesOf(points, idle, idle) }];
}

export function linesOf(
  points: readonly (readonly [number, number])[],
  below: number,
  above: number,
): readonly Line[] {
  return Array.from({ length: points.length + 1 }, (_, k): Line => {
    const left = points[k - 1];
    const right = points[k];
    const [volts, amps] = left ?? right ?? [0, 0];
    const siemens =
      left === undefined ? below : right === undefined ? above : (right[1] - left[1]) / (right[0] - left[0]);
    return {
      siemens,
      amps: amps - siemens * volts,
      from: left?.[0] ?? -Infinity,
      to: right?.[0] ?? Infinity,
    };
  });
}

/** The line that holds at a voltage. */
export function placeOn(lines: readonly Line[], volts: number): number {
  const place = lines.findIndex((line) => volts <= line.to);
  return place < 0 ? lines.length - 1 : place;
}
