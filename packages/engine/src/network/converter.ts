/** A converter at the ports: its input and output are tied by power. */
import { above, below } from './device.ts';
import type { ConverterLaw, ConverterPlace } from './converter-law.ts';
import type { PortNet } from './ports.ts';

const BLOCKED = 0;
const VOLTAGE = 1;
const CURRENT = 2;
const INPUT_LIMIT = 3;
const BELOW_LOWEST = 4;
const HOLDING = 5;
const REDUCING = 6;
/** No output because the low-input rule leaves none; standby current only. */
const STARVED = 7;
/** No output because the input is nearly or quite dead; the input is a plain resistance. */
const DEAD = 8;
const PIECES = 9;
const NAMES = [
  'blocked',
  'voltage',
  'current',
  'input-limit',
  'below-lowest',
  'holding',
  'reducing',
  'reducing',
  'below-lowest',
];
/** Least voltages (V) that a linearisation may stand on. */
const LEAST_INPUT = 1e-3;
const LEAST_OUTPUT = 1e-6;

/** The converter whose input follows what its output gives. */
export class LinkedConverter {
  private readonly place: ConverterPlace;
  private readonly law: ConverterLaw;
  private loaded = false;
  private state = CURRENT;
  private wanted = CURRENT;
  private inColumn = -1;
  private outColumn = -1;
  // linearisation point
  private inVolts = 1;
  private outVolts = 1;
  private inAmps = 0;
  private outAmps = 0;

  constructor(place: ConverterPlace, law: ConverterLaw) {
    this.place = place;
    this.law = law;
  }

  read(): void {
    this.loaded = false;
  }

  activate(net: PortNet): boolean {
    const { law, place } = this;
    this.loaded = true;
    const input = net.volts(place.inA, place.inB);
    const sensed = net.volts(place.senseA, place.senseB);
    if (!above(input, law.deadVolts)) this.state = DEAD;
    else if (law.starvedAt(input)) this.state = STARVED;
    else if (sensed >= law.volts) this.state = BLOCKED;
    else if (input < law.lowest) this.state = BELOW_LOWEST;
    else this.state = sensed > 0.5 * law.volts ? CURRENT : VOLTAGE;
    this.inVolts = Math.max(input, LEAST_INPUT);
    this.outVolts = Math.max(net.volts(place.outA, place.outB), LEAST_OUTPUT);
    this.outAmps = this.state === CURRENT ? law.current : 0;
    this.inAmps = law.standby + (this.outVolts * law.asked(this.outAmps)) / this.inVolts;
    return true;
  }

  stamp(net: PortNet): void {
    const { law, place, state } = this;
    const { inA, inB, outA, outB, inSlot, outSlot } = place;
    this.inColumn = -1;
    this.outColumn = -1;
    if (!this.loaded) return;
    if (state === BLOCKED || state === STARVED) net.draw(inA, inB, law.standby);
    else if (state === INPUT_LIMIT) net.draw(inA, inB, law.inputLimit);
    else if (state === BELOW_LOWEST || state === DEAD) net.conduct(inSlot, law.lowSiemens);
    else this.inColumn = net.column(inSlot, inA, inB, state === VOLTAGE || state === CURRENT);
    if (state === CURRENT) net.draw(outA, outB, -law.current);
    else if (state !== BLOCKED && state !== STARVED && state !== DEAD) {
      this.outColumn = net.column(outSlot, outA, outB, false);
    }
  }

  rows(net: PortNet): void {
    const { law, place, state, inColumn, outColumn } = this;
    const { inA, inB, senseA, senseB } = place;
    if (inColumn >= 0) {
      if (state === HOLDING) {
        net.rowVolts(inColumn, inA, inB, 1);
        net.rowRight(inColumn, law.held);
      } else this.inputRow(net);
    }
    if (outColumn < 0) return;
    if (state === VOLTAGE) {
      net.rowVolts(outColumn, senseA, senseB, 1);
      net.rowRight(outColumn, law.volts);
    } else if (state === REDUCING) {
      net.rowAmps(outColumn, outColumn, -1);
      net.rowVolts(outColumn, inA, inB, -law.steep);
      net.rowRight(outColumn, -law.steep * law.to);
    } else this.outputRow(net);
  }

