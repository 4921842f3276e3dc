/** A converter at the ports: its input and output are tied by power. */
import { above, below, NO_CAP, SENSE_RANGE, TIE } from './device.ts';
import type { ConverterLaw, ConverterPlace } from './converter-law.ts';
import type { PortNet } from './ports.ts';
import { FALLING, RISING } from './small.ts';

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
/** Own output terminals at the end of the remote-sense range. */
const CAPPED = 9;
const PIECES = 10;
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
  'sense-limit',
];
/** Error (share of power + 1 W) of the tangent of output power that needs no new one before conclusions. */
const POWER_SLACK = 0.02;
/** Least voltages (V) that a linearisation may stand on. */
const LEAST_INPUT = 1e-3;
const LEAST_OUTPUT = 1e-6;

/** The converter whose input follows what its output gives. */
export class LinkedConverter {
  private readonly place: ConverterPlace;
  private readonly law: ConverterLaw;
  /** Most volts at the own output; NO_CAP where it is what is sensed. */
  private cap = NO_CAP;
  /** False until the no-load phase has ended. */
  private active = false;
  private state = CURRENT;
  private wanted = CURRENT;
  private inColumn = -1;
  private outColumn = -1;
  // linearisation point
  private inVolts = 1;
  private outVolts = 1;
  private outAmps = 0;
  /** Input current while it is kept flat: at first only standby, so that the output settles before it loads the input. */
  private inAmps = 0;
  private outVoltsWanted = 1;
  private outAmpsWanted = 0;

  constructor(place: ConverterPlace, law: ConverterLaw) {
    this.place = place;
    this.law = law;
  }

  read(): void {
    const { place, law } = this;
    this.active = false;
    this.state = CURRENT;
    this.inVolts = law.lowest;
    this.outVolts = law.volts;
    this.outAmps = law.current;
    this.inAmps = law.standby;
    const remote = place.senseA !== place.outA || place.senseB !== place.outB;
    this.cap = remote ? SENSE_RANGE * law.volts : NO_CAP;
  }

  scale(share: number): void {
    this.law.scale(share);
  }

  activate(net: PortNet): boolean {
    const { law, place } = this;
    const input = net.volts(place.inA, place.inB);
    const before = this.state;
    this.active = true;
    if (!above(input, law.deadVolts)) this.state = DEAD;
    else if (law.starvedAt(input)) this.state = STARVED;
    else if (input < law.lowest && before !== BLOCKED) this.state = BELOW_LOWEST;
    this.outAmps = this.sent(net);
    this.inVolts = Math.max(input, LEAST_INPUT);
    this.outVolts = Math.max(net.volts(place.outA, place.outB), LEAST_OUTPUT);
    this.inAmps = law.standby + (this.outVolts * law.asked(this.outAmps)) / this.inVolts;
    return this.state !== before;
  }

  stamp(net: PortNet): void {
    const { law, place, state } = this;
    const { inA, inB, outA, outB, inSlot, outSlot } = place;
    this.inColumn = -1;
    this.outColumn = -1;
    if (state === BLOCKED || state === STARVED) net.draw(inA, inB, law.standby);
    else if (state === INPUT_LIMIT) net.draw(inA, inB, law.inputLimit);
    else if (state === BELOW_LOWEST || state === DEAD) net.conduct(inSlot, law.lowSiemens);
    else this.inColumn = net.column(inSlot, inA, inB, this.falling() ? FALLING : RISING);
    if (state === CURRENT) net.draw(outA, outB, -law.current);
    else if (state !== BLOCKED && state !== STARVED && state !== DEAD) {
      this.outColumn = net.column(outSlot, outA, outB, RISING);
    }
  }

