/** Compiling a circuit and finding its operating points. */
import type { ElementOf } from '../contracts/element.ts';
import { Circuit } from './circuit.ts';
import type { Point } from './point.ts';
import { roleOf } from './straight.ts';

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
  /** Elements whose role depends on their numbers. */
  private readonly varying: number[] = [];
  private readonly circuits = new Map<string, Circuit>();
  private latest: Circuit | null = null;

  constructor(nodeCount: number, reference: number, elements: readonly ElementOf<number>[]) {
    this.nodeCount = nodeCount;
    this.reference = reference;
    this.shape = elements.slice();
    elements.forEach((element, e) => {
      if (element.type !== 'resistor') this.varying.push(e);
    });
  }

  /** The compiled circuit for these numbers: which elements are straight lines decides what is a port. */
  private circuitFor(elements: readonly ElementOf<number>[]): Circuit {
    const { latest, varying } = this;
    if (latest !== null) {
      let same = true;
      for (let i = 0; same && i < varying.length; i += 1) {
        const e = varying[i]!;
        same = roleOf(elements[e]!) === latest.roles[e];
      }
      if (same) return latest;
    }
    let key = '';
    for (const e of varying) key += roleOf(elements[e]!);
    let circuit = this.circuits.get(key);
    if (circuit === undefined) {
      circuit = new Circuit(this.nodeCount, this.reference, this.shape, Uint8Array.from(elements, roleOf));
      this.circuits.set(key, circuit);
    }
    this.latest = circuit;
    return circuit;
  }

  solve(elements: readonly ElementOf<number>[], options?: SolveOptions): Point {
    if (elements.length !== this.shape.length)
      throw new RangeError('the circuit has another number of elements');
    return this.circuitFor(elements).solve(elements, options?.steps);
  }
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
