/**
 * Faults on a circuit whose elements all stand on straight lines: the circuit is factored once for each set of lines, a fault
 * is one answer of it. Which lines hold is found by trying, from those of the circuit without the fault, and proved for each answer.
 */
import type { ElementOf } from '../contracts/index.ts';
import {
  SENSE_RANGE,
  StraightNet,
  type Answer,
  type Factored,
  type Plan,
  type Point,
} from '../network/index.ts';
import { bentOf, placeOn, type Bent } from './straight-lines.ts';

/** What flows in a circuit with a fault. */
export interface Flow {
  current(element: number): number;
  /** The lines that hold, as text; null: an element follows a curve. */
  readonly pieces: string | null;
}

/** Sends a current out of `a` that holds the volts between its sense nodes, between two limits. */
interface Holding {
  readonly index: number;
  readonly a: number;
  readonly b: number;
  readonly senseA: number;
  readonly senseB: number;
  readonly volts: number;
  readonly least: number;
  readonly greatest: number;
}

const AT_LEAST = 0;
const REGULATING = 1;
const AT_GREATEST = 2;
/** Their names, as points have them. */
const PLACES: readonly string[] = ['least', 'regulating', 'greatest'];

/** Rounding at the ends of a line, V and A. */
const CLOSE_VOLTS = 1e-9;
const CLOSE_AMPS = 1e-9;
const ROUNDS = 16;
/** From this round on one element moves at a time. */
const SINGLY = 8;

/** One set of lines, factored; with what one ampere of each regulator that regulates brings about. */
interface Lines {
  /** On which line each element stands, as text. */
  readonly key: string;
  readonly factored: Factored;
  readonly regulating: readonly Holding[];
  /** By the element of a regulator that regulates: its place among them. */
  readonly placeOf: ReadonlyMap<number, number>;
  readonly columns: readonly Answer[];
  readonly siemens: Float64Array;
  readonly amps: Float64Array;
  readonly responses: Map<number, Answer | null>;
}

const nets = new WeakMap<Plan, StraightNet>();

/** The net of lines of a circuit; made once for each plan. */
export function straightNetOf(plan: Plan, shape: readonly ElementOf<number>[]): StraightNet {
  let net = nets.get(plan);
  if (net === undefined) {
    net = new StraightNet(plan.nodeCount, plan.reference, shape);
    nets.set(plan, net);
  }
  return net;
}

export class FaultFlows {
  readonly #net: StraightNet;
  readonly #elements: readonly ElementOf<number>[];
  readonly #bent: readonly Bent[];
  readonly #holds: readonly Holding[];
  readonly #known = new Map<string, Lines | null>();
  readonly #siemens: Float64Array;
  /** Where every fault begins: where the one before ended would leave the last digit to the order of asking. */
  readonly #at: Uint8Array;
  /** The lines asked for last, and what they were asked for by. */
  #last: { readonly at: Uint8Array; readonly lines: Lines | null } | null = null;

  /** `sound`: the circuit without the fault, for the lines to begin with. null: an element follows a curve. */
  static of(net: StraightNet, elements: readonly ElementOf<number>[], sound: Point): FaultFlows | null {
    const curved = elements.some(
      (e) => (e.type === 'power' && e.watts !== 0) || (e.type === 'converter' && e.on),
    );
    // One at the end of its sense range is for the circuit itself to solve.
    const standing = elements.every((e, i) => e.type !== 'hold' || PLACES.includes(sound.regime(i)));
    return curved || !sound.settled || !standing ? null : new FaultFlows(net, elements, sound);
  }

