/** Real server processes for tests; every one is ended by its own id. */
import { spawn, spawnSync, type ChildProcess, type SpawnOptions } from 'node:child_process';
import { existsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sha256Of } from '../photos/files.ts';
import { openSqlite } from '../store/driver.ts';
import { later } from './store.ts';

const ROOT = fileURLToPath(new URL('../../../..', import.meta.url));

/**
 * Compiles what the processes run. Errors of types elsewhere do not stop it: what was written is there. One test file at a
 * time: the next one finds all done and writes nothing under the processes of the first.
 */
export function compile(): void {
  const lock = openSqlite(join(tmpdir(), `loomwright-compile-${sha256Of(ROOT).slice(0, 16)}`), {
    wait: 300_000,
  });
  try {
    lock.exec('BEGIN EXCLUSIVE');
    spawnSync(process.execPath, [join(ROOT, 'node_modules/typescript/bin/tsc'), '-b', 'packages/cli'], {
      cwd: ROOT,
    });
  } finally {
    lock.close();
  }
  if (!existsSync(join(ROOT, 'packages/server/dist/index.js')))
    throw new Error('the server was not compiled');
}

export interface Child {
  readonly url: string;
  readonly process: ChildProcess;
  /** All that it printed so far. */
  said(): string;
  /** Ends it without warning, and waits until it is gone. */
  kill(): Promise<void>;
  /** Asks it to end; its exit code. */
  stop(): Promise<number | null>;
}

const SERVE = `
  const [main, folder] = process.argv.slice(1);
  const { startServer } = await import(main);
  const running = await startServer({ folder, port: 0, rate: 1e9 });
  console.log('open at ' + running.url);
  process.once('SIGTERM', () => void running.stop());
`;

export interface Limits {
  /** Largest file that the process may write, in units of 512 bytes. */
  readonly fileBlocks?: number;
  readonly spawn?: SpawnOptions;
}

/** Starts a server on a folder, without the request limit of the command. */
export async function startChild(
  folder: string,
  { fileBlocks, spawn: options = {} }: Limits = {},
): Promise<Child> {
  const main = new URL('../../dist/index.js', import.meta.url).href;
  const args = ['--input-type=module', '-e', SERVE, main, folder];
  const limited = ['-c', `ulimit -f ${fileBlocks}; exec "$0" "$@"`, process.execPath, ...args];
  const child =
    fileBlocks === undefined ? spawn(process.execPath, args, options) : spawn('/bin/sh', limited, options);
  return await started(child);
}

/** Runs the command line with these arguments until it says where it is open, or ends. */
export async function startCommand(args: readonly string[], options: SpawnOptions = {}): Promise<Child> {
  return await started(
    spawn(process.execPath, [join(ROOT, 'packages/cli/bin/loomwright.mjs'), ...args], options),
  );
}

async function started(child: ChildProcess): Promise<Child> {
  let text = '';
  const ended = new Promise<number | null>((resolve) => child.once('close', (code) => resolve(code)));
  const url = await new Promise<string>((resolve) => {
    const hear = (chunk: unknown): void => {
      text += String(chunk);
      const found = /open at (http:\S+)/.exec(text)?.[1];
      if (found !== undefined) resolve(found);
    };
    child.stdout?.on('data', hear);
    child.stderr?.on('data', hear);
    void ended.then(() => resolve(''));
  });
  const kill = async (signal: NodeJS.Signals): Promise<number | null> => {
    if (child.exitCode === null && child.signalCode === null) child.kill(signal);
    return await ended;
  };
  later(() => kill('SIGKILL'));
  return {
    url,
    process: child,
    said: () => text,
    kill: async () => void (await kill('SIGKILL')),
    stop: async () => await kill('SIGTERM'),
  };
}

export interface Told {
  readonly status: number;
  // eslint-disable-next-line typescript/no-explicit-any -- answers are looked into freely
  readonly json: any;
}

/** Asks a server over its socket; null when it did not answer (it was ended, or is gone). */
export async function askOver(
  url: string,
  method: string,
  path: string,
  body?: unknown,
): Promise<Told | null> {
  const bytes = body instanceof Uint8Array;
  const content = bytes ? body : JSON.stringify(body);
  try {
    const answer = await fetch(new URL(path, url), {
      method,
      ...(body === undefined ? {} : { body: content as BodyInit }),
      headers: body === undefined ? {} : { 'content-type': bytes ? 'image/png' : 'application/json' },
    });
    const isJson = /json/.test(answer.headers.get('content-type') ?? '');
    return {
      status: answer.status,
      json: isJson ? await answer.json() : Buffer.from(await answer.arrayBuffer()),
    };
  } catch {
    return null;
  }
}
