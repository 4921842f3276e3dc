/** The real server, in a process of its own, so that it can be killed. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root } from './build.ts';

export class Server {
  readonly folder = mkdtempSync(join(tmpdir(), 'loomwright-e2e-'));
  #process: ChildProcess | null = null;
  #port = 0;

  get url(): string {
    return `http://127.0.0.1:${this.#port}/`;
  }

  async start(): Promise<void> {
    if (this.#port === 0) this.#port = await freePort();
    const child = spawn(
      process.execPath,
      [join(root, 'e2e/support/serve.mjs'), this.folder, String(this.#port)],
      {
        stdio: ['ignore', 'pipe', 'inherit'],
      },
    );
    this.#process = child;
    await once(child.stdout, 'data');
  }

  /** Without warning, as a power cut would. */
  async kill(): Promise<void> {
    const child = this.#process;
    if (child === null) return;
    const gone = once(child, 'exit');
    child.kill('SIGKILL');
    await gone;
    this.#process = null;
  }

  async end(): Promise<void> {
    await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }

  async get<T>(path: string): Promise<T> {
    const answer = await fetch(new URL(path, this.url));
    return (await answer.json()) as T;
  }
}

async function freePort(): Promise<number> {
  const probe = createServer();
  probe.listen(0, '127.0.0.1');
  await once(probe, 'listening');
  const address = probe.address();
  probe.close();
  await once(probe, 'close');
  return typeof address === 'object' && address !== null ? address.port : 0;
}
