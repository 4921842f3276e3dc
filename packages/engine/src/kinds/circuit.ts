/** Elements that several kinds are made of. */
import type { ElementOf, PiecesElement, ResistorElement, Surroundings } from '../contracts/index.ts';

/** Nothing in the circuit has less resistance than this, Ω. */
export const LEAST_OHMS = 1e-5;

/** A constant-current load reaches its full current at this voltage, V: below it falls to nothing, so that a solution always exists. */
export const FULL_FROM_VOLTS = 1;

/** The width of the step by which a load with a cut-out goes from nothing to full, V. */
export const CUT_OUT_WIDTH = 0.05;

export const resistor = (a: string, b: string, ohms: number): ResistorElement<string> => ({
  type: 'resistor',
  a,
  b,
  ohms: Math.max(ohms, LEAST_OHMS),
});

/** A contact: its resistance when closed, no conductance at all when open. */
export const contact = (a: string, b: string, closed: boolean, ohms: number): ResistorElement<string> =>
  resistor(a, b, closed ? ohms : Infinity);

/** One straight line of current against voltage through [volts, 0], slope in S. */
const straightLine = (a: string, b: string, volts: number, slope: number): PiecesElement<string> => ({
  type: 'pieces',
  a,
  b,
  points: [[volts, 0]],
  below: slope,
  above: slope,
});

/** A current drawn from `a` to `b`, constant above 1 V (or above the cut-out); nothing when reversed. */
export function constantCurrent(
  a: string,
  b: string,
  amps: number,
  cutOut: number | null = null,
): PiecesElement<string> {
  if (amps === 0) return noCurrent(a, b, 0);
  const full = cutOut ?? FULL_FROM_VOLTS;
  const none = cutOut === null ? 0 : cutOut - CUT_OUT_WIDTH;
  return {
    type: 'pieces',
    a,
    b,
    points: [
      [none, 0],
      [full, amps],
    ],
    below: 0,
    above: 0,
  };
}

/** A straight source of `volts` behind `ohms` from a (+) to b (-), giving or taking any current. */
export const linearSource = (a: string, b: string, volts: number, ohms: number): PiecesElement<string> =>
  straightLine(a, b, volts, 1 / Math.max(ohms, LEAST_OHMS));

/** No current at any voltage: a source that is disconnected, a load that is off. */
export const noCurrent = (a: string, b: string, volts: number): PiecesElement<string> =>
  straightLine(a, b, volts, 0);

/** Node of the vehicle battery's post; without a vehicle battery a node of the part that nothing else touches. */
export const post = (at: Surroundings, sign: '+' | '-'): string =>
  at.vehicle.hasVehicleBattery ? `^posts${sign}` : `.posts${sign}`;

/** The part's own terminal when a wire is attached, else the battery post of that sign. */
export const ownOrPost = (at: Surroundings, sign: '+' | '-'): string =>
  at.wired(sign) || !at.vehicle.hasVehicleBattery ? sign : `^posts${sign}`;

/** Whether the part's path is closed: neither opened for a what-if nor by hand. */
export const isClosed = (at: Surroundings): boolean => at.closed && !at.opened;

/** The standing current of a part when its document states one: one more element between its supply terminals. */
export function standbyElement(at: Surroundings, plus: string, minus: string): readonly ElementOf<string>[] {
  if (!at.read.given('standby')) return [];
  const amps = at.mode === 'service' && !at.opened ? at.read.number('standby', 0) : 0;
  return [constantCurrent(plus, minus, amps)];
}