  /** `like`: where the search for the lines begins, as told by a sound circuit or by flows that differ in resistors only. */
  private constructor(net: StraightNet, elements: readonly ElementOf<number>[], like: Point | FaultFlows) {
    this.#net = net;
    this.#elements = elements;
    this.#siemens = Float64Array.from(elements, (e) => (e.type === 'resistor' ? 1 / e.ohms : 0));
    if (like instanceof FaultFlows) {
      this.#bent = like.#bent;
      this.#holds = like.#holds;
      this.#at = like.#at;
      return;
    }
    this.#bent = elements.flatMap((e, index) => bentOf(e, index));
    this.#holds = elements.flatMap((e, index) => (e.type === 'hold' ? [{ ...e, index }] : []));
    this.#at = Uint8Array.from([
      ...this.#bent.map(({ index, lines }) => placeOn(lines, like.drop(index))),
      ...this.#holds.map(({ index }) => PLACES.indexOf(like.regime(index))),
    ]);
  }

  /** With other resistors; the search for the lines begins where it does here. */
  resisting(elements: readonly ElementOf<number>[]): FaultFlows {
    return new FaultFlows(this.#net, elements, this);
  }

  /** With `ohms` between two nodes; null: not found, or the two are not joined. The fault's current is that of `fault`. */
  flow(a: number, b: number, ohms: number): (Flow & { readonly fault: number }) | null {
    let at = this.#at;
    // A regulator at its limit that feeds nothing now has no way out for its current.
    if (this.#lines(at) === null) at = this.#regulating(at);
    for (let round = 0; round < ROUNDS; round += 1) {
      const lines = this.#lines(at);
      const solved = lines === null ? null : solve(lines, this.#net, { a, b, ohms });
      if (lines === null || solved === null) return null;
      const next = this.#moved(at, lines, solved, round >= SINGLY);
      if (next === null) {
        if (this.#beyondRange(lines, solved)) return null;
        return new SolvedFlow(this.#elements, this.#net.positionOf, lines, solved);
      }
      at = next;
    }
    return null;
  }

  /** True where a regulator's own terminals would stand beyond the range of its remote sense. */
  #beyondRange(lines: Lines, solved: Solved): boolean {
    const volts = (node: number): number => voltsAt(lines, solved, this.#net.positionOf[node] ?? 0);
    return this.#holds.some((h) => {
      const remote = h.senseA !== h.a || h.senseB !== h.b;
      return remote && h.volts > 0 && volts(h.a) - volts(h.b) > SENSE_RANGE * h.volts;
    });
  }

  #regulating(at: Uint8Array): Uint8Array {
    return at.map((place, i) => (i < this.#bent.length ? place : REGULATING));
  }

  #lines(at: Uint8Array): Lines | null {
    if (this.#last?.at === at) return this.#last.lines;
    const key = at.join();
    let lines = this.#known.get(key);
    if (lines === undefined) {
      lines = this.#factor(at, key);
      this.#known.set(key, lines);
    }
    this.#last = { at, lines };
    return lines;
  }

  #factor(at: Uint8Array, key: string): Lines | null {
    const siemens = this.#siemens.slice();
    const amps = new Float64Array(siemens.length);
    this.#bent.forEach(({ index, lines }, i) => {
      const line = lines[at[i] ?? 0];
      siemens[index] = line?.siemens ?? 0;
      amps[index] = line?.amps ?? 0;
    });
    const regulating: Holding[] = [];
    this.#holds.forEach((hold, i) => {
      const where = at[this.#bent.length + i];
      if (where === REGULATING) regulating.push(hold);
      else amps[hold.index] = -(where === AT_GREATEST ? hold.greatest : hold.least);
    });
    const factored = this.#net.factor(siemens, amps);
    if (factored === null) return null;
    // What feeds nothing sends nothing, whatever it would hold.
    const sending = regulating.flatMap((hold) => {
      const column = factored.response(hold.b, hold.a);
      return column === null ? [] : [{ hold, column }];
    });
    return {
      key,
      factored,
      regulating: sending.map((one) => one.hold),
      placeOf: new Map(sending.map((one, place) => [one.hold.index, place])),
      columns: sending.map((one) => one.column),
      siemens,
      amps,
      responses: new Map(),
    };
  }

  /** The lines that these volts ask for; null: those that they were found on. */
  #moved(at: Uint8Array, lines: Lines, solved: Solved, singly: boolean): Uint8Array | null {
    let next: Uint8Array | null = null;
    const move = (i: number, to: number): boolean => {
      next ??= at.slice();
      next[i] = to;
      return singly;
    };
    const { positionOf } = this.#net;
    const volts = (a: number, b: number): number =>
      voltsAt(lines, solved, positionOf[a] ?? 0) - voltsAt(lines, solved, positionOf[b] ?? 0);
    for (let i = 0; i < this.#bent.length; i += 1) {
      const bent = this.#bent[i];
      const line = bent?.lines[at[i] ?? 0];
      if (bent === undefined || line === undefined) continue;
      const here = volts(bent.a, bent.b);
      const close = CLOSE_VOLTS * (1 + Math.abs(here));
      if (here < line.from - close || here > line.to + close)
        if (move(i, placeOn(bent.lines, here))) return next;
    }
    for (let h = 0; h < this.#holds.length; h += 1) {
      const hold = this.#holds[h];
      const i = this.#bent.length + h;
      if (hold === undefined) continue;
      const to = heldAt(hold, at[i] ?? 0, volts(hold.senseA, hold.senseB), sentBy(hold, lines, solved));
      if (to !== at[i] && move(i, to)) return next;
    }
    return next;
  }
}