  /** True while the input current falls as the input voltage rises. */
  private falling(): boolean {
    return this.state === VOLTAGE || this.state === CURRENT || this.state === CAPPED;
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
    } else if (state === CAPPED) {
      net.rowVolts(outColumn, place.outA, place.outB, 1);
      net.rowRight(outColumn, this.cap);
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
    net.rowAmps(inColumn, inColumn, 1);
    if (net.flat && this.falling()) {
      net.rowRight(inColumn, this.inAmps);
      return;
    }
    const byInput = -amps / inVolts;
    const byOutput = asked / inVolts;
    let right = law.standby + amps - byInput * inVolts - byOutput * outVolts;
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
    const { law, place, state, inColumn, outColumn, inVolts, outVolts, outAmps } = this;
    const asked = law.asked(outAmps);
    const byAmps = outVolts * law.askedSlope(outAmps);
    net.rowVolts(outColumn, place.outA, place.outB, asked);
    net.rowAmps(outColumn, outColumn, -byAmps);
    let right = byAmps * outAmps;
    let byInput = 0;
    if (state === HOLDING) {
      net.rowAmps(outColumn, inColumn, -law.held);
      right -= law.held * law.standby;
    } else {
      const amps = state === INPUT_LIMIT ? law.inputLimit : law.lowSiemens * inVolts;
      if (!net.flat) byInput = amps - law.standby + (state === INPUT_LIMIT ? 0 : amps);
      right += inVolts * (amps - law.standby) - byInput * inVolts;
    }
    net.rowVolts(outColumn, place.inA, place.inB, -byInput);
    net.rowRight(outColumn, right);
  }

  want(net: PortNet, inner: boolean): number {
    if (!inner) return this.wantOuter(net);
    return this.wantInner(net) || this.wantPower(net);
  }

  /**
   * The tangent of output power may be far off where both volts and amperes of the output have moved. Then the output's
   * part of it is taken anew before anything is concluded for the input.
   */
  private wantPower(net: PortNet): number {
    const { law, place, outVolts, outAmps } = this;
    if (this.outColumn < 0 || !net.flat || this.falling()) return 0;
    const output = Math.max(net.volts(place.outA, place.outB), LEAST_OUTPUT);
    const sent = this.sent(net);
    const power = output * law.asked(sent);
    const tangent = output * law.asked(outAmps) + outVolts * law.askedSlope(outAmps) * (sent - outAmps);
    const off = Math.abs(power - tangent);
    if (off <= POWER_SLACK * (1 + Math.abs(power))) return 0;
    this.wanted = this.state;
    this.outVoltsWanted = output;
    this.outAmpsWanted = sent;
    return off;
  }

  private wantInner(net: PortNet): number {
    const { law, place, state } = this;
    if (state === STARVED || state === DEAD) return 0;
    const over = net.volts(place.senseA, place.senseB) - law.volts;
    const own = net.volts(place.outA, place.outB);
    const input = this.active ? this.inVolts : net.volts(place.inA, place.inB);
    const dead = input <= Math.max(law.deadVolts, LEAST_INPUT);
    if (state === BLOCKED) {
      if (dead) return this.toward(DEAD, true, 1);
      return this.toward(VOLTAGE, over < -TIE && below(own, this.cap), -over);
    }
    if (state !== VOLTAGE && state !== CAPPED) {
      const nowhere = this.outColumn >= 0 && net.powerless[this.outColumn] === 1;
      const raised = above(own, this.cap) || (nowhere && this.cap < NO_CAP);
      if (dead) return this.toward(DEAD, raised || nowhere || above(over, 0), 1);
      if (nowhere && state === HOLDING && net.amps(this.inColumn) < law.standby)
        return this.toward(STARVED, true, 1);
      if (raised) return this.toward(CAPPED, true, Math.max(1, own - this.cap));
      return this.toward(VOLTAGE, nowhere || above(over, 0), Math.max(over, 1));
    }
    if (net.powerless[this.outColumn] === 1) {
      if (below(over, 0)) return this.toward(this.cap < NO_CAP ? CAPPED : CURRENT, true, -over);
      if (above(over, 0)) return this.toward(BLOCKED, true, over);
    }
    const sent = -net.amps(this.outColumn);
    if (sent < -TIE) return this.toward(BLOCKED, true, -sent);
    if (above(sent, law.current)) return this.toward(CURRENT, true, sent - law.current);
    if (state === CAPPED) return this.toward(VOLTAGE, above(over, 0), over);
    return this.toward(CAPPED, above(own, this.cap), own - this.cap);
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
    const drawn = this.drawn(net, input);
    if (!above(drawn, law.limitAt(input))) return 0;
    const low = input < law.lowest;
    return this.toward(low ? BELOW_LOWEST : INPUT_LIMIT, true, 1);
  }

