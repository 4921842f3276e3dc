/** `LOOPS=plain`: circuits are solved by TypeScript alone, as where WebAssembly is refused. */
import { plainMachine, solveBy } from '../packages/engine/src/network/machine.ts';

solveBy(plainMachine);
