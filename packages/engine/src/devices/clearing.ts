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
  /** In the order of their ids. */
  readonly devices: readonly ClearingDevice[];
  open: readonly string[];
  /** Share of its way to opening that each device has gone, and its whole time at the present current, s. */
  readonly gone: number[];
  readonly times: number[];
  readonly steps: ClearingStep[];
  readonly withoutFigure: Set<string>;
  seconds: number;
  letThrough: number;
  greatest: number;
}

/**
 * Runs the clearing of one fault. Every device accumulates dt / t(I) along its slow edge and opens at 1; equal times open in
 * the order of the ids. Range: the heat is adiabatic, honest to about 5 s.
 */
export function clear(c: ClearingCase): Clearing {
  const devices = inOrder(c.devices);
  const limit = Math.max(c.ampacity ?? 0, NOTHING) * (1 + CLOSE);
  const p: Progress = {
    devices,
    open: [],
    gone: devices.map(() => 0),
    times: devices.map(() => Infinity),
    steps: [],
    withoutFigure: new Set(),
    seconds: 0,
    letThrough: 0,
    greatest: 0,
  };
  for (let round = 0; round <= devices.length; round += 1) {
    const currents = c.solve(p.open);
    const wire = Math.abs(currents.wire);
    p.greatest = Math.max(p.greatest, wire);
    if (wire <= limit) return cleared(c, p);
    const opens = advance(p, currents, wire);
    if (opens === null) return stuck(p, wire);
    p.open = [...p.open, opens];
  }
  return stuck(p, p.greatest);
}

const follows = (a: ClearingDevice, b: ClearingDevice | undefined): boolean =>
  b === undefined || a.id >= b.id;

/** By their ids; mostly they come so. */
function inOrder(devices: readonly ClearingDevice[]): readonly ClearingDevice[] {
  if (devices.every((d, i) => follows(d, devices[i - 1]))) return devices;
  return devices.toSorted((a, b) => (a.id < b.id ? -1 : Number(a.id > b.id)));
}

/** Runs on to the next device that opens, and names it; null: none ever does. */
function advance(p: Progress, currents: FaultCurrents, wire: number): string | null {
  const { devices, gone, times, open } = p;
  let next = -1;
  let seconds = Infinity;
  for (let i = 0; i < devices.length; i += 1) {
    const d = devices[i];
    if (d === undefined) continue;
    const whole = open.includes(d.id) ? Infinity : timeOf(d, Math.abs(currents.device(d.id)), p);
    times[i] = whole;
    if (!Number.isFinite(whole)) continue;
    const left = Math.max(0, 1 - (gone[i] ?? 0)) * whole;
    if (next < 0 || left < seconds) [next, seconds] = [i, left];
  }
  const opens = devices[next];
  if (opens === undefined) return null;
  for (let i = 0; i < devices.length; i += 1) {
    const whole = times[i] ?? Infinity;
    if (whole > 0) gone[i] = (gone[i] ?? 0) + seconds / whole;
  }
  p.seconds += seconds;
  p.letThrough += wire * wire * seconds;
  p.steps.push({ opens: opens.id, seconds, wireAmps: wire, deviceAmps: Math.abs(currents.device(opens.id)) });
  return opens.id;
}

/** The whole time of the device at this current; Infinity when it does not open or no time is known. */
function timeOf(device: ClearingDevice, amps: number, p: Progress): number {
  if (amps <= NOTHING) return Infinity;
  const seconds = device.band === null ? null : slowSeconds(device.band, amps / device.rating, device.rating);
  if (seconds !== null) return seconds;
  p.withoutFigure.add(device.id);
  return Infinity;
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
