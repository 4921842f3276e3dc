/**
 * ngspice (WebAssembly) as an outside opinion on operating points: the elements are written as a netlist of resistors and
 * behavioural sources, limits and regulators as clamped auxiliary unknowns.
 *
 * After every run the errors are read, and the answer is tested against the elements' laws and Kirchhoff's: an unconverged
 * run hands back the vectors of the run before, which look plausible.
 */
import { Simulation } from 'eecircuit-engine';
import type { ElementOf } from '../../packages/engine/src/contracts/element.ts';
import { worstMiss, type Answer } from './law.ts';

type Element = ElementOf<number>;
type Converter = Extract<Element, { type: 'converter' }>;

/** Siemens that stand for an open contact. */
const OPEN = 1e-12;
/** Volts beyond which curves are not looked at. */
const FAR = 1e4;
/** Amperes per volt of the clamped auxiliary equations, tried in turn; they change the way to the answer, not the answer. */
const GAINS = [10, 0.5, 2];
const SENSE_RANGE = 1.1;
/** Miss of a law (V, A) or of Kirchhoff's (share of the largest current) beyond which an answer counts as none. */
const LARGEST_MISS = 1e-5;

function name(node: number, reference: number): string {
  return node === reference ? '0' : `n${node}`;
}

function num(value: number): string {
  if (value === Infinity) return '1e9';
  if (value === -Infinity) return '-1e9';
  return value.toPrecision(17);
}

function table(
  x: string,
  points: readonly (readonly [number, number])[],
  below: number,
  above: number,
): string {
  const first = points[0] ?? [0, 0];
  const last = points.at(-1) ?? first;
  const all = [
    [-FAR, first[1] - below * (first[0] + FAR)],
    ...points,
    [FAR, last[1] + above * (FAR - last[0])],
  ] as const;
  return `pwl(${x}, ${all.map(([v, i]) => `${num(v)},${num(i)}`).join(', ')})`;
}

function clamp(x: string, low: string, high: string): string {
  return `min(max(${x}, ${low}), ${high})`;
}

class Netlist {
  readonly lines: string[] = ['operating point'];
  private readonly reference: number;

  private readonly gain: number;

  constructor(reference: number, elements: readonly Element[], gain: number) {
    this.reference = reference;
    this.gain = gain;
    elements.forEach((e, k) => this.add(e, k));
  }

  private n(node: number): string {
    return name(node, this.reference);
  }

  private v(a: number, b: number): string {
    if (b === this.reference) return a === this.reference ? '0' : `V(${this.n(a)})`;
    if (a === this.reference) return `(-V(${this.n(b)}))`;
    return `V(${this.n(a)},${this.n(b)})`;
  }

  private add(e: Element, k: number): void {
    switch (e.type) {
      case 'resistor':
        this.lines.push(
          `R${k} ${this.n(e.a)} ${this.n(e.b)} ${num(e.ohms === Infinity ? 1 / OPEN : e.ohms)}`,
        );
        return;
      case 'pieces':
        this.lines.push(
          `B${k} ${this.n(e.a)} ${this.n(e.b)} I=${table(this.v(e.a, e.b), e.points, e.below, e.above)}`,
        );
        return;
      case 'hold': {
        const error = this.error(e.volts, e.senseA, e.senseB, e.a, e.b);
        this.auxiliary(`h${k}`, `V(h${k}) + ${this.gain}*(${error})`, num(e.least), num(e.greatest));
        this.lines.push(`G${k} ${this.n(e.b)} ${this.n(e.a)} h${k} 0 1`);
        return;
      }
      case 'power': {
        const v = this.v(e.a, e.b);
        const resistor = `${v}*${num(e.watts / e.knee ** 2)}`;
        const power = `${num(e.watts)}/max(${v}, ${num(e.knee)})`;
        this.lines.push(
          `B${k} ${this.n(e.a)} ${this.n(e.b)} I=min(${num(e.limit)}, ${v} > ${num(e.knee)} ? ${power} : ${resistor})`,
        );
        return;
      }
      case 'converter':
        this.converter(e, k);
        return;
      default:
    }
  }

