/** A constant power at the ports. */
import type { PowerElement } from '../contracts/element.ts';
import { above, below, type PortDevice } from './device.ts';
import type { PortNet } from './ports.ts';
import { FALLING } from './small.ts';

const RESISTOR = 0;
const LIMITED = 1;
const HYPERBOLA = 2;

/** A constant power, continued as a resistance at low voltage and capped in current. */
export class PowerDevice implements PortDevice<PowerElement<number>> {
  readonly moves = false;
  readonly hasRows = true;
  readonly hasPower = true;
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
  private state = HYPERBOLA;
  private wanted = HYPERBOLA;
  private column = -1;
  private at = 1;
  /** Current while it is kept flat; none at no load. */
  private flatAmps = 0;

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
    this.loaded = this.watts > 0;
    this.flatAmps = 0;
    this.state = HYPERBOLA;
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
    if (!this.loaded) return false;
    const v = net.volts(this.a, this.b);
    if (v > this.limitEnd) this.state = HYPERBOLA;
    else this.state = v > this.resistorEnd ? LIMITED : RESISTOR;
    this.at = Math.max(v, this.limitEnd);
    this.flatAmps = this.watts / this.at;
    return this.state !== HYPERBOLA;
  }

  stamp(net: PortNet): void {
    this.column = -1;
    if (!this.loaded) return;
    if (this.state === HYPERBOLA) this.column = net.column(this.slot, this.a, this.b, FALLING);
    else if (this.state === RESISTOR) net.conduct(this.slot, this.siemens);
    else net.draw(this.a, this.b, this.limit);
  }

  rows(net: PortNet): void {
    if (this.column < 0) return;
    net.rowAmps(this.column, this.column, 1);
    if (net.flat) {
      net.rowRight(this.column, this.flatAmps);
      return;
    }
    const amps = this.watts / this.at;
    const slope = amps / this.at;
    net.rowVolts(this.column, this.a, this.b, slope);
    net.rowRight(this.column, amps + slope * this.at);
  }

  want(net: PortNet, inner: boolean): number {
    if (inner || !this.loaded) return 0;
    const v = net.volts(this.a, this.b);
    if (this.state !== RESISTOR && below(v, this.state === HYPERBOLA ? this.limitEnd : this.resistorEnd)) {
      const hasLimit = this.limitEnd > this.resistorEnd;
      this.wanted = this.state === HYPERBOLA && hasLimit ? LIMITED : RESISTOR;
      return 1 - v / this.limitEnd;
    }
    if (this.state !== HYPERBOLA && above(v, this.state === LIMITED ? this.limitEnd : this.resistorEnd)) {
      const hasLimit = this.limitEnd > this.resistorEnd;
      this.wanted = this.state === RESISTOR && hasLimit ? LIMITED : HYPERBOLA;
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
    const amps = (this.watts / v) * net.hurry;
    const change = Math.max(Math.abs(v - this.at), Math.abs(amps - this.flatAmps));
    this.at = v;
    this.flatAmps = amps;
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
    if (this.state === HYPERBOLA) return 'constant-power';
    return this.state === LIMITED ? 'at-limit' : 'below-knee';
  }

  pieceCount(): number {
    return this.watts > 0 ? 3 : 1;
  }

  piece(): number {
    return HYPERBOLA - this.state;
  }

  setPiece(piece: number): void {
    this.state = HYPERBOLA - piece;
  }

  rising(): boolean {
    return false;
  }

  height(net: PortNet): number {
    return net.volts(this.a, this.b);
  }
}
