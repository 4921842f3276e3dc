/** What solves circuits here: the WebAssembly module where there is one and the circuit fits its memory, else TypeScript. */
import { compiledMachine } from './compiled.ts';
import { plainLoops, type Loops } from './loops.ts';
import { Store, type Layout, type Lease } from './store.ts';

export interface Machine {
  readonly loops: Loops;
  /** True where a circuit is small enough for it. */
  holds(layout: Layout): boolean;
  /** A cleared place for a circuit's numbers. */
  place(layout: Layout): Store;
}

/** Arrays of the circuit's own, freed with it. */
const ALWAYS: Lease = { live: true };

/** The loops in TypeScript: the same bytes, more slowly. */
export const plainMachine: Machine = {
  loops: plainLoops,
  holds: () => true,
  place: (layout) => new Store(layout, new ArrayBuffer(layout.bytes), 0, ALWAYS),
};

/** Null until a circuit asks for the first time. */
let chosen: Machine | null = null;

/** What a new circuit is solved by. */
export function machineFor(layout: Layout): Machine {
  chosen ??= compiledMachine() ?? plainMachine;
  return chosen.holds(layout) ? chosen : plainMachine;
}

/** For tests: what new circuits are solved by from now on; null: what there is. */
export function solveBy(machine: Machine | null): void {
  chosen = machine;
}
