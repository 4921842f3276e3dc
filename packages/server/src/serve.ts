/** A running server on this machine's own addresses. */
import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { FastifyInstance } from 'fastify';
import { createApp, type AppOptions } from './http/app.ts';
import { Problem } from './problem.ts';
import { openStore, type StoreOptions } from './store/open.ts';

/**
 * Always the same port: what a browser keeps until it can be saved belongs to the address with its port, and would not be
 * shown under another. A port without a registered service (IANA).
 */
export const PORT = 4817;

const HERE = fileURLToPath(new URL('..', import.meta.url));

/** Where the built app lies in this project. */
export const APP_FOLDER: string = join(HERE, '..', 'app', 'dist');

export function version(): string {
  return (JSON.parse(readFileSync(join(HERE, 'package.json'), 'utf8')) as { readonly version: string })
    .version;
}

export interface ServeOptions extends Omit<AppOptions, 'appFolder' | 'canonical' | 'version'> {
  readonly folder: string;
  /** Folder of the built app; by default the one of this project. */
  readonly appFolder?: string | null;
  /** 0: any free one, for tests. */
  readonly port?: number;
  readonly store?: StoreOptions;
}

export interface Running {
  readonly url: string;
  readonly folder: string;
  /** Lets running requests end, closes the store, gives the folder free. */
  stop(): Promise<void>;
}

/** Opens the store and serves it on 127.0.0.1 and, where there is one, on ::1. Throws problems in plain words. */
export async function startServer(options: ServeOptions): Promise<Running> {
  const store = await openStore(options.folder, options.store);
  try {
    const app = await createApp(store, {
      appFolder: APP_FOLDER,
      ...options,
      version: version(),
      canonical: '127.0.0.1',
    });
    let secondEnded = Promise.resolve();
    // Runs when the last request is answered; on the second server they may take longer.
    app.addHook('onClose', async () => {
      await secondEnded;
      await store.close();
    });
    const port = await listen(app, options.port ?? PORT);
    const second = await listenToo(app, port);
    const stop = once(async () => {
      secondEnded = closed(second);
      await app.close();
    });
    return { url: `http://127.0.0.1:${port}/`, folder: options.folder, stop };
  } catch (error) {
    await store.close();
    throw error;
  }
}

async function listen(app: FastifyInstance, port: number): Promise<number> {
  try {
    await app.listen({ host: '127.0.0.1', port });
  } catch (error) {
    throw (error as { code?: string }).code === 'EADDRINUSE' ? portTaken(port, error) : error;
  }
  const [address] = app.addresses();
  return typeof address === 'object' ? address.port : port;
}

/** The same on IPv6, for browsers that try it first; machines without it do without. */
async function listenToo(app: FastifyInstance, port: number): Promise<Server | null> {
  const server = createServer({ requestTimeout: 300_000 }, (request, response) =>
    app.routing(request, response),
  );
  return await new Promise((resolve) => {
    server.once('error', () => resolve(null));
    server.listen({ host: '::1', port, ipv6Only: true }, () => resolve(server));
  });
}

async function closed(server: Server | null): Promise<void> {
  if (server === null) return;
  await new Promise<void>((resolve) => {
    server.close(() => resolve());
    server.closeIdleConnections();
  });
}

function once(deed: () => Promise<void>): () => Promise<void> {
  let doing: Promise<void> | null = null;
  return async () => await (doing ??= deed());
}

const portTaken = (port: number, cause: unknown): Problem =>
  new Problem(
    {
      code: 'already-served',
      status: 503,
      title: 'The port is taken.',
      detail: `Another program listens on port ${port} of this machine.`,
      todo: `If it is Loomwright, open http://127.0.0.1:${port}/. If not, choose another port with --port, and keep to it: a browser shows unsaved changes only under the port they were made with.`,
    },
    cause,
  );
