/** Stores and servers for tests, in folders that go away. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { afterEach } from 'vitest';
import { createApp, type AppOptions } from '../http/app.ts';
import { openStore, type Store, type StoreOptions } from '../store/open.ts';

const undo: (() => unknown)[] = [];

afterEach(async () => {
  for (const step of undo.splice(0).toReversed()) await step();
});

/** An empty folder that is removed after the test. */
export function freshFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'loomwright-test-'));
  undo.push(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Runs at the end of the test, in the reverse order. */
export function later(step: () => unknown): void {
  undo.push(step);
}

export async function freshStore(options: StoreOptions = {}, folder = freshFolder()): Promise<Store> {
  const store = await openStore(folder, options);
  undo.push(() => store.close());
  return store;
}

/** A server without a socket over a new store. */
export async function freshApp(
  options: Partial<AppOptions> & { readonly store?: StoreOptions } = {},
): Promise<{ app: FastifyInstance; store: Store; ask: Ask }> {
  const store = await freshStore(options.store);
  const app = await createApp(store, { appFolder: null, version: '0.0.0', rate: 100_000, ...options });
  undo.push(() => app.close());
  return { app, store, ask: asker(app) };
}

export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly bytes: Buffer;
  readonly text: string;
  // eslint-disable-next-line typescript/no-explicit-any -- answers are looked into freely, and compared
  readonly json: any;
}

type Method = 'DELETE' | 'GET' | 'HEAD' | 'PATCH' | 'POST' | 'PUT';
export type Ask = (
  method: Method,
  url: string,
  body?: unknown,
  headers?: Readonly<Record<string, string>>,
) => Promise<Answer>;

function asker(app: FastifyInstance): Ask {
  return async (method, url, body, headers = {}) => {
    const bytes = Buffer.isBuffer(body) || typeof body === 'string';
    const payload = body === undefined ? {} : { payload: bytes ? body : JSON.stringify(body) };
    const type = body === undefined ? {} : { 'content-type': 'application/json' };
    const answer = await app.inject({
      method,
      url,
      ...payload,
      headers: { host: '127.0.0.1:4817', ...type, ...headers },
    });
    const isJson = /json/.test(String(answer.headers['content-type']));
    return {
      status: answer.statusCode,
      headers: answer.headers,
      bytes: answer.rawPayload,
      text: answer.payload,
      json: isJson ? (JSON.parse(answer.payload) as unknown) : null,
    };
  };
}

/** A small build document. */
export const buildText = (title = 'Job 1', note = ''): string =>
  `loomwright: 1\ntitle: ${title}\npractice: europe\nsystems: { vehicle: 12 V }\n${note === '' ? '' : `notes: ${note}\n`}`;

let counter = 0;
export const nextSaveId = (): string => `save-${String((counter += 1)).padStart(8, '0')}`;

/** A PNG of one element; `shade` makes it another photo. */
export function pngOf(shade: number, width = 1, height = 1): Buffer {
  const head = Buffer.alloc(33);
  head.write('\x89PNG\r\n\x1a\n', 0, 'latin1');
  head.writeUInt32BE(13, 8);
  head.write('IHDR', 12, 'latin1');
  head.writeUInt32BE(width, 16);
  head.writeUInt32BE(height, 20);
  return Buffer.concat([head, Buffer.from([shade])]);
}
