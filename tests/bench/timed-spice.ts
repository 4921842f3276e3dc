/**
 * ngspice by the clock, in a thread of its own. In the same thread its growing WebAssembly memory would slow every other typed
 * array down, as the engine of the language then has to look whether its buffer is still there.
 */
import { parentPort, Worker } from 'node:worker_threads';
import { Spice } from '../oracles/spice.ts';

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
