/** What becomes of a setting in the end: settled, or going on and off for ever, by how much. */
import type { Converts } from '../../contracts/index.ts';
import type { Outcome, Point } from '../../network/index.ts';
import type { CircuitPart } from '../circuit.ts';
import { ruleSays, voltsBetween } from '../rules.ts';
import type { Machine, Run } from '../run.ts';
import type { LiveCycling, LiveForecast } from './types.ts';

/** Outcomes that never come to rest. */
export const REPEATING: ReadonlySet<string> = new Set(['cycle', 'irregular']);

export function forecastOf(m: Machine, run: Run): LiveForecast {
  const { outcome } = run;
  const settled = outcome.segments.every((segment) => segment.point.settled);
  const cycles = REPEATING.has(outcome.type);
  return {
    outcome: settled ? outcome.type : 'none',
    periodMs: outcome.periodMs,
    cycling: cycles ? m.circuit.devices.flatMap((part) => cyclingOf(m, run, part)) : [],
    order: outcome.cycleEvents.map((event) => {
      const memory = run.memories[event.device] ?? null;
      return {
        atMs: event.atMs,
        part: m.circuit.devices[event.device]?.placed.id ?? '',
        to: memory?.values[event.to] ?? String(event.to),
        says: ruleSays(memory, event.from, event.to),
      };
    }),
  };
}

function cyclingOf(m: Machine, { outcome }: Run, part: CircuitPart): readonly LiveCycling[] {
  const { converts } = part.placed.ability;
  if (converts === undefined || part.converter < 0) return [];
  const isOn = (memory: readonly number[]): boolean => converts.charging.includes(memory[part.device] ?? 0);
  const on = outcome.segments.filter((segment) => isOn(segment.memory));
  const off = outcome.segments.filter((segment) => !isOn(segment.memory));
  const onMs = on.reduce((sum, segment) => sum + segment.durationMs, 0);
  const offMs = off.reduce((sum, segment) => sum + segment.durationMs, 0);
  if (onMs === 0 || offMs === 0) return [];
  const e = part.converter;
  return [
    {
      part: part.placed.id,
      duty: onMs / (onMs + offMs),
      onMs,
      offMs,
      meanIn: outcome.mean((p) => p.current(e)),
      meanOut: outcome.mean((p) => p.outCurrent(e)),
      onIn: meanOver(on, (p) => p.current(e)),
      onOut: meanOver(on, (p) => p.outCurrent(e)),
      inputOn: meanOver(on, (p) => inputOf(m, part, converts, p)),
      inputOff: meanOver(off, (p) => inputOf(m, part, converts, p)),
      starts: converts.starts.sourced.value,
      stops: converts.stops.sourced.value,
    },
  ];
}

/** Volts at the input of a converter. */
export function inputOf(m: Machine, part: CircuitPart, converts: Converts, point: Point): number {
  const { nodes } = m.circuit;
  const { id } = part.placed;
  return voltsBetween(point, nodes.own(id, converts.inPlus), nodes.own(id, converts.inMinus)) ?? 0;
}

function meanOver(segments: Outcome<Point>['segments'], f: (point: Point) => number): number {
  let time = 0;
  let sum = 0;
  for (const { durationMs, point } of segments) {
    time += durationMs;
    sum += durationMs * f(point);
  }
  return time === 0 ? 0 : sum / time;
}
