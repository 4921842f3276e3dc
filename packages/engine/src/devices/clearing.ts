/**
 * Clearing of a short circuit, as numbers: the devices that carry it run along their slow edges, the first to complete
 * opens, the circuit is solved again, until the wire carries no more than it may or nothing is left to open.
 */
import type { TimeCurrentBand } from '../contracts/index.ts';
import { ADIABATIC_SECONDS, heatFraction } from './heat.ts';
import { slowSeconds } from './time-current.ts';

export interface ClearingDevice {
  readonly id: string;
  /** A */
  readonly rating: number;
  /** null: no curve is known; such a device is never counted on. */
  readonly band: TimeCurrentBand | null;
}

/** Currents while the fault stands, magnitudes in A. */
export interface FaultCurrents {
  readonly wire: number;
  device(id: string): number;
}

export interface ClearingStep {
  /** Device that opens at the end of the step; null: nothing more opens. */
  readonly opens: string | null;
  /** How long the step lasts, s. */
  readonly seconds: number;
  /** In the wire during the step, A. */
  readonly wireAmps: number;
  /** Through the device that opens, A. */
  readonly deviceAmps: number;
}

export interface Clearing {
  /** `clears`: the wire's current falls to its ampacity. `never`: it does not. `no-figure`: a device that carries it has no opening time. */
  readonly outcome: 'clears' | 'never' | 'no-figure';
  /** s; Infinity unless it clears. */
  readonly seconds: number;
  /** ΣI²dt, A²s. */
  readonly letThrough: number;
  /** ΣI²dt / (kS)²; at most 1 is met. Infinity unless it clears. */
  readonly heat: number;
  readonly steps: readonly ClearingStep[];
  /** Longer than 5 s: the adiabatic limit is pessimistic, the steady temperature may serve instead. */
  readonly beyondAdiabatic: boolean;
  /** Greatest current in the wire on the way, A. */
  readonly greatestAmps: number;
  /** Devices without an opening time at the current that they carried. */
  readonly withoutFigure: readonly string[];
}

export interface ClearingCase {
  readonly devices: readonly ClearingDevice[];
  /** Continuous current that the wire may carry, A; null: no figure, it must fall to nothing. */
  readonly ampacity: number | null;
  /** A·√s/mm² */
  readonly k: number;
  readonly areaMm2: number;
  /** Solves the fault with these devices open. */
  solve(open: readonly string[]): FaultCurrents;
}

/** Currents below this are none: what is left through meters and capacitors. */
const NOTHING = 1e-6;
const CLOSE = 1e-9;

interface Progress {
  readonly open: string[];
  /** Share of its way to opening that each device has gone. */
  readonly gone: Map<string, number>;
  readonly steps: ClearingStep[];
  readonly withoutFigure: Set<string>;
  seconds: number;
  letThrough: number;
  greatest: number;
}

interface Next {
  readonly id: string;
  readonly seconds: number;
  readonly amps: number;
}

/**
 * Runs the clearing of one fault. Every device accumulates dt / t(I) along its slow edge and opens at 1; equal times open in
 * the order of the ids. Range: the heat is adiabatic, honest to about 5 s.
 */
export function clear(c: ClearingCase): Clearing {
  const devices = c.devices.toSorted((a, b) => (a.id < b.id ? -1 : Number(a.id > b.id)));
  const limit = Math.max(c.ampacity ?? 0, NOTHING) * (1 + CLOSE);
  const p: Progress = {
    open: [],
    gone: new Map(),
    steps: [],
    withoutFigure: new Set(),
    seconds: 0,
    letThrough: 0,
    greatest: 0,
  };
  for (let round = 0; round <= devices.length; round += 1) {
    const currents = c.solve([...p.open]);
    const wire = Math.abs(currents.wire);
    p.greatest = Math.max(p.greatest, wire);
    if (wire <= limit) return cleared(c, p);
    const running = devices.filter((d) => !p.open.includes(d.id));
    const next = advance(running, currents, wire, p);
    if (next === null) return stuck(p, wire);
  }
  return stuck(p, p.greatest);
}

/** Runs on to the next device that opens; null: none ever does. */
function advance(
  running: readonly ClearingDevice[],
  currents: FaultCurrents,
  wire: number,
  p: Progress,
): Next | null {
  const times = running.map((d) => timeOf(d, Math.abs(currents.device(d.id)), p));
  const next = soonest(running, times, currents, p);
  if (next === null) return null;
  running.forEach((d, i) => {
    const whole = times[i] ?? Infinity;
    p.gone.set(d.id, (p.gone.get(d.id) ?? 0) + (whole > 0 ? next.seconds / whole : 0));
  });
  p.open.push(next.id);
  p.seconds += next.seconds;
  p.letThrough += wire * wire * next.seconds;
  p.steps.push({ opens: next.id, seconds: next.seconds, wireAmps: wire, deviceAmps: next.amps });
  return next;
}

/** The whole time of the device at this current; Infinity when it does not open or no time is known. */
function timeOf(device: ClearingDevice, amps: number, p: Progress): number {
  if (amps <= NOTHING) return Infinity;
  const seconds = device.band === null ? null : slowSeconds(device.band, amps / device.rating, device.rating);
  if (seconds !== null) return seconds;
  p.withoutFigure.add(device.id);
  return Infinity;
}

function soonest(
  running: readonly ClearingDevice[],
  times: readonly number[],
  currents: FaultCurrents,
  p: Progress,
): Next | null {
  let best: Next | null = null;
  running.forEach((d, i) => {
    const whole = times[i] ?? Infinity;
    if (!Number.isFinite(whole)) return;
    const seconds = Math.max(0, 1 - (p.gone.get(d.id) ?? 0)) * whole;
    if (best === null || seconds < best.seconds)
      best = { id: d.id, seconds, amps: Math.abs(currents.device(d.id)) };
  });
  return best;
}

function cleared(c: ClearingCase, p: Progress): Clearing {
  return {
    outcome: 'clears',
    seconds: p.seconds,
    letThrough: p.letThrough,
    heat: heatFraction(p.letThrough, c.k, c.areaMm2),
    steps: p.steps,
    beyondAdiabatic: p.seconds > ADIABATIC_SECONDS,
    greatestAmps: p.greatest,
    withoutFigure: [...p.withoutFigure],
  };
}

function stuck(p: Progress, wire: number): Clearing {
  return {
    outcome: p.withoutFigure.size > 0 ? 'no-figure' : 'never',
    seconds: Infinity,
    letThrough: Infinity,
    heat: Infinity,
    steps: [...p.steps, { opens: null, seconds: Infinity, wireAmps: wire, deviceAmps: 0 }],
    beyondAdiabatic: true,
    greatestAmps: p.greatest,
    withoutFigure: [...p.withoutFigure],
  };
}