/** Where a regulator stands next. */
function heldAt(hold: Holding, at: number, volts: number, sent: number): number {
  const close = CLOSE_VOLTS * (1 + Math.abs(hold.volts));
  if (at === REGULATING) {
    if (sent < hold.least - CLOSE_AMPS) return AT_LEAST;
    return sent > hold.greatest + CLOSE_AMPS ? AT_GREATEST : REGULATING;
  }
  const leaves = at === AT_GREATEST ? volts > hold.volts + close : volts < hold.volts - close;
  return leaves ? REGULATING : at;
}

const sentBy = (hold: Holding, lines: Lines, solved: Solved): number =>
  solved.sent[lines.placeOf.get(hold.index) ?? -1] ?? 0;

interface Fault {
  readonly a: number;
  readonly b: number;
  readonly ohms: number;
}

interface Solved {
  /** What each regulator that regulates sends, A. */
  readonly sent: readonly number[];
  /** Through the fault, from a to b, A. */
  readonly fault: number;
  readonly response: Answer;
}

/** That of the lines by themselves, with what the fault and each regulator bring about. */
function voltsAt(lines: Lines, { sent, fault, response }: Solved, position: number): number {
  const { columns } = lines;
  let volts = (lines.factored.volts[position] ?? 0) + fault * response.at(position);
  for (let r = 0; r < columns.length; r += 1) volts += (sent[r] ?? 0) * (columns[r]?.at(position) ?? 0);
  return volts;
}

const NOBODY: readonly number[] = [];

/** The currents of the regulators and of the fault from what they have to hold. */
function solve(lines: Lines, net: StraightNet, { a, b, ohms }: Fault): Solved | null {
  const { factored, regulating, columns } = lines;
  const response = responseOf(lines, net, a, b);
  // A fault may be what joins a regulator's two sides: that is for the circuit itself to say.
  if (response === null) return null;
  const at = (node: number): number => net.positionOf[node] ?? 0;
  const across = (by: Answer, from: number, to: number): number => by.at(at(from)) - by.at(at(to));
  const without = (from: number, to: number): number =>
    (factored.volts[at(from)] ?? 0) - (factored.volts[at(to)] ?? 0);
  // Mostly no regulator regulates: one equation.
  if (regulating.length === 0) {
    const fault = -without(a, b) / (across(response, a, b) - ohms);
    if (!Number.isFinite(fault)) return null;
    for (const node of [a, b])
      if (!isExact(lines, NOBODY, fault * response.at(at(node)), at(node))) return null;
    return { sent: NOBODY, fault, response };
  }
  const unknown = [...columns, response];
  const rows = regulating.map((h) => [
    ...unknown.map((u) => across(u, h.senseA, h.senseB)),
    h.volts - without(h.senseA, h.senseB),
  ]);
  rows.push([...columns.map((u) => across(u, a, b)), across(response, a, b) - ohms, -without(a, b)]);
  const found = eliminated(rows);
  if (found === null) return null;
  const sent = found.slice(0, -1);
  const fault = found.at(-1) ?? 0;
  for (const node of [a, b]) if (!isExact(lines, sent, fault * response.at(at(node)), at(node))) return null;
  return { sent, fault, response };
}

