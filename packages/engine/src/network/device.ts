/** What the port solver asks of a non-linear device, and the devices with one node pair. */
import type { HoldElement, PiecesElement, PowerElement } from '../contracts/element.ts';
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
  /** Takes the element's numbers and goes back to no load. */
  read(element: E): void;
  /** Takes a share (0..1) of its load, for a ramp from no load. */
  scale(share: number): void;
  /** Ends the no-load phase: takes the present voltages as first linearisation. False where there is nothing to end. */
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

/** A monotone piecewise-linear current. */
export class PiecesDevice implements PortDevice<PiecesElement<number>> {
  private readonly a: number;
  private readonly b: number;
  private readonly slot: number;
  private volt: number[] = [];
  private amp: number[] = [];
  private below = 0;
  private above = 0;
  private segment = 0;
  private wanted = 0;
  private g = 0;
  private anchorVolts = 0;
  private anchorAmps = 0;

  constructor(a: number, b: number, slot: number) {
    this.a = a;
    this.b = b;
    this.slot = slot;
  }

  read(element: PiecesElement<number>): void {
    const { points } = element;
    this.volt.length = 0;
    this.amp.length = 0;
    for (const [volts, amperes] of points) {
      this.volt.push(volts);
      this.amp.push(amperes);
    }
    this.below = element.below;
    this.above = element.above;
    let segment = 0;
    while (segment < points.length && this.amp[segment]! < 0) segment += 1;
    this.setPiece(segment);
  }

  /** Replaces the curve without an element (input of a converter that is off). */
  readCurve(volt: number[], amp: number[], below: number, above: number): void {
    this.volt = volt;
    this.amp = amp;
    this.below = below;
    this.above = above;
    this.setPiece(0);
  }

  setPiece(segment: number): void {
    const last = this.volt.length - 1;
    this.segment = segment;
    const anchor = segment > last ? last : segment;
    this.anchorVolts = this.volt[anchor]!;
    this.anchorAmps = this.amp[anchor]!;
    if (segment === 0) this.g = this.below;
    else if (segment > last) this.g = this.above;
    else {
      this.g =
        (this.amp[segment]! - this.amp[segment - 1]!) / (this.volt[segment]! - this.volt[segment - 1]!);
    }
  }

  scale(): void {}

  activate(): boolean {
    return false;
  }

  stamp(net: PortNet): void {
    net.conduct(this.slot, this.g);
    net.draw(this.a, this.b, this.anchorAmps - this.g * this.anchorVolts);
  }

  rows(): void {}

  want(net: PortNet, inner: boolean): number {
    if (!inner) return 0;
    const v = net.volts(this.a, this.b);
    if (this.segment < this.volt.length && above(v, this.volt[this.segment]!)) {
      this.wanted = this.segment + 1;
      return v - this.volt[this.segment]!;
    }
    if (this.segment > 0 && below(v, this.volt[this.segment - 1]!)) {
      this.wanted = this.segment - 1;
      return this.volt[this.segment - 1]! - v;
    }
    return 0;
  }

  move(): void {
    this.setPiece(this.wanted);
  }

  linearise(): number {
    return 0;
  }

  amps(net: PortNet): number {
    return this.g * (net.volts(this.a, this.b) - this.anchorVolts) + this.anchorAmps;
  }

  ampsChange(_net: PortNet, delta: Float64Array): number {
    return this.g * (delta[this.a]! - delta[this.b]!);
  }

  regime(): string {
    return String(this.segment);
  }

  pieceCount(): number {
    return this.volt.length + 1;
  }

  piece(): number {
    return this.segment;
  }

  rising(): boolean {
    return true;
  }

  height(): number {
    return 0;
  }
}

const AT_LEAST = 0;
const REGULATING = 1;
const AT_GREATEST = 2;
/** Own terminals at the end of the sense range. */
const AT_RANGE = 3;
const HOLD_NAMES = ['least', 'regulating', 'greatest', 'sense-limit'];

/** A regulator with a least and a greatest current. */
export class HoldDevice implements PortDevice<HoldElement<number>> {
  private readonly a: number;
  private readonly b: number;
  private readonly senseA: number;
  private readonly senseB: number;
  private readonly slot: number;
  private volts = 0;
  private least = 0;
  private greatest = 0;
  /** Most volts at the own terminals; NO_CAP where they are what is sensed. */
  private cap = NO_CAP;
  private state = REGULATING;
  private wanted = REGULATING;
  private column = -1;

