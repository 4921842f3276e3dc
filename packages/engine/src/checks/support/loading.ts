/** Currents of the judged set: the greatest that lasts, through each wire and each device. */
import type { Basis, Id, Operation, Solved, StateFacts } from '../../contracts/index.ts';
import { fedThrough, givenThrough, sense, sharedBy, type Feed } from './chargers.ts';
import { perOperation } from './memo.ts';
import { clearlyLess } from './worst.ts';

/** States shorter than this are judged by heat (I²t), not by what lasts. s */
export const BRIEF_STATE = 60;

export const isBrief = (state: StateFacts): boolean => state.lasts.sourced.value < BRIEF_STATE;

/** Outcomes of the judged set in states that last, and in those that do not. */
export const lastingOf: (op: Operation) => readonly Solved[] = perOperation((op) =>
  op.all().filter((s) => !briefIn(op, s)),
);

/** Where the outcomes of `lastingOf` stand among all. */
const lastingPlaces: (op: Operation) => readonly number[] = perOperation((op) =>
  op.all().flatMap((s, place) => (briefIn(op, s) ? [] : [place])),
);

export const briefOf: (op: Operation) => readonly Solved[] = perOperation((op) =>
  op.all().filter((s) => briefIn(op, s)),
);

function briefIn(op: Operation, solved: Solved): boolean {
  const state = op.stateFacts(solved.condition.state);
  return state !== null && isBrief(state);
}

export interface Greatest {
  /** A, magnitude. */
  readonly amps: number;
  readonly solved: Solved | null;
}

/** The greatest magnitude over outcomes, with where it is reached. */
export function greatestOver(all: readonly Solved[], of: (s: Solved, place: number) => number): Greatest {
  let best: Greatest = { amps: 0, solved: null };
  all.forEach((solved, place) => {
    const value = Math.abs(of(solved, place));
    if (Number.isFinite(value) && clearlyLess(best.amps, value)) best = { amps: value, solved };
  });
  return best;
}

export interface Continuous {
  /** What the wire or device carries in the long run at the most, A. */
  readonly amps: number;
  /** The greatest solved in the judged set, A, and where. */
  readonly solved: Greatest;
  /** Chargers whose whole input passes. */
  readonly feeds: readonly Feed[];
  /** Sum of their greatest continuous input currents, A (0 without). */
  readonly chargers: number;
  /** The most that other currents add to it, A. */
  readonly beside: number;
  /** Chargers whose whole output passes and that work at all; the sum of what they can give for good, A; what adds to it, A. */
  readonly gives: readonly Feed[];
  readonly given: number;
  readonly besideGiven: number;
  readonly bases: readonly Basis[];
}

/** The greatest current that lasts in each wire (root mean square of a cycle). */
const lastingRms: (op: Operation) => ReadonlyMap<Id, Greatest> = perOperation((op) => {
  const wires = [...op.wires.keys()];
  const most = new Float64Array(wires.length);
  const where: (Solved | null)[] = wires.map(() => null);
  for (const solved of lastingOf(op)) {
    const amps = solved.rmsAmps;
    for (let i = 0; i < amps.length; i++) {
      const value = amps[i] ?? 0;
      if (!(value > (most[i] ?? 0)) || !Number.isFinite(value) || !clearlyLess(most[i] ?? 0, value)) continue;
      most[i] = value;
      where[i] = solved;
    }
  }
  return new Map(wires.map((wire, i) => [wire, { amps: most[i] ?? 0, solved: where[i] ?? null }]));
});

const NONE: Greatest = { amps: 0, solved: null };

export const greatestLasting = (op: Operation, wire: Id): Greatest => lastingRms(op).get(wire) ?? NONE;

const continuousOf: (op: Operation) => Map<Id, Continuous> = perOperation(() => new Map());

function remembered(op: Operation, id: Id, make: () => Continuous): Continuous {
  const known = continuousOf(op).get(id);
  if (known !== undefined) return known;
  const made = make();
  continuousOf(op).set(id, made);
  return made;
}

/** Through a wire (root mean square of a cycle). */
export const continuousInWire = (op: Operation, wire: Id): Continuous =>
  remembered(op, `wires.${wire}`, () =>
    continuous(op, wire, {
      of: (s) => s.wireRms(wire),
      along: (s) => s.wireAmps(wire),
      solved: greatestLasting(op, wire),
    }),
  );

/** Through a protective device. */
export const continuousInDevice = (op: Operation, device: Id): Continuous =>
  remembered(op, `parts.${device}`, () => {
    const { mean, most } = op.partAmpsOver(device, 0);
    const places = lastingPlaces(op);
    const along = (_s: Solved, i: number): number => mean[places[i] ?? -1] ?? 0;
    const of = (s: Solved, i: number): number => heating(s, most[places[i] ?? -1] ?? 0, along(s, i));
    return continuous(op, device, { of, along, solved: greatestOver(lastingOf(op), of) });
  });

/**
 * What heats a device, A. Of a cycle the root mean square, as √(greatest × mean): exact for a current that is on or off, and
 * never below it otherwise.
 */
function heating(solved: Solved, most: number, mean: number): number {
  return isCycle(solved) ? Math.sqrt(most * Math.min(most, Math.abs(mean))) : most;
}

type InPlace = (s: Solved, place: number) => number;