/** null: the two are not joined. */
function responseOf(lines: Lines, net: StraightNet, a: number, b: number): Answer | null {
  const key = a * net.positionOf.length + b;
  let response = lines.responses.get(key);
  if (response === undefined) {
    response = lines.factored.response(a, b);
    lines.responses.set(key, response);
  }
  return response;
}

/**
 * A source of current that is left with nothing but a meter or two would bring about volts without measure, and the fault takes
 * them off again: what is left is no more exact than they were.
 */
const MOST_VOLTS = 120;

/** `byFault`: the volts that the fault brings about at this position. */
function isExact(
  { factored, columns }: Lines,
  sent: readonly number[],
  byFault: number,
  position: number,
): boolean {
  if (!(Math.abs(factored.volts[position] ?? 0) <= MOST_VOLTS && Math.abs(byFault) <= MOST_VOLTS))
    return false;
  return columns.every((column, r) => Math.abs((sent[r] ?? 0) * column.at(position)) <= MOST_VOLTS);
}

/** A pivot this small beside the largest entry of its column is rounding: two regulators that hold the very same. */
const NO_PIVOT = 1e-9;

/** Solves a few equations (the right side last) with pivots; null: they do not tell the unknowns apart. */
function eliminated(rows: number[][]): readonly number[] | null {
  const count = rows.length;
  const largest = rows.map((_, k) => Math.max(...rows.map((row) => Math.abs(row[k] ?? 0))));
  for (let k = 0; k < count; k += 1) {
    let best = k;
    for (let i = k + 1; i < count; i += 1)
      if (Math.abs(rows[i]?.[k] ?? 0) > Math.abs(rows[best]?.[k] ?? 0)) best = i;
    const pivot = rows[best];
    const here = rows[k];
    if (pivot === undefined || here === undefined) return null;
    if (!(Math.abs(pivot[k] ?? 0) > NO_PIVOT * (largest[k] ?? 0))) return null;
    rows[best] = here;
    rows[k] = pivot;
    for (let i = 0; i < count; i += 1) {
      const row = rows[i];
      if (i === k || row === undefined) continue;
      const share = (row[k] ?? 0) / (pivot[k] ?? 1);
      if (share === 0) continue;
      for (let j = k; j <= count; j += 1) row[j] = (row[j] ?? 0) - share * (pivot[j] ?? 0);
    }
  }
  return rows.map((row, k) => (row[count] ?? 0) / (row[k] ?? 1));
}

class SolvedFlow implements Flow {
  readonly pieces: string;
  readonly fault: number;
  readonly #elements: readonly ElementOf<number>[];
  readonly #positionOf: Int32Array;
  readonly #lines: Lines;
  readonly #solved: Solved;

  constructor(elements: readonly ElementOf<number>[], positionOf: Int32Array, lines: Lines, solved: Solved) {
    this.#elements = elements;
    this.#positionOf = positionOf;
    this.#lines = lines;
    this.#solved = solved;
    this.pieces = lines.key;
    this.fault = solved.fault;
  }

  current(index: number): number {
    const element = this.#elements[index];
    if (element === undefined) return 0;
    const regulator = this.#lines.placeOf.get(index);
    if (regulator !== undefined) return -(this.#solved.sent[regulator] ?? 0);
    const siemens = this.#lines.siemens[index] ?? 0;
    const amps = this.#lines.amps[index] ?? 0;
    if (siemens === 0) return amps;
    if (element.type === 'converter') return amps + siemens * this.#across(element.inA, element.inB);
    return amps + siemens * this.#across(element.a, element.b);
  }

  #across(a: number, b: number): number {
    return this.#volts(a) - this.#volts(b);
  }

  #volts(node: number): number {
    return voltsAt(this.#lines, this.#solved, this.#positionOf[node] ?? 0);
  }
}