  /** Input current = standby + output volts x asked(output amperes) / input volts, linearised. */
  private inputRow(net: PortNet): void {
    const { law, place, inColumn, outColumn, inVolts, outVolts, outAmps } = this;
    const asked = law.asked(outAmps);
    const amps = (outVolts * asked) / inVolts;
    const byInput = net.flat ? 0 : -amps / inVolts;
    const byOutput = asked / inVolts;
    let right = law.standby + amps - byInput * inVolts - byOutput * outVolts;
    net.rowAmps(inColumn, inColumn, 1);
    net.rowVolts(inColumn, place.inA, place.inB, -byInput);
    net.rowVolts(inColumn, place.outA, place.outB, -byOutput);
    if (outColumn >= 0) {
      const byAmps = (outVolts * law.askedSlope(outAmps)) / inVolts;
      net.rowAmps(inColumn, outColumn, byAmps);
      right -= byAmps * outAmps;
    }
    net.rowRight(inColumn, right);
  }

  /** Output volts x asked(output amperes) = input volts x (input amperes - standby), linearised. */
  private outputRow(net: PortNet): void {
    const { law, place, state, inColumn, outColumn, inVolts, outVolts, outAmps, inAmps } = this;
    const asked = law.asked(outAmps);
    const byAmps = outVolts * law.askedSlope(outAmps);
    net.rowVolts(outColumn, place.outA, place.outB, asked);
    net.rowAmps(outColumn, outColumn, -byAmps);
    let right = byAmps * outAmps;
    let byInput: number;
    if (state === HOLDING) {
      net.rowAmps(outColumn, inColumn, -inVolts);
      byInput = inAmps - law.standby;
      right -= inVolts * inAmps;
    } else {
      const amps = state === INPUT_LIMIT ? law.inputLimit : law.lowSiemens * inVolts;
      byInput = amps - law.standby + (state === INPUT_LIMIT ? 0 : amps);
      right += inVolts * (amps - law.standby) - byInput * inVolts;
    }
    net.rowVolts(outColumn, place.inA, place.inB, -byInput);
    net.rowRight(outColumn, right);
  }

  want(net: PortNet, inner: boolean): number {
    if (!this.loaded) return 0;
    return inner ? this.wantInner(net) : this.wantOuter(net);
  }

  private wantInner(net: PortNet): number {
    const { law, place, state } = this;
    if (state === STARVED || state === DEAD) return 0;
    const sensed = net.volts(place.senseA, place.senseB);
    if (state === BLOCKED) return this.toward(VOLTAGE, below(sensed, law.volts), law.volts - sensed);
    if (state !== VOLTAGE) return this.toward(VOLTAGE, above(sensed, law.volts), sensed - law.volts);
    if (net.system.powerless[this.outColumn] === 1) {
      if (below(sensed, law.volts)) return this.toward(CURRENT, true, law.volts - sensed);
      return this.toward(BLOCKED, above(sensed, law.volts), sensed - law.volts);
    }
    const sent = -net.amps(this.outColumn);
    if (below(sent, 0)) return this.toward(BLOCKED, true, -sent);
    return this.toward(CURRENT, above(sent, law.current), sent - law.current);
  }

  private toward(state: number, really: boolean, violation: number): number {
    if (!really) return 0;
    this.wanted = state;
    return violation;
  }

  private wantOuter(net: PortNet): number {
    const { law, place, state } = this;
    const input = net.volts(place.inA, place.inB);
    if (state === BLOCKED) return this.toward(DEAD, below(input, law.deadVolts), 1);
    if (state === STARVED) return this.leaveStarved(input);
    if (state === DEAD) {
      if (!above(input, law.deadVolts)) return 0;
      return this.toward(law.starvedAt(input) ? STARVED : BELOW_LOWEST, true, 1);
    }
    return this.lowInput(net, input) || this.inputLimit(net, input) || this.leave(net, input);
  }

  private leaveStarved(input: number): number {
    const { law } = this;
    if (below(input, law.deadVolts)) return this.toward(DEAD, true, 1);
    if (law.held > 0) return this.toward(HOLDING, above(input, law.held), input / law.held);
    return this.toward(REDUCING, above(input, law.to), input / law.to);
  }