  constructor(a: number, b: number, senseA: number, senseB: number, slot: number) {
    this.a = a;
    this.b = b;
    this.senseA = senseA;
    this.senseB = senseB;
    this.slot = slot;
  }

  read(element: HoldElement<number>): void {
    this.volts = element.volts;
    this.least = element.least;
    this.greatest = element.greatest;
    const remote = this.senseA !== this.a || this.senseB !== this.b;
    this.cap = remote && element.volts > 0 ? SENSE_RANGE * element.volts : NO_CAP;
    this.state = REGULATING;
  }

  scale(): void {}

  activate(): boolean {
    return false;
  }

  stamp(net: PortNet): void {
    this.column = -1;
    if (this.state === REGULATING || this.state === AT_RANGE) {
      this.column = net.column(this.slot, this.a, this.b, false);
    } else net.draw(this.a, this.b, this.state === AT_LEAST ? -this.least : -this.greatest);
  }

  rows(net: PortNet): void {
    if (this.column < 0) return;
    if (this.state === AT_RANGE) net.rowVolts(this.column, this.a, this.b, 1);
    else net.rowVolts(this.column, this.senseA, this.senseB, 1);
    net.rowRight(this.column, this.state === AT_RANGE ? this.cap : this.volts);
  }

  want(net: PortNet, inner: boolean): number {
    if (!inner) return 0;
    const v = net.volts(this.senseA, this.senseB);
    const own = net.volts(this.a, this.b);
    if (this.column >= 0) return this.wantRegulating(net, v, own);
    const excess = Math.max(v - this.volts, own - this.cap);
    if (this.state === AT_LEAST) {
      return this.toward(REGULATING, below(v, this.volts) && below(own, this.cap), -excess);
    }
    if (above(own, this.cap)) return this.toward(AT_RANGE, true, excess);
    return this.toward(REGULATING, above(v, this.volts), excess);
  }

  private wantRegulating(net: PortNet, v: number, own: number): number {
    if (net.system.powerless[this.column] === 1) {
      if (below(v, this.volts)) {
        if (this.cap < NO_CAP) return this.toward(AT_RANGE, true, this.volts - v);
        return this.toward(AT_GREATEST, this.greatest < Infinity, this.volts - v);
      }
      if (above(v, this.volts) && this.least > -Infinity) return this.toward(AT_LEAST, true, v - this.volts);
    }
    const sent = -net.amps(this.column);
    if (below(sent, this.least)) return this.toward(AT_LEAST, true, this.least - sent);
    if (above(sent, this.greatest)) return this.toward(AT_GREATEST, true, sent - this.greatest);
    if (this.state === AT_RANGE) return this.toward(REGULATING, above(v, this.volts), v - this.volts);
    return this.toward(AT_RANGE, above(own, this.cap), own - this.cap);
  }

  private toward(state: number, really: boolean, violation: number): number {
    if (!really) return 0;
    this.wanted = state;
    return violation;
  }

  move(): void {
    this.state = this.wanted;
  }

  linearise(): number {
    return 0;
  }

  amps(net: PortNet): number {
    if (this.column >= 0) return net.amps(this.column);
    return this.state === AT_LEAST ? -this.least : -this.greatest;
  }

  ampsChange(net: PortNet, delta: Float64Array, change: Float64Array): number {
    return this.column >= 0 ? net.ampsChange(this.column, delta, change) : 0;
  }

  regime(): string {
    return HOLD_NAMES[this.state]!;
  }

  pieceCount(): number {
    return this.cap < NO_CAP ? 4 : 3;
  }

  piece(): number {
    return this.state;
  }

  setPiece(piece: number): void {
    this.state = piece;
    if (piece === AT_LEAST && this.least === -Infinity) this.state = REGULATING;
    if (piece === AT_GREATEST && this.greatest === Infinity) this.state = REGULATING;
  }

  rising(): boolean {
    return true;
  }

  height(): number {
    return 0;
  }
}

const RESISTOR = 0;
const LIMITED = 1;
const FALLING = 2;

