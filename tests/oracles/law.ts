/**
 * What each element is, written as a test of an answer and independent of any method of solution: how far volts and amperes
 * are from the element's law.
 */
import type { ElementOf } from '../../packages/engine/src/contracts/element.ts';

export interface Terminals {
  /** Volts a to b (converters: input), sensed volts, output volts. */
  readonly volts: number;
  readonly sensed: number;
  readonly output: number;
  /** Amperes a to b, and sent out of the output. */
  readonly amps: number;
  readonly sent: number;
  /** Sensed elsewhere than at the own terminals. */
  readonly remote: boolean;
}

/** Own terminals of a regulator with remote sense stay under this multiple of its set voltage. */
const SENSE_RANGE = 1.1;

/** By how much what is regulated is above what it should be. */
function above(e: { volts: number }, t: Terminals, own: number): number {
  return t.remote ? Math.max(t.sensed - e.volts, own - SENSE_RANGE * e.volts) : t.sensed - e.volts;
}

type Converter = Extract<ElementOf<number>, { type: 'converter' }>;

export function curve(
  points: readonly (readonly [number, number])[],
  below: number,
  above: number,
  v: number,
): number {
  const first = points[0] ?? [0, 0];
  const last = points.at(-1) ?? first;
  if (v <= first[0]) return first[1] + below * (v - first[0]);
  for (let i = 1; i < points.length; i += 1) {
    const [x0, y0] = points[i - 1] ?? first;
    const [x1, y1] = points[i] ?? last;
    if (v <= x1) return y0 + ((y1 - y0) * (v - x0)) / (x1 - x0);
  }
  return last[1] + above * (v - last[0]);
}

/** Efficiency at an output current. */
export function efficiency(e: Converter, sent: number): number {
  return curve(e.efficiency, 0, 0, sent / e.ratedCurrent);
}

export function inputLimit(e: Converter, volts: number): number {
  return volts < e.lowest ? (e.inputLimit * volts) / e.lowest : e.inputLimit;
}

/** Distance of a value from a condition "x is 0, or (x > 0 and y = 0), or ..." written as the least of several distances. */
function least(...values: number[]): number {
  return Math.min(...values.map(Math.abs));
}

function over(value: number, limit: number): number {
  return Math.max(0, value - limit);
}

function linked(e: Converter, t: Terminals): number {
  const limit = inputLimit(e, t.volts);
  const share =
    e.lowInput.type === 'reduces'
      ? Math.min(1, Math.max(0, (t.volts - e.lowInput.to) / (e.lowInput.from - e.lowInput.to)))
      : 1;
  const held = e.lowInput.type === 'holds' ? e.lowInput.volts : -Infinity;
  const most = e.current * share;
  // the output is limited by the smallest of everything, and something limits it
  const limits = Math.max(
    over(0, t.sent),
    over(t.sent, most),
    Math.min(over(above(e, t, t.output), 0), Math.abs(t.sent)),
    over(t.amps, Math.max(limit, Math.min(e.standbyAmps, limit))),
    Math.min(over(held, t.volts), Math.abs(t.sent)),
  );
  const dead = limit < e.standbyAmps;
  if (dead) return Math.max(limits, Math.abs(t.amps - limit), Math.abs(t.sent));
  const some = least(
    t.sent - most,
    above(e, t, t.output),
    t.amps - limit,
    t.volts - held,
    over(0, above(e, t, t.output)) + t.sent,
  );
  const starved = over(t.volts, held) === 0 ? Math.abs(t.sent) : Infinity;
  const energy = t.volts * (t.amps - e.standbyAmps) - (t.output * t.sent) / efficiency(e, t.sent);
  return Math.max(limits, Math.min(some, starved), Math.abs(energy) / Math.max(1, Math.abs(t.volts)));
}