  /** The low-input rule takes over. */
  private lowInput(net: PortNet, input: number): number {
    const { law, state } = this;
    if (law.held > 0 && state !== HOLDING) {
      return this.toward(HOLDING, below(input, law.held), 1 - input / law.held);
    }
    if (law.from > 0 && state !== REDUCING && below(input, law.from)) {
      const left = Math.max(0, law.steep * (input - law.to));
      return this.toward(REDUCING, above(this.sent(net), left), 1 - input / law.from);
    }
    return 0;
  }

  /** The input limit takes over. */
  private inputLimit(net: PortNet, input: number): number {
    const { law, state } = this;
    if (state === INPUT_LIMIT || state === BELOW_LOWEST) return 0;
    const drawn = net.amps(this.inColumn);
    if (!above(drawn, law.limitAt(input))) return 0;
    const low = input < law.lowest;
    return this.toward(low ? BELOW_LOWEST : INPUT_LIMIT, true, 1 - input / (drawn * Math.abs(input) + 1));
  }

  /** What limits no longer does. */
  private leave(net: PortNet, input: number): number {
    const { law, state } = this;
    if (state === VOLTAGE || state === CURRENT) return 0;
    const sent = this.sent(net);
    if (state === REDUCING) {
      if (above(input, law.from)) return this.toward(CURRENT, true, input / law.from);
      return this.toward(STARVED, below(input, law.to), 1);
    }
    if (above(sent, law.current)) return this.toward(CURRENT, true, sent / law.current);
    if (state === INPUT_LIMIT) return this.toward(BELOW_LOWEST, below(input, law.lowest), 1);
    if (state === HOLDING) return this.toward(STARVED, below(sent, 0), 1);
    if (above(input, law.lowest)) return this.toward(INPUT_LIMIT, true, input / law.lowest);
    return this.toward(DEAD, below(input, law.deadVolts), 1);
  }

  /** Output current, amperes. */
  private sent(net: PortNet): number {
    if (this.outColumn >= 0) return -net.amps(this.outColumn);
    return this.state === CURRENT ? this.law.current : 0;
  }

  move(): void {
    this.state = this.wanted;
  }

  linearise(net: PortNet): number {
    const { place } = this;
    if (this.inColumn < 0 && this.outColumn < 0) return 0;
    const input = Math.max(net.volts(place.inA, place.inB), LEAST_INPUT);
    const output = Math.max(net.volts(place.outA, place.outB), LEAST_OUTPUT);
    const sent = this.sent(net);
    const change = Math.max(
      Math.abs(input - this.inVolts),
      Math.abs(output - this.outVolts),
      Math.abs(sent - this.outAmps),
    );
    this.inVolts = input;
    this.outVolts = output;
    this.outAmps = sent;
    this.inAmps = this.amps(net, false);
    return change;
  }

  amps(net: PortNet, out: boolean): number {
    if (!this.loaded) return 0;
    if (out) return -this.sent(net);
    if (this.inColumn >= 0) return net.amps(this.inColumn);
    if (this.state === INPUT_LIMIT) return this.law.inputLimit;
    if (this.state === BLOCKED || this.state === STARVED) return this.law.standby;
    return this.law.lowSiemens * net.volts(this.place.inA, this.place.inB);
  }

  ampsChange(net: PortNet, delta: Float64Array, change: Float64Array, out: boolean): number {
    const column = out ? this.outColumn : this.inColumn;
    if (column >= 0) return net.ampsChange(column, delta, change);
    if (out || !this.loaded || (this.state !== BELOW_LOWEST && this.state !== DEAD)) return 0;
    return this.law.lowSiemens * (delta[this.place.inA]! - delta[this.place.inB]!);
  }

  regime(): string {
    return this.state === STARVED && this.law.held > 0 ? 'holding' : NAMES[this.state]!;
  }

  pieceCount(): number {
    return PIECES;
  }

  piece(): number {
    return this.state;
  }

  setPiece(piece: number): void {
    this.state = piece;
    if (piece === HOLDING && !(this.law.held > 0)) this.state = DEAD;
    if (piece === REDUCING && !(this.law.from > 0)) this.state = DEAD;
    if (piece === CURRENT) this.outAmps = this.law.current;
  }

  height(net: PortNet): number {
    return net.volts(this.place.inA, this.place.inB);
  }
}
