/** Compiling a circuit and finding its operating points. */
import type { ElementOf } from '../contracts/element.ts';
import { Circuit } from './circuit.ts';
import { below } from './device.ts';
import { fedLoads } from './fed.ts';
import type { Point } from './point.ts';
import { isLoad, loadRole, RESISTOR, roleOf, voltsOf } from './straight.ts';

/** Counts of work done, for bounds that do not depend on the machine: nodes visited and points solved. */
export interface Steps {
  nodes: number;
  solves: number;
}

/** Resistances (ohms) that stand in place of those of the elements from `from` on, which all are resistors. */
export interface Tail {
  readonly from: number;
  readonly ohms: Float64Array;
}

export interface SolveOptions {
  /** Counters to add to. */
  readonly steps?: Steps;
  readonly tail?: Tail;
}

export interface Plan {
  readonly nodeCount: number;
  readonly reference: number;
  /**
   * Operating point for elements of the same shape (types and nodes) with any numbers.
   *
   * Starts from no load every time, so the same elements give the same bytes whatever was solved before.
   *
   * @throws RangeError when a number is outside what the element allows, or the shape differs
   */
  solve(elements: readonly ElementOf<number>[], options?: SolveOptions): Point;
}

/** What one setting of contacts and roles is solved by. */
interface Setting {
  /** Of each element: what decides the setting. */
  readonly codes: Uint8Array;
  /** 1 for each open contact. */
  readonly open: Uint8Array;
  readonly roles: Uint8Array;
  readonly circuit: Circuit;
  /** Loads that the circuit takes for known currents. */
  readonly loads: readonly number[];
}

class CompiledPlan implements Plan {
  readonly nodeCount: number;
  readonly reference: number;
  private readonly shape: readonly ElementOf<number>[];
  private readonly codes: Uint8Array;
  /** The elements that the codes were read from: an element that is still the same is not read again. */
  private readonly seen: (ElementOf<number> | null)[];
  private last: Setting | null = null;
  private readonly settings = new Map<number, Setting[]>();
  private readonly circuits = new Map<string, Circuit>();

  constructor(nodeCount: number, reference: number, elements: readonly ElementOf<number>[]) {
    this.nodeCount = nodeCount;
    this.reference = reference;
    this.shape = elements.slice();
    this.codes = new Uint8Array(elements.length);
    this.seen = elements.map(() => null);
  }

  /** The compiled circuit for these roles: which elements are straight lines decides what is a port. */
  private circuit(roles: Uint8Array): Circuit {
    const key = roles.join('');
    let circuit = this.circuits.get(key);
    if (circuit === undefined) {
      circuit = new Circuit(this.nodeCount, this.reference, this.shape, roles);
      this.circuits.set(key, circuit);
    }
    return circuit;
  }

  private setting(elements: readonly ElementOf<number>[], tail: Tail | undefined): Setting {
    const changed = this.read(elements, tail);
    if (!changed && this.last !== null) return this.last;
    this.last = null;
    const { codes } = this;
    let hash = 0;
    for (let e = 0; e < codes.length; e += 1) hash = (Math.imul(hash, 31) + codes[e]!) | 0;
    let alike = this.settings.get(hash);
    if (alike === undefined) {
      alike = [];
      this.settings.set(hash, alike);
    }
    let setting = alike.find((known) => same(known.codes, codes));
    if (setting === undefined) {
      setting = this.make(elements);
      alike.push(setting);
    }
    this.last = setting;
    return setting;
  }

  /** Reads the codes; true when one is another than it was. */
  private read(elements: readonly ElementOf<number>[], tail: Tail | undefined): boolean {
    const { codes, seen } = this;
    const from = tail === undefined ? codes.length : tail.from;
    let changed = false;
    for (let e = 0; e < from; e += 1) {
      const element = elements[e]!;
      if (seen[e] === element) continue;
      seen[e] = element;
      const code = codeOf(element);
      if (code === codes[e]) continue;
      codes[e] = code;
      changed = true;
    }
    for (let e = from; e < codes.length; e += 1) {
      const code = tail!.ohms[e - from] === Infinity ? OPEN : RESISTOR;
      seen[e] = null;
      if (code === codes[e]) continue;
      codes[e] = code;
      changed = true;
    }
    return changed;
  }

  private make(elements: readonly ElementOf<number>[]): Setting {
    const roles = Uint8Array.from(elements, roleOf);
    const loads: number[] = [];
    if (elements.some(isLoad)) {
      const fed = fedLoads(this.nodeCount, elements, (e) => this.codes[e] === OPEN);
      elements.forEach((element, e) => {
        if (fed[e] !== 1) return;
        roles[e] = loadRole(element);
        loads.push(e);
      });
    }
    return {
      codes: this.codes.slice(),
      open: this.codes.map((code) => (code === OPEN ? 1 : 0)),
      roles,
      circuit: this.circuit(roles),
      loads,
    };
  }

  solve(elements: readonly ElementOf<number>[], options?: SolveOptions): Point {
    if (elements.length !== this.shape.length)
      throw new RangeError('the circuit has another number of elements');
    const tail = options?.tail;
    const steps = options?.steps;
    const { circuit, loads, open } = this.setting(elements, tail);
    const point = circuit.solve(elements, tail, open, steps);
    if (loads.length === 0 || (point.settled && onLastPiece(elements, point, loads))) return point;
    return this.circuit(Uint8Array.from(elements, roleOf)).solve(elements, tail, open, steps);
  }
}

/** What of an element's numbers decides which circuit solves it: its role, and whether it joins its nodes. */
function codeOf(element: ElementOf<number>): number {
  switch (element.type) {
    case 'resistor':
      return element.ohms === Infinity ? OPEN : RESISTOR;
    case 'converter':
      return element.on ? ON : roleOf(element);
    case 'pieces':
      return isLoad(element) ? LOAD + loadRole(element) : roleOf(element);
    default:
      return roleOf(element);
  }
}

const OPEN = 8;
const ON = 9;
const LOAD = 16;

function same(a: Uint8Array, b: Uint8Array): boolean {
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return false;
  return true;
}

/** True when every load that was taken for a known current stands where it draws that current. */
function onLastPiece(
  elements: readonly ElementOf<number>[],
  point: Point,
  loads: readonly number[],
): boolean {
  return !loads.some((e) => below(point.drop(e), voltsOf(elements[e]!)));
}

/**
 * Prepares a circuit for solving: orders the elimination once for its nodes and element types.
 *
 * @param nodeCount number of nodes, numbered from 0
 * @param reference the node that stands at 0 V
 * @param elements the elements; only their types and nodes matter here
 * @throws RangeError for a node number out of range
 */
export function planCircuit(
  nodeCount: number,
  reference: number,
  elements: readonly ElementOf<number>[],
): Plan {
  if (!(reference >= 0 && reference < nodeCount)) throw new RangeError('the reference is not a node');
  return new CompiledPlan(nodeCount, reference, elements);
}
