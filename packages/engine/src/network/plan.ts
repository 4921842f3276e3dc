/** Compiling a circuit and finding its operating points. */
import type { ElementOf } from '../contracts/element.ts';
import { Circuit } from './circuit.ts';
import { below } from './device.ts';
import { fedLoads, JOINS, JOINS_BOTH, LOAD, NOTHING, pairsOf } from './fed.ts';
import { LOADS, Numbers, ON, OPEN } from './numbers.ts';
import type { Point } from './point.ts';
import { CURRENT, CURVED, RESISTOR, voltsOf } from './straight.ts';
import type { Tail } from './tail.ts';

/** Counts of work done, for bounds that do not depend on the machine: nodes visited and points solved. */
export interface Steps {
  nodes: number;
  solves: number;
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
  private readonly numbers: Numbers;
  /** False while a point is being found: if that ends with an error, nothing of it is relied on. */
  private sound = true;
  private last: Setting | null = null;
  private readonly settings = new Map<number, Setting[]>();
  private readonly circuits = new Map<string, Circuit>();

  constructor(nodeCount: number, reference: number, elements: readonly ElementOf<number>[]) {
    this.nodeCount = nodeCount;
    this.reference = reference;
    this.shape = elements.slice();
    this.pairs = pairsOf(elements);
    this.numbers = new Numbers(elements.length);
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
    const changed = this.numbers.look(elements, tail);
    if (!changed && this.last !== null) return this.last;
    const { wide, hash } = this.numbers;
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

  private make(elements: readonly ElementOf<number>[]): Setting {
    const { codes, wide } = this.numbers;
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
    return { codes: wide.slice(), open, circuit: this.circuit(roles), loads, alone };
  }

  solve(elements: readonly ElementOf<number>[], options?: SolveOptions): Point {
    if (elements.length !== this.shape.length)
      throw new RangeError('the circuit has another number of elements');
    if (!this.sound) {
      this.numbers.forget();
      this.last = null;
    }
    this.sound = false;
    const { circuit, loads, open, alone } = this.setting(elements, options?.tail);
    let point = circuit.solve(elements, this.numbers, open, options?.steps);
    if (loads.length > 0 && !(point.settled && onLastPiece(elements, point, loads))) {
      point = this.circuit(alone).solve(elements, this.numbers, open, options?.steps);
    }
    this.sound = true;
    return point;
  }
}

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
