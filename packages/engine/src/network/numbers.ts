/** The numbers of a circuit's elements, read again only where an element is another than it was. */
import type { ElementOf } from '../contracts/element.ts';
import { ampsOf, isLoad, loadRole, RESISTOR, roleOf, siemensOf, voltsOf } from './straight.ts';
import { noResistance, type Tail } from './tail.ts';

// Codes beside the roles of `roleOf`: an open contact, a converter that is on, a load (and its role on its last piece).
export const OPEN = 8;
export const ON = 9;
export const LOADS = 16;

/** An odd number whose multiples look like chance. */
const SPREAD = 0x9e3779b1;

export class Numbers {
  /** Of each element: what of its numbers decides which circuit solves it. */
  readonly codes: Uint8Array;
  /** The codes four at a time. */
  readonly wide: Int32Array;
  /** What equal codes have in common. */
  hash = 0;
  /** How often an element before the tail was another than before. */
  changes = 0;
  /** Of resistors and straight lines: conductance, siemens; volts and amperes where the line begins. */
  readonly siemens: Float64Array;
  readonly volts: Float64Array;
  readonly amps: Float64Array;
  private readonly seen: (ElementOf<number> | null)[];
  /** The tail when it was looked at last. */
  private tail: Tail | null = null;
  private codesChanged = false;

  constructor(size: number) {
    const room = new ArrayBuffer(4 * Math.ceil(size / 4));
    this.codes = new Uint8Array(room, 0, size);
    this.wide = new Int32Array(room);
    this.siemens = new Float64Array(size);
    this.volts = new Float64Array(size);
    this.amps = new Float64Array(size);
    this.seen = Array.from({ length: size }, () => null);
  }

  /**
   * Looks at all elements; those of the tail are resistors. True when a code is another than it was.
   *
   * @throws RangeError for a resistance that is none; the next look is then to begin with `forget`
   */
  look(elements: readonly ElementOf<number>[], tail: Tail | undefined): boolean {
    const { seen } = this;
    const from = tail === undefined ? seen.length : tail.from;
    this.codesChanged = false;
    for (let e = 0; e < from; e += 1) {
      const element = elements[e]!;
      if (seen[e] === element) continue;
      this.read(e, element);
      seen[e] = element;
      this.changes += 1;
    }
    if (tail !== undefined && tail !== this.tail) this.lookAtTail(tail);
    this.tail = tail ?? null;
    return this.codesChanged;
  }

  /** Reads every element at the next look. */
  forget(): void {
    this.seen.fill(null);
    this.tail = null;
  }

  private read(e: number, element: ElementOf<number>): void {
    if (element.type === 'resistor') {
      const { ohms } = element;
      if (!(ohms > 0)) noResistance(ohms, e);
      this.siemens[e] = 1 / ohms;
    } else {
      this.siemens[e] = siemensOf(element);
      this.volts[e] = voltsOf(element);
      this.amps[e] = ampsOf(element);
    }
    this.code(e, codeOf(element));
  }

  private lookAtTail(tail: Tail): void {
    const { seen, siemens, tail: before } = this;
    if (tail.from + tail.siemens.length !== seen.length)
      throw new RangeError('the tail does not end where the circuit does');
    siemens.set(tail.siemens, tail.from);
    if (before !== null && before.from === tail.from && !before.opens && !tail.opens) return;
    for (let e = tail.from; e < seen.length; e += 1) {
      seen[e] = null;
      this.code(e, siemens[e] === 0 ? OPEN : RESISTOR);
    }
  }

  private code(e: number, code: number): void {
    const { codes } = this;
    if (code === codes[e]) return;
    this.hash = (this.hash + Math.imul(code - codes[e]!, Math.imul(e + 1, SPREAD))) | 0;
    codes[e] = code;
    this.codesChanged = true;
  }
}

function codeOf(element: ElementOf<number>): number {
  switch (element.type) {
    case 'resistor':
      return element.ohms === Infinity ? OPEN : RESISTOR;
    case 'converter':
      return element.on ? ON : roleOf(element);
    case 'pieces':
      return isLoad(element) ? LOADS + loadRole(element) : roleOf(element);
    default:
      return roleOf(element);
  }
}
