/** The pieces that each device can stand on, and the equations that hold on a piece, with their derivatives. */
import type { ElementOf } from '../../packages/engine/src/contracts/element.ts';
import { efficiency } from './law.ts';

type Element = ElementOf<number>;
type Converter = Extract<Element, { type: 'converter' }>;

/** One equation: value at x, and its derivatives as (unknown, value) pairs; unknown -1 is the reference. */
export interface Equation {
  value: number;
  slope: [unknown: number, by: number][];
}

export interface Device {
  readonly element: Element;
  readonly index: number;
  /** Unknowns: node voltages of a, b, out a, out b, sense a, sense b, then currents through and out. */
  readonly at: { a: number; b: number; oa: number; ob: number; sa: number; sb: number; i: number; o: number };
  readonly pieces: readonly string[];
}

function converterPieces(e: Converter): string[] {
  if (!e.on) return ['off<0', 'off<1', 'off'];
  const remote = e.senseA !== e.outA || e.senseB !== e.outB;
  const low =
    e.lowInput.type === 'holds'
      ? ['hold', 'starved']
      : e.lowInput.type === 'reduces'
        ? ['reduce', 'starved']
        : [];
  if (e.demand !== null) {
    const outs = remote ? ['limited', 'volts', 'cap', 'blocked'] : ['limited', 'volts', 'blocked'];
    return ['full', 'limit', 'low', 'dead', ...low].flatMap((input) => outs.map((out) => `${input} ${out}`));
  }
  return ['blocked', 'volts', 'current', 'limit', 'low', 'dead', ...low, ...(remote ? ['cap'] : [])];
}

export function piecesOf(e: Element): string[] {
  switch (e.type) {
    case 'pieces':
      return Array.from({ length: e.points.length + 1 }, (_, i) => String(i));
    case 'hold': {
      const remote = e.senseA !== e.a || e.senseB !== e.b;
      return ['regulating', 'least', 'greatest', ...(remote ? ['cap'] : [])];
    }
    case 'power':
      return e.limit * e.knee < e.watts ? ['power', 'limit', 'resistor'] : ['power', 'resistor'];
    case 'converter':
      return converterPieces(e);
    default:
      return [];
  }
}

export function volts(x: Float64Array, a: number, b: number): number {
  return (a < 0 ? 0 : x[a]) - (b < 0 ? 0 : x[b]);
}

/** value = c + sum k (v_a - v_b) + sum k i */
function linear(
  x: Float64Array,
  c: number,
  pairs: [number, number, number][],
  singles: [number, number][],
): Equation {
  const slope: [number, number][] = [];
  let value = c;
  for (const [a, b, k] of pairs) {
    value += k * volts(x, a, b);
    slope.push([a, k], [b, -k]);
  }
  for (const [i, k] of singles) {
    value += k * x[i];
    slope.push([i, k]);
  }
  return { value, slope };
}

export function pieceEquations(d: Device, piece: string, x: Float64Array): Equation[] {
  const { element: e, at } = d;
  const { a, b, i } = at;
  if (e.type === 'pieces') {
    const s = Number(piece);
    const last = e.points.length - 1;
    const [v0, i0] = e.points[Math.min(s, last)];
    let g = s === 0 ? e.below : e.above;
    if (s > 0 && s <= last) {
      const [v1, i1] = e.points[s - 1];
      g = (i0 - i1) / (v0 - v1);
    }
    return [linear(x, g * v0 - i0, [[a, b, -g]], [[i, 1]])];
  }
  if (e.type === 'hold') {
    if (piece === 'least') return [linear(x, e.least, [], [[i, 1]])];
    if (piece === 'greatest') return [linear(x, e.greatest, [], [[i, 1]])];
    if (piece === 'cap') return [linear(x, -1.1 * e.volts, [[a, b, 1]], [])];
    return [linear(x, -e.volts, [[at.sa, at.sb, 1]], [])];
  }
  if (e.type === 'power') {
    if (piece === 'limit') return [linear(x, -e.limit, [], [[i, 1]])];
    if (piece === 'resistor') return [linear(x, 0, [[a, b, -e.watts / e.knee ** 2]], [[i, 1]])];
    return [product(x, a, b, i, 0, -e.watts)];
  }
  return e.type === 'converter' ? converterEquations(e, d, piece, x) : [];
}