/** A constant power, continued as a resistance at low voltage and capped in current. */
export class PowerDevice implements PortDevice<PowerElement<number>> {
  private readonly a: number;
  private readonly b: number;
  private readonly slot: number;
  private fullWatts = 0;
  private watts = 0;
  private knee = 1;
  private siemens = 0;
  private limit = 0;
  /** Ends of the resistor's and of the current limit's pieces, volts. */
  private resistorEnd = 0;
  private limitEnd = 0;
  private loaded = false;
  private state = FALLING;
  private wanted = FALLING;
  private column = -1;
  private at = 1;

  constructor(a: number, b: number, slot: number) {
    this.a = a;
    this.b = b;
    this.slot = slot;
  }

  read(element: PowerElement<number>): void {
    this.knee = element.knee;
    this.fullWatts = element.watts;
    this.limit = element.limit;
    this.scale(1);
    this.loaded = false;
    this.state = FALLING;
  }

  scale(share: number): void {
    const knee = this.knee;
    this.watts = share * this.fullWatts;
    this.siemens = this.watts / (knee * knee);
    this.resistorEnd = knee;
    this.limitEnd = knee;
    if (this.limit * knee < this.watts) {
      this.resistorEnd = this.limit / this.siemens;
      this.limitEnd = this.watts / this.limit;
    }
  }

  activate(net: PortNet): boolean {
    this.loaded = this.watts > 0;
    const v = net.volts(this.a, this.b);
    if (v > this.limitEnd) this.state = FALLING;
    else this.state = v > this.resistorEnd ? LIMITED : RESISTOR;
    this.at = Math.max(v, this.limitEnd);
    return this.loaded;
  }

  stamp(net: PortNet): void {
    this.column = -1;
    if (!this.loaded) return;
    if (this.state === FALLING) this.column = net.column(this.slot, this.a, this.b, true);
    else if (this.state === RESISTOR) net.conduct(this.slot, this.siemens);
    else net.draw(this.a, this.b, this.limit);
  }

  rows(net: PortNet): void {
    if (this.column < 0) return;
    const amps = this.watts / this.at;
    const slope = net.flat ? 0 : amps / this.at;
    net.rowAmps(this.column, this.column, 1);
    net.rowVolts(this.column, this.a, this.b, slope);
    net.rowRight(this.column, amps + slope * this.at);
  }

  want(net: PortNet, inner: boolean): number {
    if (inner || !this.loaded) return 0;
    const v = net.volts(this.a, this.b);
    if (this.state !== RESISTOR && below(v, this.state === FALLING ? this.limitEnd : this.resistorEnd)) {
      const hasLimit = this.limitEnd > this.resistorEnd;
      this.wanted = this.state === FALLING && hasLimit ? LIMITED : RESISTOR;
      return 1 - v / this.limitEnd;
    }
    if (this.state !== FALLING && above(v, this.state === LIMITED ? this.limitEnd : this.resistorEnd)) {
      const hasLimit = this.limitEnd > this.resistorEnd;
      this.wanted = this.state === RESISTOR && hasLimit ? LIMITED : FALLING;
      return v / this.limitEnd;
    }
    return 0;
  }

  move(): void {
    this.state = this.wanted;
  }

  linearise(net: PortNet): number {
    if (this.column < 0) return 0;
    const v = net.volts(this.a, this.b);
    const change = Math.abs(v - this.at);
    this.at = v;
    return change;
  }

  amps(net: PortNet): number {
    if (!this.loaded) return 0;
    if (this.column >= 0) return net.amps(this.column);
    return this.state === RESISTOR ? this.siemens * net.volts(this.a, this.b) : this.limit;
  }

  ampsChange(net: PortNet, delta: Float64Array, change: Float64Array): number {
    if (this.column >= 0) return net.ampsChange(this.column, delta, change);
    return this.loaded && this.state === RESISTOR ? this.siemens * (delta[this.a]! - delta[this.b]!) : 0;
  }

  regime(): string {
    if (this.state === FALLING) return 'constant-power';
    return this.state === LIMITED ? 'at-limit' : 'below-knee';
  }

  pieceCount(): number {
    return this.watts > 0 ? 3 : 1;
  }

  piece(): number {
    return FALLING - this.state;
  }

  setPiece(piece: number): void {
    this.state = FALLING - piece;
  }

  rising(): boolean {
    return false;
  }

  height(net: PortNet): number {
    return net.volts(this.a, this.b);
  }
}