  /** Input power (W) that the limit leaves for the output. */
  private leftover(input: number): number {
    return input * (this.law.limitAt(input) - this.law.standby);
  }

  /** Input current that the output asks for at this input voltage. */
  private drawn(net: PortNet, input: number): number {
    const { law, place } = this;
    if (!this.falling()) return net.amps(this.inColumn);
    if (input < LEAST_INPUT) return Infinity;
    return law.standby + (net.volts(place.outA, place.outB) * law.asked(this.sent(net))) / input;
  }

  /** What limits no longer does. */
  private leave(net: PortNet, input: number): number {
    const { law, state } = this;
    if (state === VOLTAGE || state === CURRENT || state === CAPPED) return 0;
    const sent = this.sent(net);
    if (state === REDUCING) {
      if (above(input, law.from)) return this.toward(CURRENT, true, input / law.from);
      return this.toward(STARVED, below(input, law.to), 1);
    }
    if (above(sent, law.current)) return this.toward(CURRENT, true, sent / law.current);
    // a negative output on positive input power is the wrong branch of volts x amperes = power
    if (state !== HOLDING && below(sent, 0) && this.leftover(input) > 0) return this.toward(CURRENT, true, 1);
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
    if (this.state === this.wanted) {
      this.outVolts = this.outVoltsWanted;
      this.outAmps = this.outAmpsWanted;
    }
    this.state = this.wanted;
  }

  linearise(net: PortNet): number {
    const { law, place } = this;
    if (this.inColumn < 0 && this.outColumn < 0) return 0;
    const input = Math.max(net.volts(place.inA, place.inB), LEAST_INPUT);
    const output = Math.max(net.volts(place.outA, place.outB), LEAST_OUTPUT);
    const sent = this.sent(net);
    const drawn = (law.standby + (output * law.asked(sent)) / input) * net.hurry;
    const change = Math.max(
      Math.abs(input - this.inVolts),
      Math.abs(output - this.outVolts),
      Math.abs(sent - this.outAmps),
      Math.abs(drawn - this.inAmps),
    );
    this.inVolts = input;
    this.outVolts = output;
    this.outAmps = sent;
    this.inAmps = drawn;
    return change;
  }

  amps(net: PortNet, out: boolean): number {
    if (out) return -this.sent(net);
    if (this.inColumn >= 0) return net.amps(this.inColumn);
    if (this.state === INPUT_LIMIT) return this.law.inputLimit;
    if (this.state === BLOCKED || this.state === STARVED) return this.law.standby;
    return this.law.lowSiemens * net.volts(this.place.inA, this.place.inB);
  }

  ampsChange(net: PortNet, delta: Float64Array, change: Float64Array, out: boolean): number {
    const column = out ? this.outColumn : this.inColumn;
    if (column >= 0) return net.ampsChange(column, delta, change);
    if (out || (this.state !== BELOW_LOWEST && this.state !== DEAD)) return 0;
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
    if (piece === STARVED && !(this.law.held > 0 || this.law.from > 0)) this.state = DEAD;
    if (piece === CAPPED && this.cap === NO_CAP) this.state = DEAD;
    if (piece === CURRENT) this.outAmps = this.law.current;
  }

  height(net: PortNet): number {
    return net.volts(this.place.inA, this.place.inB);
  }
}
