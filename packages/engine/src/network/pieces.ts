/** A monotone piecewise-linear current at the ports: battery, diode, source with a limit. */
import type { PiecesElement } from '../contracts/element.ts';
import { above, below, type PortDevice } from './device.ts';
import type { PortNet } from './ports.ts';

type Points = readonly (readonly [volts: number, amperes: number])[];

/** A monotone piecewise-linear current. */
export class PiecesDevice implements PortDevice<PiecesElement<number>> {
  readonly moves = true;
  readonly hasRows = false;
  readonly hasPower = false;
  private readonly a: number;
  private readonly b: number;
  private readonly slot: number;
  private points: Points = [[0, 0]];
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

  read(element: PiecesElement<number>, fed: boolean): void {
    this.readCurve(element.points, element.below, element.above);
    let segment = 0;
    while (segment < this.points.length && this.points[segment]![1] < 0) segment += 1;
    // a battery with a source about is charging more often than not
    if (fed && segment === 0 && this.below > 0 && this.points[0]![1] === 0) segment = 1;
    this.setPiece(segment);
  }

  /** Replaces the curve without an element (input of a converter that is off). */
  readCurve(points: Points, below: number, above: number): void {
    this.points = points;
    this.below = below;
    this.above = above;
  }

  setPiece(segment: number): void {
    const last = this.points.length - 1;
    const anchor = this.points[segment > last ? last : segment]!;
    this.segment = segment;
    this.anchorVolts = anchor[0];
    this.anchorAmps = anchor[1];
    if (segment === 0) this.g = this.below;
    else if (segment > last) this.g = this.above;
    else {
      const before = this.points[segment - 1]!;
      this.g = (anchor[1] - before[1]) / (anchor[0] - before[0]);
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
    if (this.segment < this.points.length) {
      const end = this.points[this.segment]![0];
      if (above(v, end)) {
        this.wanted = this.segment + 1;
        return v - end;
      }
    }
    if (this.segment > 0) {
      const end = this.points[this.segment - 1]![0];
      if (below(v, end)) {
        this.wanted = this.segment - 1;
        return end - v;
      }
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
    return this.points.length + 1;
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