  /** An unknown x with x = clamp(next, low, high). */
  private auxiliary(node: string, next: string, low: string, high: string): void {
    this.lines.push(`Ba${node} 0 ${node} I=${clamp(next, low, high)} - V(${node})`);
  }

  /** How far what is regulated is below its target. */
  private error(volts: number, senseA: number, senseB: number, a: number, b: number): string {
    const sensed = `${num(volts)} - ${this.v(senseA, senseB)}`;
    if (senseA === a && senseB === b) return sensed;
    return `min(${sensed}, ${num(SENSE_RANGE * volts)} - ${this.v(a, b)})`;
  }

  private converter(e: Converter, k: number): void {
    const a = this.n(e.inA);
    const b = this.n(e.inB);
    const vin = this.v(e.inA, e.inB);
    if (!e.on) {
      const g = 1 / e.idleOhms;
      const curve = [
        [0, 0],
        [1, g + e.standbyAmps],
      ] as const;
      this.lines.push(`B${k} ${a} ${b} I=${table(vin, curve, g, g)}`);
      return;
    }
    const limit = `min(${num(e.inputLimit)}, ${num(e.inputLimit / e.lowest)}*${vin})`;
    const standby = `min(${num(e.standbyAmps)}, ${limit})`;
    const safe = `max(${vin}, 0.05)`;
    const reduced =
      e.lowInput.type === 'reduces'
        ? clamp(`(${vin} - ${num(e.lowInput.to)})*${num(1 / (e.lowInput.from - e.lowInput.to))}`, '0', '1')
        : '1';
    const y = `V(y${k})`;
    const error = this.error(e.volts, e.senseA, e.senseB, e.outA, e.outB);
    let most: string;
    if (e.demand === null) {
      const eta = table(`${y}*${num(1 / e.ratedCurrent)}`, e.efficiency, 0, 0);
      const out = this.v(e.outA, e.outB);
      most = `min(${num(e.current)}*${reduced}, max(0, ${limit} - ${standby})*${safe}*${eta}/max(${out}, 0.05))`;
      if (e.lowInput.type === 'holds') {
        this.auxiliary(`z${k}`, `V(z${k}) + ${this.gain}*(${vin} - ${num(e.lowInput.volts)})`, '0', most);
        most = `V(z${k})`;
      }
      this.lines.push(`Bi${k} ${a} ${b} I=${standby} + ${out}*${y}/(${eta})/${safe}`);
    } else {
      const full = `(${num(e.demand)}/${safe} - ${standby})`;
      most = `min(min(1, ${reduced}), max(0, ${limit} - ${standby})/max(${full}, 1e-6))`;
      if (e.lowInput.type === 'holds') {
        this.auxiliary(`z${k}`, `V(z${k}) + ${vin} - ${num(e.lowInput.volts)}`, '0', most);
        most = `V(z${k})`;
      }
      this.lines.push(`Bi${k} ${a} ${b} I=${standby} + ${most}*${full}`);
      most = `${num(e.current)}*(${most})`;
    }
    this.auxiliary(`y${k}`, `${y} + ${this.gain}*(${error})`, '0', most);
    this.lines.push(`G${k} ${this.n(e.outB)} ${this.n(e.outA)} y${k} 0 1`);
  }
}

/** Netlist lines of elements, for netlists with more around them. */
export function elementLines(reference: number, elements: readonly Element[]): string[] {
  return new Netlist(reference, elements, GAINS[0] ?? 10).lines.slice(1);
}

/**
 * First guesses: nominal volts for every node that wires join to a positive pole, half of what each regulator can give. They
 * come from the elements' ratings, not from any solution.
 */
