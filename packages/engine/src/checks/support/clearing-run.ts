/** Runs the trials of a wire through its devices and finds the one that governs. */
import type { Ampacity, Basis, Id, LaidWire, Operation } from '../../contracts/index.ts';
import {
  ADIABATIC_SECONDS,
  clear,
  heatFraction,
  steadyCelsius,
  type Clearing,
  type ClearingDevice,
} from '../../devices/index.ts';
import { carriedBy, currentsOf, type Trial } from './clearing-cases.ts';
import { melting, publishedMelting } from './melting.ts';
import { perOperation } from './memo.ts';
import { atMost } from './short-text.ts';

/** How a trial ends. */
export type Ending =
  /** The wire may carry that current for as long as it lasts: its steady temperature stays below the final one. */
  | 'steady'
  /** Cleared with the heat within the withstand. */
  | 'withstood'
  /** Cleared too late. */
  | 'burnt'
  /** Nothing ever clears it. */
  | 'never'
  /** A device that carries it has no opening time there. */
  | 'no-figure';

export interface Result {
  readonly trial: Trial;
  readonly ending: Ending;
  /** Current in the wire at the beginning, A. */
  readonly amps: number;
  /** Share of the withstand; Infinity unless cleared. */
  readonly heat: number;
  /** Steady temperature at the beginning, °C; null without ampacity. */
  readonly celsius: number | null;
  readonly clearing: Clearing | null;
}

const RANK: Readonly<Record<Ending, number>> = {
  steady: 0,
  withstood: 1,
  'no-figure': 2,
  burnt: 3,
  never: 4,
};

/** Of two results the one that governs: the worse ending, then the greater heat, then the greater current. */
function governs(a: Result, b: Result): boolean {
  if (RANK[a.ending] !== RANK[b.ending]) return RANK[a.ending] > RANK[b.ending];
  if (a.heat !== b.heat) return a.heat > b.heat;
  return a.amps > b.amps;
}

export interface Governed {
  readonly worst: Result;
  readonly all: readonly Result[];
}

/** All trials under one ampacity; null without any. */
export function runTrials(
  op: Operation,
  wire: LaidWire,
  trials: readonly Trial[],
  devices: readonly ClearingDevice[],
  ampacity: Ampacity | null,
): Governed | null {
  const both = devices.toSorted((a, b) => (a.id < b.id ? -1 : 1)).map((d) => edgesOf(op, d));
  const [near, far] = [both.map((e) => e.near), both.map((e) => e.far)];
  const all = trials.map((trial) => runTrial(wire, trial, trial.near ? near : far, ampacity));
  const first = all[0];
  if (first === undefined) return null;
  const worst = all.reduce((a, b) => (governs(b, a) ? b : a), first);
  return { worst, all };
}

function runTrial(
  wire: LaidWire,
  trial: Trial,
  devices: readonly ClearingDevice[],
  ampacity: Ampacity | null,
): Result {
  const amps = carriedBy(trial.point, trial);
  const celsius = steadyAt(wire, amps, ampacity);
  // A sealed verdict that needs no opening time: the wire may carry this current for good.
  if (celsius !== null && atMost(celsius, wire.finalTemperature))
    return { trial, ending: 'steady', amps, heat: 0, celsius, clearing: null };
  const clearing = clear({
    devices,
    ampacity: ampacity?.amps ?? null,
    k: wire.k.sourced.value,
    areaMm2: wire.areaMm2 ?? 0,
    solve: (open) => currentsOf(open.length === 0 ? trial.point : trial.without(open), trial),
  });
  const { ending, heat } = ended(wire, clearing, ampacity);
  return { trial, ending, amps, heat, celsius, clearing };
}

interface Edges {
  readonly near: ClearingDevice;
  readonly far: ClearingDevice;
}

const edges: (op: Operation) => Map<Id, Edges> = perOperation(() => new Map());

/** Far ends by the listed times, a family's data going on as a melting element does; right behind the device by that law only. */
function edgesOf(op: Operation, device: ClearingDevice): Edges {
  const known = edges(op).get(device.id);
  if (known !== undefined) return known;
  const part = op.parts.get(device.id);
  const made = {
    near: { ...device, band: melting(part, device.band) },
    far: { ...device, band: publishedMelting(part, device.band) },
  };
  edges(op).set(device.id, made);
  return made;
}

function ended(
  wire: LaidWire,
  clearing: Clearing,
  ampacity: Ampacity | null,
): { readonly ending: Ending; readonly heat: number } {
  if (clearing.outcome === 'clears' && atMost(clearing.heat, 1))
    return { ending: 'withstood', heat: clearing.heat };
  const part = steadyTail(wire, clearing, ampacity);
  if (part !== null) return { ending: 'withstood', heat: part };
  if (clearing.outcome === 'clears') return { ending: 'burnt', heat: clearing.heat };
  return { ending: clearing.outcome, heat: Number.POSITIVE_INFINITY };
}

/**
 * After the first devices have opened a smaller current may remain that the wire carries below the final temperature for good:
 * it then never passes the higher of where the first steps left it and that steady temperature. The heat of the first steps;
 * null: no such tail.
 */
function steadyTail(wire: LaidWire, clearing: Clearing, ampacity: Ampacity | null): number | null {
  const { steps } = clearing;
  for (let from = 1; from < steps.length; from += 1) {
    const tail = steps.slice(from);
    const cool = tail.every((s) => {
      const t = steadyAt(wire, s.wireAmps, ampacity);
      return t !== null && atMost(t, wire.finalTemperature);
    });
    const head = steps.slice(0, from).reduce((sum, s) => sum + s.wireAmps * s.wireAmps * s.seconds, 0);
    const heat = heatFraction(head, wire.k.sourced.value, wire.areaMm2 ?? 0);
    if (cool && atMost(heat, 1)) return heat;
  }
  return null;
}

function steadyAt(wire: LaidWire, amps: number, ampacity: Ampacity | null): number | null {
  const carries = ampacity?.amps ?? null;
  if (ampacity === null || carries === null || !(carries > 0)) return null;
  return steadyCelsius(ampacity.airC, wire.rating, amps, carries);
}

/** Curves on which an ending rests: of the devices that opened (or that have no figure) in trials that needed one. */
export function curvesOf(op: Operation, all: readonly Result[]): readonly Basis[] {
  const bases = new Map<string, Basis>();
  for (const { clearing } of all) {
    const ids = [...(clearing?.steps ?? []).map((s) => s.opens), ...(clearing?.withoutFigure ?? [])];
    for (const id of ids) {
      const basis = id === null ? undefined : op.parts.get(id)?.ability.protects?.curve?.basis;
      if (basis !== undefined) bases.set(basis.path, basis);
    }
  }
  return [...bases.values()];
}

export const isLong = (clearing: Clearing): boolean => clearing.seconds > ADIABATIC_SECONDS;