interface Flow {
  /** What heats it, A, and its current from `from` to `to`, A, in an outcome and by its place in `lastingOf`. */
  readonly of: InPlace;
  readonly along: InPlace;
  readonly solved: Greatest;
}

function continuous(op: Operation, id: Id, { of, along, solved }: Flow): Continuous {
  const feeds = fedThrough(op, id);
  const bases = feeds.map((f) => f.greatest).filter((b) => b !== null);
  const chargers = bases.reduce((sum, b) => sum + b.sourced.value, 0);
  const beside = besideChargers(op, id, { feeds, side: 'input', along });
  const shared = feeds.length > 0 ? 0 : inParallel(op, id, of);
  const gives = givenThrough(op, id).filter((f) => f.greatest !== null && worksAtAll(op, f.charger));
  const given = gives.reduce((sum, f) => sum + (f.greatest?.sourced.value ?? 0), 0);
  const besideGiven = besideChargers(op, id, { feeds: gives, side: 'output', along });
  return {
    amps: Math.max(solved.amps, chargers + beside, shared, given + besideGiven),
    solved,
    feeds,
    chargers,
    beside,
    gives,
    given,
    besideGiven,
    bases:
      given + besideGiven > solved.amps
        ? [...bases, ...gives.map((f) => f.greatest).filter((b) => b !== null)]
        : bases,
  };
}

/** In some condition it is on, be it for the moments of a cycle: it may be on for good in another. */
function worksAtAll(op: Operation, charger: Id): boolean {
  const known = worksOf(op);
  let works = known.get(charger);
  if (works === undefined) {
    works = op.all().some((s) => s.everOn(charger));
    known.set(charger, works);
  }
  return works;
}

const worksOf: (op: Operation) => Map<Id, boolean> = perOperation(() => new Map());

/** What chargers take or give in the outcomes of `lastingOf`, A, in their order. */
const ownOf: (op: Operation) => Map<string, Float64Array> = perOperation(() => new Map());

function ownOver(op: Operation, charger: Id, side: 'input' | 'output'): Float64Array {
  const known = ownOf(op);
  const key = `${side} ${charger}`;
  let own = known.get(key);
  if (own === undefined) {
    const of = (s: Solved): number => (side === 'input' ? inputOf(op, charger, s) : s.outAmps(charger));
    own = Float64Array.from(lastingOf(op), of);
    known.set(key, own);
  }
  return own;
}

/** In a cycle the means of a charger and of a wire belong to other moments. */
const isCycle = (s: Solved): boolean => s.outcome === 'cycle' || s.outcome === 'irregular';

/** A charger that takes or gives less is off, A. */
const LEAST_OWN = 0.1;

interface Passing {
  readonly feeds: readonly Feed[];
  readonly side: 'input' | 'output';
  readonly along: InPlace;
}

/**
 * The most that other currents add to the chargers' greatest input or output, A: what is left of each solved current when their
 * own is taken off, in its direction; what flows against it relieves it. What flows only while they are off (through their
 * return, another charger's share of it) is there in place of theirs, not beside it.
 */
function besideChargers(op: Operation, id: Id, { feeds, side, along }: Passing): number {
  if (feeds.length === 0) return 0;
  const ways = feeds.map((f) => ({
    greatest: f.greatest?.sourced.value ?? 0,
    sign: sense(op, id, f.charger, side),
    own: ownOver(op, f.charger, side),
  }));
  const all = feeds.reduce((total, f) => total + (f.greatest?.sourced.value ?? 0), 0);
  const greatest = ways.reduce((total, w) => total + w.sign * w.greatest, 0);
  const working = (i: number): boolean => ways.every((w) => Math.abs(w.own[i] ?? 0) > LEAST_OWN);
  const anyWorking = lastingOf(op).some((s, i) => !isCycle(s) && working(i));
  let beside = 0;
  lastingOf(op).forEach((s, i) => {
    if (isCycle(s) || (anyWorking && !working(i))) return;
    let own = 0;
    for (const w of ways) own += w.sign * (w.own[i] ?? 0);
    beside = Math.max(beside, Math.abs(greatest + (along(s, i) - own)) - all);
  });
  // Rounding is no current.
  return beside > 1e-9 * all ? beside : 0;
}

/**
 * Of a wire or device that shares a charger's feed with another (parallel cables): its solved current, raised as the charger's
 * is from there to its greatest continuous one.
 */
function inParallel(op: Operation, id: Id, of: InPlace): number {
  let most = 0;
  for (const charger of sharedBy(op, id)) {
    const greatest = op.parts.get(charger)?.ability.converts?.greatestInput?.sourced.value ?? 0;
    const own = ownOver(op, charger, 'input');
    lastingOf(op).forEach((s, i) => {
      const taken = Math.abs(own[i] ?? 0);
      if (!(taken > greatest / 2 && greatest > taken)) return;
      const amps = Math.abs(of(s, i));
      // Where it carries more than the charger takes, something else rules it.
      if (amps <= taken * 1.02) most = Math.max(most, (amps * greatest) / taken);
    });
  }
  return most;
}

/** Input current of a charger, A. */
export function inputOf(op: Operation, charger: Id, solved: Solved): number {
  const c = op.parts.get(charger)?.ability.converts;
  return c === undefined ? 0 : solved.terminalAmps(charger, c.inPlus);
}