function guesses(reference: number, elements: readonly Element[]): string[] {
  const nominal = new Map<number, number>();
  const lines: string[] = [];
  elements.forEach((e, k) => {
    if (e.type === 'pieces' && (e.points[0]?.[0] ?? 0) > 5) nominal.set(e.a, e.points[0]?.[0] ?? 0);
    if (e.type === 'hold') {
      nominal.set(e.a, e.volts);
      if (e.greatest < Infinity) lines.push(`.nodeset V(h${k})=${num(e.greatest / 2)}`);
    }
    if (e.type !== 'converter' || !e.on) return;
    nominal.set(e.outA, e.volts - 1);
    lines.push(`.nodeset V(y${k})=${num(e.current / 2)}`);
    if (e.lowInput.type === 'holds')
      lines.push(`.nodeset V(z${k})=${e.demand === null ? num(e.current) : '1'}`);
  });
  for (let grown = true; grown;) {
    grown = false;
    for (const e of elements) {
      if (e.type !== 'resistor' || !(e.ohms < 1)) continue;
      const a = nominal.get(e.a);
      const b = nominal.get(e.b);
      if ((a === undefined) === (b === undefined)) continue;
      nominal.set(a === undefined ? e.a : e.b, a ?? b ?? 0);
      grown = true;
    }
  }
  for (const [node, volts] of nominal) {
    if (node !== reference) lines.push(`.nodeset V(${name(node, reference)})=${num(volts)}`);
  }
  return lines;
}

/** A netlist of the elements that asks for an operating point. */
export function netlist(reference: number, elements: readonly Element[], gain = GAINS[0] ?? 10): string {
  const { lines } = new Netlist(reference, elements, gain);
  lines.push(...guesses(reference, elements));
  lines.push('.options reltol=1e-9 abstol=1e-12 vntol=1e-10 gmin=1e-15 itl1=200 gminsteps=1 srcsteps=1');
  lines.push('.control', 'optran 1 1 1 0 0 0', '.endc', '.op', '.end', '');
  return lines.join('\n');
}

export interface SpiceAnswer extends Answer {
  readonly volts: Float64Array;
}

export class Spice {
  private readonly engine = new Simulation();
  private started = false;

  async start(): Promise<void> {
    if (this.started) return;
    await this.engine.start();
    this.started = true;
  }

  /** Runs a netlist; null when it reported an error. */
  async run(text: string): Promise<Map<string, number[]> | null> {
    await this.start();
    this.engine.setNetList(text);
    const result = await this.engine.runSim();
    // notes and warnings on the way (stepping that failed before another succeeded) are no failure
    const failed = this.engine.getError().some((line) => /error|aborted/i.test(line));
    if (failed || result.dataType !== 'real') return null;
    return new Map(result.data.map(({ name: label, values }) => [label.toLowerCase(), values]));
  }

  /** Why the last run failed. */
  errors(): string[] {
    return this.engine.getError();
  }

  /** Operating point of a circuit, or null when it did not converge (or what it says is no solution). */
  async solve(
    nodeCount: number,
    reference: number,
    elements: readonly Element[],
  ): Promise<SpiceAnswer | null> {
    for (const gain of GAINS) {
      const answer = await this.attempt(nodeCount, reference, elements, gain);
      if (answer !== null) return answer;
    }
    return null;
  }

  private async attempt(
    nodeCount: number,
    reference: number,
    elements: readonly Element[],
    gain: number,
  ): Promise<SpiceAnswer | null> {
    const vectors = await this.run(netlist(reference, elements, gain));
    if (vectors === null) return null;
    const value = (label: string): number => vectors.get(label)?.[0] ?? Number.NaN;
    const volts = new Float64Array(nodeCount);
    for (let n = 0; n < nodeCount; n += 1) {
      const volt = value(`v(n${n})`);
      if (n !== reference && !Number.isNaN(volt)) volts[n] = volt;
    }
    const answer = read(elements, volts, value);
    const miss = Math.max(
      worstMiss(elements, answer).worst,
      imbalance(nodeCount, reference, elements, answer),
    );
    return miss < LARGEST_MISS ? answer : null;
  }
}

