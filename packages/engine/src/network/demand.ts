/** A converter asked for a fixed power: its output follows as a share of its current and does not act back on its input. */
import { above, below, NO_CAP, SENSE_RANGE, TIE } from './device.ts';
import type { ConverterLaw, ConverterPlace } from './converter-law.ts';
import type { PortNet } from './ports.ts';
import { FALLING, RISING } from './small.ts';

// input pieces
const FULL = 0;
const INPUT_LIMIT = 1;
const BELOW_LOWEST = 2;
const HOLDING = 3;
const REDUCING = 4;
const STARVED = 5;
const DEAD = 6;
const INPUTS = 7;
// output pieces
const LIMITED = 0;
const VOLTAGE = 1;
const BLOCKED = 2;
/** Own output terminals at the end of the remote-sense range. */
const CAPPED = 3;
const OUTPUTS = 4;
const NAMES = ['current', 'input-limit', 'below-lowest', 'holding', 'reducing', 'reducing', 'below-lowest'];
const LEAST_INPUT = 1e-3;

/**
 * Input at share f: standby + f x (demand / volts - standby) amperes, so that the full share asks for the demand exactly.
 * Output: f x current, as a current source, but it stops rising at its set voltage so that it can stand on nothing.
 */
export class DemandConverter {
  private readonly place: ConverterPlace;
  private readonly law: ConverterLaw;
  /** Most volts at the own output; NO_CAP where it is what is sensed. */
  private cap = NO_CAP;
  private state = FULL;
  private wanted = FULL;
  private output = LIMITED;
  private wantedOutput = LIMITED;
  private inColumn = -1;
  private outColumn = -1;
  private inVolts = 1;
  /** Input current while it is kept flat; only standby at no load. */
  private inAmps = 0;

  constructor(place: ConverterPlace, law: ConverterLaw) {
    this.place = place;
    this.law = law;
  }

  read(): void {
    const { place, law } = this;
    this.state = FULL;
    this.inVolts = law.lowest;
    this.inAmps = law.standby;
    const remote = place.senseA !== place.outA || place.senseB !== place.outB;
    this.cap = remote ? SENSE_RANGE * law.volts : NO_CAP;
    this.output = LIMITED;
  }

  scale(share: number): void {
    this.law.scale(share);
  }

  activate(net: PortNet): boolean {
    const { law, place } = this;
    const input = net.volts(place.inA, place.inB);
    if (!above(input, law.deadVolts)) this.state = DEAD;
    else if (law.starvedAt(input)) this.state = STARVED;
    else this.state = input < law.lowest ? BELOW_LOWEST : FULL;
    this.inVolts = Math.max(input, LEAST_INPUT);
    this.inAmps = law.demand / this.inVolts;
    return this.state !== FULL;
  }

  stamp(net: PortNet): void {
    const { law, place, state } = this;
    const { inA, inB, outA, outB, inSlot, outSlot } = place;
    this.inColumn = -1;
    this.outColumn = -1;
    if (state === STARVED) net.draw(inA, inB, law.standby);
    else if (state === INPUT_LIMIT) net.draw(inA, inB, law.inputLimit);
    else if (state === BELOW_LOWEST || state === DEAD) net.conduct(inSlot, law.lowSiemens);
    else this.inColumn = net.column(inSlot, inA, inB, state === FULL ? FALLING : RISING);
    if (this.output === BLOCKED) return;
    if (this.output === LIMITED && (state === STARVED || state === DEAD)) return;
    if (this.output === LIMITED && state === FULL) net.draw(outA, outB, -law.current);
    else this.outColumn = net.column(outSlot, outA, outB, RISING);
  }

  rows(net: PortNet): void {
    const { law, place, inColumn, outColumn, state } = this;
    if (inColumn >= 0) this.inputRow(net);
    if (outColumn < 0) return;
    if (this.output === VOLTAGE) {
      net.rowVolts(outColumn, place.senseA, place.senseB, 1);
      net.rowRight(outColumn, law.volts);
      return;
    }
    if (this.output === CAPPED) {
      net.rowVolts(outColumn, place.outA, place.outB, 1);
      net.rowRight(outColumn, this.cap);
      return;
    }
    net.rowAmps(outColumn, outColumn, -1);
    if (state === HOLDING) {
      const k = law.current / Math.max(law.demand / law.held - law.standby, 1e-9);
      net.rowAmps(outColumn, inColumn, -k);
      net.rowRight(outColumn, -k * law.standby);
      return;
    }
    const slope = law.current * this.shareSlope(this.inVolts);
    net.rowVolts(outColumn, place.inA, place.inB, -slope);
    net.rowRight(outColumn, law.current * this.shareAt(this.inVolts, 0) - slope * this.inVolts);
  }

