/** Compiling a circuit and finding its operating points. */
import type { ElementOf } from '../contracts/element.ts';
import { Circuit } from './circuit.ts';
import { below } from './device.ts';
import { fedLoads, openKey } from './fed.ts';
import type { Point } from './point.ts';
import { CURVED, isLoad, loadRole, roleOf, voltsOf } from './straight.ts';

/** Counts of work done, for bounds that do not depend on the machine: nodes visited and points solved. */
export interface Steps {
  nodes: number;
  solves: number;
}

export interface SolveOptions {
  /** Counters to add to. */
  readonly steps?: Steps;
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

class CompiledPlan implements Plan {
  readonly nodeCount: number;
  readonly reference: number;
  private readonly shape: readonly ElementOf<number>[];
  private readonly resistors: number[] = [];
  /** Elements whose role depends on their numbers. */
  private readonly varying: number[] = [];
  private readonly roles: Uint8Array;
  private readonly circuits = new Map<string, Circuit>();
  /** Loads that have a way round, by open contacts and roles. */
  private readonly fed = new Map<string, Uint8Array>();

  constructor(nodeCount: number, reference: number, elements: readonly ElementOf<number>[]) {
    this.nodeCount = nodeCount;
    this.reference = reference;
    this.shape = elements.slice();
    this.roles = new Uint8Array(elements.length);
    elements.forEach((element, e) => {
      (element.type === 'resistor' ? this.resistors : this.varying).push(e);
    });
  }

  /** The compiled circuit for the present roles: which elements are straight lines decides what is a port. */
  private circuit(): Circuit {
    const { varying, roles } = this;
    let key = '';
    for (const e of varying) key += roles[e];
    let circuit = this.circuits.get(key);
    if (circuit === undefined) {
      circuit = new Circuit(this.nodeCount, this.reference, this.shape, roles.slice());
      this.circuits.set(key, circuit);
    }
    return circuit;
  }

  /** Roles of the elements as they are; true when there is a load among them that may be taken for a known current. */
  private readRoles(elements: readonly ElementOf<number>[]): boolean {
    const { varying, roles } = this;
    let loads = false;
    for (const e of varying) {
      const element = elements[e]!;
      roles[e] = roleOf(element);
      if (roles[e] === CURVED && isLoad(element)) loads = true;
    }
    return loads;
  }

  /** Takes the loads that have a way round for known currents. */
  private takeLoads(elements: readonly ElementOf<number>[]): void {
    const { varying, roles } = this;
    let key = openKey(elements, this.resistors);
    for (const e of varying) key += standing(elements[e]!, roles[e]!);
    let fed = this.fed.get(key);
    if (fed === undefined) {
      fed = fedLoads(this.nodeCount, elements);
      this.fed.set(key, fed);
    }
    for (const e of varying) if (fed[e] === 1) roles[e] = loadRole(elements[e]!);
  }

  solve(elements: readonly ElementOf<number>[], options?: SolveOptions): Point {
    if (elements.length !== this.shape.length)
      throw new RangeError('the circuit has another number of elements');
    if (this.readRoles(elements)) {
      this.takeLoads(elements);
      const point = this.circuit().solve(elements, options?.steps);
      if (point.settled && onLastPiece(elements, point, this.roles)) return point;
      this.readRoles(elements);
    }
    return this.circuit().solve(elements, options?.steps);
  }
}

/** What decides whether a load has a way round, beside the open contacts. */
function standing(element: ElementOf<number>, role: number): string {
  if (element.type === 'converter') return element.on ? 'c' : 'o';
  return isLoad(element) ? 'l' : String(role);
}

/** True when every load that was taken for a known current stands where it draws that current. */
function onLastPiece(elements: readonly ElementOf<number>[], point: Point, roles: Uint8Array): boolean {
  for (let e = 0; e < elements.length; e += 1) {
    const element = elements[e]!;
    if (roles[e] === CURVED || !isLoad(element)) continue;
    if (below(point.drop(e), voltsOf(element))) return false;
  }
  return true;
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
