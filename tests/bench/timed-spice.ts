/**
 * ngspice by the clock, in a thread of its own. In the same thread its growing WebAssembly memory would slow every other typed
 * array down, as the engine of the language then has to look whether its buffer is still there.
 */
import { parentPort, Worker } from 'node:worker_threads';
import { drawCircuit } from '../oracles/generate.ts';
import { netlist, Spice } from '../oracles/spice.ts';

const WARM_RUNS = 150;
const WARM_CIRCUIT = { nodes: 60, open: 0.1, piecewise: false, converters: 1, load: 0.6 } as const;

export class TimedSpice {
  readonly #worker = new Worker(new URL(import.meta.url));

  /** Milliseconds that a netlist takes from its text to its answer; null when it does not converge. */
  run(text: string): Promise<number | null> {
    return new Promise((resolve, reject) => {
      const worker = this.#worker;
      const done = (ms: number | null): void => {
        worker.off('error', reject);
        resolve(ms);
      };
      worker.once('message', done);
      worker.once('error', reject);
      // A thread has no origin.
      // oxlint-disable-next-line unicorn/require-post-message-target-origin
      worker.postMessage(text);
    });
  }

  async stop(): Promise<void> {
    await this.#worker.terminate();
  }
}

/** ngspice whose own code, too, runs compiled in full before it is timed. */
export async function warmSpice(): Promise<TimedSpice> {
  const spice = new TimedSpice();
  const { reference, elements } = drawCircuit(1, WARM_CIRCUIT);
  const text = netlist(reference, elements);
  for (let i = 0; i < WARM_RUNS; i += 1) await spice.run(text);
  return spice;
}

async function serve(port: NonNullable<typeof parentPort>): Promise<void> {
  const spice = new Spice();
  await spice.start();
  port.on('message', (text: string) => {
    const begin = performance.now();
    spice.run(text).then(
      (found) => port.postMessage(found === null ? null : performance.now() - begin),
      () => port.postMessage(null),
    );
  });
}

if (parentPort !== null) await serve(parentPort);