  private inputRow(net: PortNet): void {
    const { law, place, inColumn, inVolts, state } = this;
    if (state === HOLDING) {
      net.rowVolts(inColumn, place.inA, place.inB, 1);
      net.rowRight(inColumn, law.held);
      return;
    }
    if (net.flat && state === FULL) {
      net.rowAmps(inColumn, inColumn, 1);
      net.rowRight(inColumn, this.inAmps);
      return;
    }
    let amps = law.demand / inVolts;
    let slope = -amps / inVolts;
    if (state === REDUCING) {
      const share = this.shareAt(inVolts, 0);
      slope = share * slope + this.shareSlope(inVolts) * (amps - law.standby);
      amps = law.standby + share * (amps - law.standby);
    }
    net.rowAmps(inColumn, inColumn, 1);
    net.rowVolts(inColumn, place.inA, place.inB, -slope);
    net.rowRight(inColumn, amps - slope * inVolts);
  }

  /** Share of the current at an input voltage (and, when holding, an input current). */
  private shareAt(volts: number, amps: number): number {
    const { law, state } = this;
    if (state === FULL) return 1;
    if (state === STARVED || state === DEAD) return 0;
    if (state === REDUCING) return (volts - law.to) / (law.from - law.to);
    if (state === HOLDING) return (amps - law.standby) / Math.max(law.demand / law.held - law.standby, 1e-9);
    const drawn = state === INPUT_LIMIT ? law.inputLimit : law.lowSiemens * volts;
    return ((drawn - law.standby) * volts) / Math.max(law.demand - law.standby * volts, 1e-9);
  }

  private shareSlope(volts: number): number {
    const { law, state } = this;
    if (state === REDUCING) return 1 / (law.from - law.to);
    if (state !== INPUT_LIMIT && state !== BELOW_LOWEST) return 0;
    const rest = Math.max(law.demand - law.standby * volts, 1e-9);
    const drawn = state === INPUT_LIMIT ? law.inputLimit : law.lowSiemens * volts;
    const rise = drawn - law.standby + (state === INPUT_LIMIT ? 0 : drawn);
    return (rise * rest + (drawn - law.standby) * volts * law.standby) / (rest * rest);
  }

  private shareNow(net: PortNet): number {
    const amps = this.inColumn >= 0 ? net.amps(this.inColumn) : 0;
    return this.shareAt(net.volts(this.place.inA, this.place.inB), amps);
  }

  want(net: PortNet, inner: boolean): number {
    this.wanted = this.state;
    this.wantedOutput = this.output;
    return inner ? this.wantOutput(net) : this.wantInput(net);
  }

  private wantOutput(net: PortNet): number {
    const { law, place } = this;
    const over = net.volts(place.senseA, place.senseB) - law.volts;
    const own = net.volts(place.outA, place.outB);
    if (this.output === BLOCKED)
      return this.towardOutput(VOLTAGE, over < -TIE && below(own, this.cap), -over);
    if (this.output === LIMITED) {
      const nowhere = this.outColumn >= 0 && net.powerless[this.outColumn] === 1;
      if (above(own, this.cap) || (nowhere && this.cap < NO_CAP)) return this.towardOutput(CAPPED, true, 1);
      return this.towardOutput(VOLTAGE, nowhere || above(over, 0), 1);
    }
    if (net.powerless[this.outColumn] === 1) {
      if (below(over, 0)) return this.towardOutput(this.cap < NO_CAP ? CAPPED : LIMITED, true, -over);
      if (above(over, 0)) return this.towardOutput(BLOCKED, true, over);
    }
    const sent = -net.amps(this.outColumn);
    const most = law.current * Math.max(0, this.shareNow(net));
    if (sent < -TIE) return this.towardOutput(BLOCKED, true, -sent);
    if (above(sent, most)) return this.towardOutput(LIMITED, true, sent - most);
    if (this.output === CAPPED) return this.towardOutput(VOLTAGE, above(over, 0), over);
    return this.towardOutput(CAPPED, above(own, this.cap), own - this.cap);
  }

