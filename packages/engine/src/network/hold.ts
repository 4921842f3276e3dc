/** A regulator at the ports: alternator, supply, ideal source. */
import type { HoldElement } from '../contracts/element.ts';
import { above, below, NO_CAP, SENSE_RANGE, TIE, type PortDevice } from './device.ts';
import type { PortNet } from './ports.ts';
import { IDEAL, RISING } from './small.ts';

const AT_LEAST = 0;
const REGULATING = 1;
const AT_GREATEST = 2;
/** Own terminals at the end of the sense range. */
const AT_RANGE = 3;
/** Sends nothing, because another regulator already holds the very same. */
const IDLE = 4;
const HOLD_NAMES = ['least', 'regulating', 'greatest', 'sense-limit', 'regulating'];

/** A regulator with a least and a greatest current. */
export class HoldDevice implements PortDevice<HoldElement<number>> {
  readonly moves = true;
  readonly hasRows = true;
  readonly hasPower = false;
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
      const ideal = this.least === -Infinity && this.greatest === Infinity;
      this.column = net.column(this.slot, this.a, this.b, ideal ? IDEAL : RISING);
    } else net.draw(this.a, this.b, this.known());
  }

  /** Through-current on the pieces where it is known. */
  private known(): number {
    if (this.state === AT_LEAST) return -this.least;
    return this.state === AT_GREATEST ? -this.greatest : -Math.min(Math.max(0, this.least), this.greatest);
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
    if (this.state === IDLE) {
      return this.toward(REGULATING, Math.abs(v - this.volts) > TIE, Math.abs(v - this.volts));
    }
    if (this.state === AT_LEAST) {
      return this.toward(REGULATING, v < this.volts - TIE && below(own, this.cap), -excess);
    }
    if (above(own, this.cap)) return this.toward(AT_RANGE, true, excess);
    return this.toward(REGULATING, above(v, this.volts), excess);
  }

  private wantRegulating(net: PortNet, v: number, own: number): number {
    if (net.powerless[this.column] === 1) {
      if (below(v, this.volts)) {
        if (this.cap < NO_CAP) return this.toward(AT_RANGE, true, this.volts - v);
        return this.toward(AT_GREATEST, this.greatest < Infinity, this.volts - v);
      }
      if (!above(v, this.volts)) return this.toward(IDLE, this.state === REGULATING, 1);
      if (this.least > -Infinity) return this.toward(AT_LEAST, true, v - this.volts);
    }
    const sent = -net.amps(this.column);
    if (sent < this.least - TIE) return this.toward(AT_LEAST, true, this.least - sent);
    if (sent > this.greatest + TIE) return this.toward(AT_GREATEST, true, sent - this.greatest);
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
    return this.column >= 0 ? net.amps(this.column) : this.known();
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
