/** What the port solver asks of a non-linear device. */
import type { PortNet } from './ports.ts';

/**
 * A regulator with remote sense raises its own terminals to at most this multiple of its set voltage, so that one whose output
 * leads nowhere has an operating point (usual compensation range of converters with remote sense; from memory).
 */
export const SENSE_RANGE = 1.1;
/** Volts that nothing reaches: no end of the sense range. */
export const NO_CAP = 1e9;

/** How far beyond the end of its piece a value may lie and still count as on it (relative to 1 + |end|). */
const SLACK = 1e-12;

/**
 * How far (volts, amperes) a regulator must be beyond a turn before it turns back: two that hold the same within rounding would
 * otherwise take turns for ever.
 */
export const TIE = 1e-9;

export function above(value: number, end: number): boolean {
  return value > end + SLACK * (1 + Math.abs(end));
}

export function below(value: number, end: number): boolean {
  return value < end - SLACK * (1 + Math.abs(end));
}

/**
 * A device at the ports. It stands on one *piece* at a time; `want` names the neighbouring piece it would move to.
 *
 * Moves come in two phases: `inner` ones answer at once to voltages (batteries, regulators, output limits), `outer` ones
 * wait until no inner one is left, because they follow from powers that the tangents still underestimate.
 */
export interface PortDevice<E> {
  /** False where `want` never names an inner move, where there are no `rows`, and where there is nothing to activate or linearise. */
  readonly moves: boolean;
  readonly hasRows: boolean;
  readonly hasPower: boolean;
  /** Takes the element's numbers and goes back to no load; `fed` where some source may be charging (a first guess only). */
  read(element: E, fed: boolean): void;
  /** Takes a share (0..1) of its load, for a ramp from no load. */
  scale(share: number): void;
  /**
   * Ends the no-load phase: takes the present voltages as first linearisation and the pieces that belong to them. True
   * where that changes what the device stamps.
   */
  activate(net: PortNet): boolean;
  stamp(net: PortNet): void;
  rows(net: PortNet): void;
  /** How far (relative, > 0) the device is beyond its piece, 0 if it is on it; remembers the piece wanted. */
  want(net: PortNet, inner: boolean): number;
  /** Moves to the piece wanted last. */
  move(): void;
  /** Takes the present point as linearisation; returns the largest change, volts or amperes. */
  linearise(net: PortNet): number;
  /** Current from a to b through the device at the present point; `out` for the second pair of a converter. */
  amps(net: PortNet, out: boolean): number;
  /** Change of that current in a correcting pass. */
  ampsChange(net: PortNet, delta: Float64Array, change: Float64Array, out: boolean): number;
  regime(): string;
  /** Pieces for enumeration: their number, the present one, and going to one. */
  pieceCount(): number;
  piece(): number;
  setPiece(piece: number): void;
  /** True where the current never falls with the voltage, whatever the piece (batteries, regulators). */
  rising(): boolean;
  /** Voltage to be as high as possible among several solutions; 0 for devices that do not matter. */
  height(net: PortNet): number;
}
