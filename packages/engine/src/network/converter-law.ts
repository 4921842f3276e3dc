/** The numbers of a converter and the laws that tie its input to its output. */
import type { ConverterElement } from '../contracts/element.ts';

/** Node positions and slots of a converter. */
export interface ConverterPlace {
  readonly inA: number;
  readonly inB: number;
  readonly outA: number;
  readonly outB: number;
  readonly senseA: number;
  readonly senseB: number;
  readonly inSlot: number;
  readonly outSlot: number;
}

export class ConverterLaw {
  standby = 0;
  volts = 0;
  current = 0;
  rated = 1;
  inputLimit = 0;
  lowest = 0;
  /** Siemens of the input below the lowest voltage. */
  lowSiemens = 0;
  /** Below this input voltage even the standby current is not met: the input is a plain resistance, no output. */
  deadVolts = 0;
  /** Held input voltage, or -Infinity. */
  held = -Infinity;
  /** Reduction from / to input volts, both -Infinity when there is none. */
  from = -Infinity;
  to = -Infinity;
  /** Output amperes per input volt within the reduction. */
  steep = 0;
  demand = 0;
  private fullCurrent = 0;
  private fullDemand = 0;
  private table: readonly (readonly [share: number, eta: number])[] = [[1, 1]];

  read(element: ConverterElement<number>): void {
    this.standby = element.standbyAmps;
    this.volts = element.volts;
    this.current = element.current;
    this.rated = element.ratedCurrent;
    this.inputLimit = element.inputLimit;
    this.lowest = element.lowest;
    this.lowSiemens = element.inputLimit / element.lowest;
    this.deadVolts = element.standbyAmps / this.lowSiemens;
    this.demand = element.demand ?? 0;
    this.fullCurrent = this.current;
    this.fullDemand = this.demand;
    this.held = -Infinity;
    this.from = -Infinity;
    this.to = -Infinity;
    const rule = element.lowInput;
    if (rule.type === 'holds') this.held = rule.volts;
    else if (rule.type === 'reduces') {
      this.from = rule.from;
      this.to = rule.to;
      this.steep = element.current / (rule.from - rule.to);
    }
    this.table = element.efficiency;
  }

  /** Takes a share (0..1) of the load that the converter would be. */
  scale(share: number): void {
    this.current = share * this.fullCurrent;
    this.demand = share * this.fullDemand;
    if (this.from > 0) this.steep = this.current / (this.from - this.to);
  }

  /** Greatest input current (amperes) at an input voltage. */
  limitAt(volts: number): number {
    return volts >= this.lowest ? this.inputLimit : this.lowSiemens * volts;
  }

  /** True when the low-input rule leaves no output at this input voltage. */
  starvedAt(volts: number): boolean {
    return volts < this.held || volts <= this.to;
  }

  /** Interval of the efficiency table: 0 before its first share, its length after the last. */
  private segmentOf(share: number): number {
    let i = 0;
    while (i < this.table.length && share > this.table[i]![0]) i += 1;
    return i;
  }

  private slopeOf(segment: number): number {
    if (segment === 0 || segment === this.table.length) return 0;
    const [share0, eta0] = this.table[segment - 1]!;
    const [share1, eta1] = this.table[segment]!;
    return (eta1 - eta0) / (share1 - share0);
  }

  private etaAt(share: number, segment: number): number {
    if (segment === 0) return this.table[0]![1];
    const before = this.table[segment - 1]!;
    if (segment === this.table.length) return before[1];
    return before[1] + this.slopeOf(segment) * (share - before[0]);
  }

  /** Output current divided by efficiency: input watts per output volt. */
  asked(amperes: number): number {
    const share = amperes / this.rated;
    return amperes / this.etaAt(share, this.segmentOf(share));
  }

  /** Derivative of `asked`. */
  askedSlope(amperes: number): number {
    const share = amperes / this.rated;
    const segment = this.segmentOf(share);
    const eta = this.etaAt(share, segment);
    return (eta - share * this.slopeOf(segment)) / (eta * eta);
  }
}