  private towardOutput(output: number, really: boolean, violation: number): number {
    if (!really) return 0;
    this.wantedOutput = output;
    return violation;
  }

  private toward(state: number, really: boolean, violation: number): number {
    if (!really) return 0;
    this.wanted = state;
    return violation;
  }

  private wantInput(net: PortNet): number {
    const { law, place, state } = this;
    const input = net.volts(place.inA, place.inB);
    if (state === DEAD) {
      if (!above(input, law.deadVolts)) return 0;
      return this.toward(law.starvedAt(input) ? STARVED : BELOW_LOWEST, true, 1);
    }
    if (state === STARVED) {
      if (below(input, law.deadVolts)) return this.toward(DEAD, true, 1);
      if (law.held > 0) return this.toward(HOLDING, above(input, law.held), input / law.held);
      return this.toward(REDUCING, above(input, law.to), input / law.to);
    }
    return this.lowInput(net, input) || this.limits(net, input);
  }

  private lowInput(net: PortNet, input: number): number {
    const { law, state } = this;
    if (law.held > 0 && state !== HOLDING) {
      return this.toward(HOLDING, below(input, law.held), 1 - input / law.held);
    }
    if (law.from > 0 && state !== REDUCING && below(input, law.from)) {
      const left = Math.max(0, (input - law.to) / (law.from - law.to));
      return this.toward(REDUCING, above(this.shareNow(net), left), 1 - input / law.from);
    }
    return 0;
  }

  private limits(net: PortNet, input: number): number {
    const { law, state } = this;
    if (this.inColumn >= 0) {
      const drawn = this.drawn(net, input);
      if (above(drawn, law.limitAt(input))) {
        return this.toward(input < law.lowest ? BELOW_LOWEST : INPUT_LIMIT, true, 1);
      }
    }
    if (state === FULL) return 0;
    const share = this.shareNow(net);
    if (state === REDUCING) {
      if (above(input, law.from)) return this.toward(FULL, true, input / law.from);
      return this.toward(STARVED, below(input, law.to), 1);
    }
    if (above(share, 1) && input > 0) return this.toward(FULL, true, share);
    if (state === HOLDING) return this.toward(STARVED, below(share, 0), 1);
    if (state === INPUT_LIMIT) return this.toward(BELOW_LOWEST, below(input, law.lowest), 1);
    if (above(input, law.lowest)) return this.toward(INPUT_LIMIT, true, input / law.lowest);
    return this.toward(DEAD, below(input, law.deadVolts), 1);
  }

  /** Input current asked for at this input voltage. */
  private drawn(net: PortNet, input: number): number {
    if (this.state !== FULL) return net.amps(this.inColumn);
    return input < LEAST_INPUT ? Infinity : this.law.demand / input;
  }

  move(): void {
    this.state = this.wanted;
    this.output = this.wantedOutput;
  }

  linearise(net: PortNet): number {
    if (this.inColumn < 0 && this.outColumn < 0) return 0;
    const input = Math.max(net.volts(this.place.inA, this.place.inB), LEAST_INPUT);
    const drawn = (this.law.demand / input) * net.hurry;
    const change = Math.max(Math.abs(input - this.inVolts), Math.abs(drawn - this.inAmps));
    this.inVolts = input;
    this.inAmps = drawn;
    return change;
  }

  amps(net: PortNet, out: boolean): number {
    if (out) {
      if (this.outColumn >= 0) return net.amps(this.outColumn);
      return this.output === LIMITED && this.state === FULL ? -this.law.current : 0;
    }
    if (this.inColumn >= 0) return net.amps(this.inColumn);
    if (this.state === INPUT_LIMIT) return this.law.inputLimit;
    if (this.state === STARVED) return this.law.standby;
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
    return INPUTS * OUTPUTS;
  }

  piece(): number {
    return this.state * OUTPUTS + this.output;
  }

  setPiece(piece: number): void {
    this.output = piece % OUTPUTS;
    this.state = (piece - this.output) / OUTPUTS;
    if (this.output === CAPPED && this.cap === NO_CAP) this.output = BLOCKED;
    if (this.state === HOLDING && !(this.law.held > 0)) this.state = DEAD;
    if (this.state === REDUCING && !(this.law.from > 0)) this.state = DEAD;
    if (this.state === STARVED && !(this.law.held > 0 || this.law.from > 0)) this.state = DEAD;
  }

  height(net: PortNet): number {
    return net.volts(this.place.inA, this.place.inB);
  }
}
