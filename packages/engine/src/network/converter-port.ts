/** A converter as the port solver sees it: off, linked by power, or asked for a fixed power, as its numbers say. */
import type { ConverterElement } from '../contracts/element.ts';
import { LinkedConverter } from './converter.ts';
import { ConverterLaw, type ConverterPlace } from './converter-law.ts';
import { DemandConverter } from './demand.ts';
import type { PortDevice } from './device.ts';
import { PiecesDevice } from './pieces.ts';
import type { PortNet } from './ports.ts';

type Mode = PiecesDevice | LinkedConverter | DemandConverter;

export class ConverterDevice implements PortDevice<ConverterElement<number>> {
  readonly moves = true;
  readonly hasRows = true;
  readonly hasPower = true;
  private readonly law = new ConverterLaw();
  private readonly idle: PiecesDevice;
  private readonly linked: LinkedConverter;
  private readonly asking: DemandConverter;
  private mode: Mode;

  constructor(place: ConverterPlace) {
    this.idle = new PiecesDevice(place.inA, place.inB, place.inSlot);
    this.linked = new LinkedConverter(place, this.law);
    this.asking = new DemandConverter(place, this.law);
    this.mode = this.idle;
  }

  read(element: ConverterElement<number>): void {
    if (!element.on) {
      const siemens = 1 / element.idleOhms;
      const standing = siemens + element.standbyAmps;
      this.idle.readCurve(
        [
          [0, 0],
          [1, standing],
        ],
        siemens,
        siemens,
      );
      this.idle.setPiece(2);
      this.mode = this.idle;
      return;
    }
    this.law.read(element);
    const mode = element.demand === null ? this.linked : this.asking;
    mode.read();
    this.mode = mode;
  }

  scale(share: number): void {
    this.mode.scale(share);
  }

  activate(net: PortNet): boolean {
    return this.mode.activate(net);
  }

  stamp(net: PortNet): void {
    this.mode.stamp(net);
  }

  rows(net: PortNet): void {
    this.mode.rows(net);
  }

  want(net: PortNet, inner: boolean): number {
    return this.mode.want(net, inner);
  }

  move(): void {
    this.mode.move();
  }

  linearise(net: PortNet): number {
    return this.mode.linearise(net);
  }

  amps(net: PortNet, out: boolean): number {
    if (this.mode === this.idle) return out ? 0 : this.idle.amps(net);
    return this.mode.amps(net, out);
  }

  ampsChange(net: PortNet, delta: Float64Array, change: Float64Array, out: boolean): number {
    if (this.mode === this.idle) return out ? 0 : this.idle.ampsChange(net, delta);
    return this.mode.ampsChange(net, delta, change, out);
  }

  regime(): string {
    return this.mode === this.idle ? 'off' : this.mode.regime();
  }

  pieceCount(): number {
    return this.mode.pieceCount();
  }

  piece(): number {
    return this.mode.piece();
  }

  setPiece(piece: number): void {
    this.mode.setPiece(piece);
  }

  rising(): boolean {
    return this.mode === this.idle;
  }

  height(net: PortNet): number {
    return this.mode.height(net);
  }
}
