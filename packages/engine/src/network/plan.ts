/** Compiling a circuit and finding its operating points. */
import type { ElementOf } from '../contracts/element.ts';
import { Changes } from './changes.ts';
import { Circuit } from './circuit.ts';
import { below } from './device.ts';
import { fedLoads, JOINS, JOINS_BOTH, LOAD, NOTHING, pairsOf } from './fed.ts';
import type { Point } from './point.ts';
import { CURRENT, CURVED, isLoad, loadRole, RESISTOR, roleOf, voltsOf } from './straight.ts';

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
  /** Of each element, four at a time: what decides the setting. */
  readonly codes: Int32Array;
  /** 1 for each open contact. */
  readonly open: Uint8Array;
  readonly circuit: Circuit;
  /** Loads that the circuit takes for known currents. */
  readonly loads: readonly number[];
  /** Roles of the elements where no load is taken for a known current. */
  readonly alone: Uint8Array;
}

class CompiledPlan implements Plan {
  readonly nodeCount: number;
  readonly reference: number;
  private readonly shape: readonly ElementOf<number>[];
  /** Node pairs of the elements. */
  private readonly pairs: Int32Array;
  private readonly codes: Uint8Array;
  /** The codes four at a time, and a number that equal codes have in common. */
  private readonly wide: Int32Array;
  private hash = 0;
  private readonly changes: Changes;
  /** False while a point is being found: if that ends with an error, nothing of it is relied on. */
  private sound = true;
  private last: Setting | null = null;
  /** The circuit that has the numbers of the elements looked at last; null: none. */
  private current: Circuit | null = null;
  private readonly settings = new Map<number, Setting[]>();
  private readonly circuits = new Map<string, Circuit>();

  constructor(nodeCount: number, reference: number, elements: readonly ElementOf<number>[]) {
    this.nodeCount = nodeCount;
    this.reference = reference;
    this.shape = elements.slice();
    this.pairs = pairsOf(elements);
    const room = new ArrayBuffer(4 * Math.ceil(elements.length / 4));
    this.codes = new Uint8Array(room, 0, elements.length);
    this.wide = new Int32Array(room);
    this.changes = new Changes(elements.length);
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
    this.changes.look(elements, tail);
    const changed = this.read(elements, tail);
    if (!changed && this.last !== null) return this.last;
    this.last = null;
    const { wide, hash } = this;
    let alike = this.settings.get(hash);
    if (alike === undefined) {
      alike = [];
      this.settings.set(hash, alike);
    }
    let setting = alike.find((known) => same(known.codes, wide));
    if (setting === undefined) {
      setting = this.make(elements);
      alike.push(setting);
    }
    this.last = setting;
    return setting;
  }

  /** Reads the codes; true when one is another than it was. */
  private read(elements: readonly ElementOf<number>[], tail: Tail | undefined): boolean {
    const { codes } = this;
    const { list, count } = this.changes;
    let changed = false;
    for (let c = 0; c < count; c += 1) {
      const e = list[c]!;
      const code = codeOf(elements[e]!);
      if (code === codes[e]) continue;
      this.code(e, code);
      changed = true;
    }
    if (tail === undefined || !this.changes.tail) return changed;
    for (let e = tail.from; e < codes.length; e += 1) {
      const code = tail.ohms[e - tail.from] === Infinity ? OPEN : RESISTOR;
      if (code === codes[e]) continue;
      this.code(e, code);
      changed = true;
    }
    return changed;
  }

  private code(e: number, code: number): void {
    this.hash = (this.hash + Math.imul(code - this.codes[e]!, Math.imul(e + 1, SPREAD))) | 0;
    this.codes[e] = code;
  }

  private make(elements: readonly ElementOf<number>[]): Setting {
    const { codes } = this;
    const open = new Uint8Array(codes.length);
    const sorts = new Uint8Array(codes.length);
    const roles = new Uint8Array(codes.length);
    for (let e = 0; e < codes.length; e += 1) {
      const code = codes[e]!;
      const converter = elements[e]!.type === 'converter';
      open[e] = code === OPEN ? 1 : 0;
      roles[e] = code === OPEN ? RESISTOR : code === ON || code >= LOADS ? CURVED : code;
      if (code >= LOADS) sorts[e] = LOAD;
      else if (code === ON) sorts[e] = JOINS_BOTH;
      else sorts[e] = code === OPEN || (code === CURRENT && !converter) ? NOTHING : JOINS;
    }
    const alone = roles.slice();
    const loads = fedLoads(this.nodeCount, this.pairs, sorts);
    for (const e of loads) roles[e] = codes[e]! - LOADS;
    return { codes: this.wide.slice(), open, circuit: this.circuit(roles), loads, alone };
  }

  solve(elements: readonly ElementOf<number>[], options?: SolveOptions): Point {
    if (elements.length !== this.shape.length)
      throw new RangeError('the circuit has another number of elements');
    if (!this.sound) {
      this.changes.forget();
      this.current = null;
      this.last = null;
    }
    this.sound = false;
    const { circuit, loads, open, alone } = this.setting(elements, options?.tail);
    let point = this.solveBy(circuit, elements, open, options);
    if (loads.length > 0 && !(point.settled && onLastPiece(elements, point, loads))) {
      point = this.solveBy(this.circuit(alone), elements, open, options);
    }
    this.sound = true;
    return point;
  }

  private solveBy(
    circuit: Circuit,
    elements: readonly ElementOf<number>[],
    open: Uint8Array,
    options: SolveOptions | undefined,
  ): Point {
    circuit.read(elements, options?.tail, this.current === circuit ? this.changes : null);
    this.current = circuit;
    return circuit.solve(elements, open, options?.steps);
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
      return isLoad(element) ? LOADS + loadRole(element) : roleOf(element);
    default:
      return roleOf(element);
  }
}

/** An odd number whose multiples look like chance. */
const SPREAD = 0x9e3779b1;
const OPEN = 8;
const ON = 9;
const LOADS = 16;

function same(a: Int32Array, b: Int32Array): boolean {
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