function asked(e: Converter, t: Terminals): number {
  const demand = e.demand ?? 0;
  const limit = inputLimit(e, t.volts);
  const dead = limit < e.standbyAmps;
  const full = demand / t.volts;
  const reduced =
    e.lowInput.type === 'reduces'
      ? Math.min(1, Math.max(0, (t.volts - e.lowInput.to) / (e.lowInput.from - e.lowInput.to)))
      : 1;
  const held = e.lowInput.type === 'holds' ? e.lowInput.volts : -Infinity;
  if (dead) return Math.max(Math.abs(t.amps - limit), Math.abs(t.sent));
  const share = (t.amps - e.standbyAmps) / (full - e.standbyAmps);
  const most = Math.min(reduced, (limit - e.standbyAmps) / (full - e.standbyAmps), 1);
  let input: number;
  if (t.volts < held - 1e-9) input = Math.abs(share);
  else if (Math.abs(t.volts - held) < 1e-9) input = Math.max(over(0, share), over(share, most));
  else input = Math.abs(share - most);
  const top = e.current * Math.max(0, share);
  const output = Math.max(
    over(0, t.sent),
    over(t.sent, top),
    Math.min(over(above(e, t, t.output), 0), Math.abs(t.sent)),
    least(t.sent - top, above(e, t, t.output), over(0, above(e, t, t.output)) + t.sent),
  );
  return Math.max(input, output);
}

function converterMiss(e: Converter, t: Terminals): number {
  if (!e.on) {
    const standby = e.standbyAmps * Math.min(1, Math.max(0, t.volts));
    return Math.max(Math.abs(t.amps - t.volts / e.idleOhms - standby), Math.abs(t.sent));
  }
  return e.demand === null ? linked(e, t) : asked(e, t);
}

/** How far (volts or amperes) an element's terminals are from its law; resistors are not judged here. */
export function miss(e: ElementOf<number>, t: Terminals): number {
  switch (e.type) {
    case 'pieces':
      return Math.abs(t.amps - curve(e.points, e.below, e.above, t.volts));
    case 'hold': {
      const sent = -t.amps;
      const high = above(e, t, t.volts);
      return Math.max(
        over(sent, e.greatest),
        over(e.least, sent),
        high < 0 ? Math.min(-high, Math.abs(e.greatest - sent)) : 0,
        high > 0 ? Math.min(high, Math.abs(sent - e.least)) : 0,
      );
    }
    case 'power': {
      const low = (t.volts * e.watts) / (e.knee * e.knee);
      const law = t.volts >= e.knee ? Math.min(e.limit, e.watts / t.volts) : Math.min(e.limit, low);
      return Math.abs(t.amps - law);
    }
    case 'converter':
      return converterMiss(e, t);
    default:
      return 0;
  }
}

/** What an answer says about an element. */
export interface Answer {
  readonly volts: ArrayLike<number>;
  current(e: number): number;
  outCurrent(e: number): number;
}

function between(answer: Answer, a: number, b: number): number {
  return (answer.volts[a] ?? 0) - (answer.volts[b] ?? 0);
}

/** Worst miss (volts or amperes) over all devices of a circuit. */
export function worstMiss(
  elements: readonly ElementOf<number>[],
  answer: Answer,
): { worst: number; element: number } {
  let worst = 0;
  let element = -1;
  elements.forEach((e, i) => {
    if (e.type === 'resistor') return;
    const pair = e.type === 'converter' ? [e.inA, e.inB] : [e.a, e.b];
    const own = e.type === 'converter' ? [e.outA, e.outB] : pair;
    const senses = e.type === 'converter' || e.type === 'hold';
    const m = miss(e, {
      volts: between(answer, pair[0] ?? 0, pair[1] ?? 0),
      sensed: senses ? between(answer, e.senseA, e.senseB) : 0,
      output: between(answer, own[0] ?? 0, own[1] ?? 0),
      amps: answer.current(i),
      sent: answer.outCurrent(i),
      remote: senses && (e.senseA !== own[0] || e.senseB !== own[1]),
    });
    if (!(m <= worst)) {
      worst = m;
      element = i;
    }
  });
  return { worst, element };
}