/** (v_a - v_b) (i - less) + c = 0 */
function product(x: Float64Array, a: number, b: number, i: number, less: number, c: number): Equation {
  const v = volts(x, a, b);
  const amps = x[i] - less;
  return {
    value: v * amps + c,
    slope: [
      [a, amps],
      [b, -amps],
      [i, v],
    ],
  };
}

/** Input power less standby = output power / efficiency. */
function energy(e: Converter, d: Device, x: Float64Array): Equation {
  const { a, b, oa, ob, i, o } = d.at;
  const input = product(x, a, b, i, e.standbyAmps, 0);
  const out = volts(x, oa, ob);
  const sent = x[o];
  const asked = sent / efficiency(e, sent);
  const h = 1e-7 * Math.max(1, e.ratedCurrent);
  const rise = ((sent + h) / efficiency(e, sent + h) - (sent - h) / efficiency(e, sent - h)) / (2 * h);
  return {
    value: input.value - out * asked,
    slope: [...input.slope, [oa, -asked], [ob, asked], [o, -out * rise]],
  };
}

function converterEquations(e: Converter, d: Device, piece: string, x: Float64Array): Equation[] {
  const { a, b, oa, ob, sa, sb, i, o } = d.at;
  const low = e.inputLimit / e.lowest;
  const none = linear(x, 0, [], [[o, 1]]);
  const resistor = linear(x, 0, [[a, b, -low]], [[i, 1]]);
  const standby = linear(x, -e.standbyAmps, [], [[i, 1]]);
  const limit = linear(x, -e.inputLimit, [], [[i, 1]]);
  const held = linear(x, e.lowInput.type === 'holds' ? -e.lowInput.volts : 0, [[a, b, 1]], []);
  const regulated = linear(x, -e.volts, [[sa, sb, 1]], []);
  const capped = linear(x, -1.1 * e.volts, [[oa, ob, 1]], []);
  if (piece.startsWith('off')) {
    const g = 1 / e.idleOhms;
    if (piece === 'off') return [linear(x, -e.standbyAmps, [[a, b, -g]], [[i, 1]]), none];
    return [linear(x, 0, [[a, b, -(piece === 'off<1' ? g + e.standbyAmps : g)]], [[i, 1]]), none];
  }
  const reduce = e.lowInput.type === 'reduces' ? e.lowInput : { from: 1, to: 0 };
  const k = 1 / (reduce.from - reduce.to);
  if (e.demand === null) {
    const power = energy(e, d, x);
    switch (piece) {
      case 'blocked':
      case 'starved':
        return [standby, none];
      case 'dead':
        return [resistor, none];
      case 'volts':
        return [regulated, power];
      case 'cap':
        return [capped, power];
      case 'current':
        return [linear(x, -e.current, [], [[o, 1]]), power];
      case 'limit':
        return [limit, power];
      case 'low':
        return [resistor, power];
      case 'hold':
        return [held, power];
      default:
        return [linear(x, e.current * k * reduce.to, [[a, b, -e.current * k]], [[o, 1]]), power];
    }
  }
  const [input = '', out = ''] = piece.split(' ');
  const v = volts(x, a, b);
  const full = e.demand / v;
  // share x (full - standby) = i - standby, written for the share that the output follows
  const share = (x[i] - e.standbyAmps) / (full - e.standbyAmps);
  const byAmps = 1 / (full - e.standbyAmps);
  const byVolts = (share * full) / v / (full - e.standbyAmps);
  const follow: Equation = {
    value: x[o] - e.current * share,
    slope: [
      [o, 1],
      [i, -e.current * byAmps],
      [a, -e.current * byVolts],
      [b, e.current * byVolts],
    ],
  };
  const outputs: Record<string, Equation> = { limited: follow, volts: regulated, cap: capped, blocked: none };
  const s = (v - reduce.to) * k;
  const reduced: Equation = {
    value: x[i] - e.standbyAmps - s * (full - e.standbyAmps),
    slope: [
      [i, 1],
      [a, -(k * (full - e.standbyAmps) - (s * full) / v)],
      [b, k * (full - e.standbyAmps) - (s * full) / v],
    ],
  };
  const inputs: Record<string, Equation> = {
    full: product(x, a, b, i, 0, -e.demand),
    limit,
    low: resistor,
    dead: resistor,
    hold: held,
    starved: standby,
    reduce: reduced,
  };
  const nothing = (input === 'dead' || input === 'starved') && out === 'limited';
  return [inputs[input] ?? standby, nothing ? none : (outputs[out] ?? none)];
}