/** Currents that belong to ngspice's voltages and auxiliary unknowns. */
function read(
  elements: readonly Element[],
  volts: Float64Array,
  value: (label: string) => number,
): SpiceAnswer {
  const between = (a: number, b: number): number => volts[a] - volts[b];
  const outCurrent = (k: number): number => {
    const e = elements[k];
    return e.type === 'converter' && e.on ? value(`v(y${k})`) : 0;
  };
  const current = (k: number): number => {
    const e = elements[k];
    if (e.type === 'resistor') return between(e.a, e.b) / e.ohms;
    if (e.type === 'hold') return -value(`v(h${k})`);
    return inputCurrent(e, between, outCurrent(k));
  };
  return { volts, current, outCurrent };
}

function inputCurrent(e: Element, between: (a: number, b: number) => number, sent: number): number {
  if (e.type === 'pieces') return at(e.points, e.below, e.above, between(e.a, e.b));
  if (e.type === 'power') {
    const v = between(e.a, e.b);
    return Math.min(e.limit, v > e.knee ? e.watts / v : (v * e.watts) / e.knee ** 2);
  }
  if (e.type !== 'converter') return 0;
  const v = between(e.inA, e.inB);
  if (!e.on) return v / e.idleOhms + e.standbyAmps * Math.min(1, Math.max(0, v));
  const limit = Math.min(e.inputLimit, (e.inputLimit / e.lowest) * v);
  const standby = Math.min(e.standbyAmps, limit);
  if (e.demand === null) {
    return (
      standby +
      (between(e.outA, e.outB) * sent) / at(e.efficiency, 0, 0, sent / e.ratedCurrent) / Math.max(v, 0.05)
    );
  }
  return demandCurrent(e, v, limit, standby, sent);
}

/** Input current of a converter asked for a power: by its rules, or (holding its input) by what it gives. */
function demandCurrent(e: Converter, v: number, limit: number, standby: number, sent: number): number {
  const full = (e.demand ?? 0) / Math.max(v, 0.05) - standby;
  const low = e.lowInput;
  const reduced = low.type === 'reduces' ? Math.min(1, Math.max(0, (v - low.to) / (low.from - low.to))) : 1;
  const share = Math.min(reduced, Math.max(0, limit - standby) / Math.max(full, 1e-6));
  if (low.type === 'holds' && Math.abs(v - low.volts) < 1e-6) return standby + (sent / e.current) * full;
  return standby + (low.type === 'holds' && v < low.volts ? 0 : share) * full;
}

function at(points: readonly (readonly [number, number])[], below: number, above: number, v: number): number {
  const first = points[0] ?? [0, 0];
  const last = points.at(-1) ?? first;
  if (v <= first[0]) return first[1] + below * (v - first[0]);
  for (let i = 1; i < points.length; i += 1) {
    const [x0, y0] = points[i - 1] ?? first;
    const [x1, y1] = points[i] ?? last;
    if (v <= x1) return y0 + ((y1 - y0) * (v - x0)) / (x1 - x0);
  }
  return last[1] + above * (v - last[0]);
}

/** Largest sum of currents at a node, as a share of the largest current. */
export function imbalance(
  nodeCount: number,
  reference: number,
  elements: readonly Element[],
  answer: Answer,
): number {
  const sums = new Float64Array(nodeCount);
  let largest = 1e-3;
  elements.forEach((e, k) => {
    const amps = answer.current(k);
    const [a, b] = e.type === 'converter' ? [e.inA, e.inB] : [e.a, e.b];
    sums[a] -= amps;
    sums[b] += amps;
    largest = Math.max(largest, Math.abs(amps));
    if (e.type !== 'converter') return;
    sums[e.outA] += answer.outCurrent(k);
    sums[e.outB] -= answer.outCurrent(k);
  });
  let worst = 0;
  sums.forEach((sum, n) => {
    if (n !== reference) worst = Math.max(worst, Math.abs(sum) / largest);
  });
  return worst;
}
