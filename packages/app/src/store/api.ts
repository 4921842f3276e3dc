/** The store of this machine, asked over HTTP. Nothing is ever asked of another host. */
import { freshId } from './fresh-id.ts';

export interface BuildHead {
  readonly id: string;
  readonly name: string | null;
  readonly title: string;
  readonly head: number;
  readonly faults: number;
  readonly draft: boolean;
  readonly saved: string;
  readonly who: string;
  readonly why: string;
  readonly archived: string | null;
}

export interface Revision {
  readonly number: number;
  readonly title: string;
  readonly who: string;
  readonly why: string;
  readonly saved: string;
  readonly text: string;
}

export type RevisionHead = Omit<Revision, 'text'>;

export interface SavedAnswer {
  readonly build: BuildHead;
  readonly revision: RevisionHead;
}

export interface ShelfItem {
  readonly id: string;
  readonly kind: string;
  readonly name: string;
  readonly head: number;
  readonly data: Readonly<Record<string, unknown>>;
  readonly saved: string;
  readonly who: string;
}

/** A refusal by the store, in plain words (RFC 9457). */
export class Refusal extends Error {
  readonly code: string;
  readonly status: number;
  readonly body: Readonly<Record<string, unknown>>;

  constructor(status: number, body: Readonly<Record<string, unknown>>) {
    super([body['title'], body['detail'], body['todo']].filter((part) => typeof part === 'string').join(' '));
    this.status = status;
    this.code = typeof body['code'] === 'string' ? body['code'] : '';
    this.body = body;
  }
}

/** The store could not be reached at all. */
export class Unreachable extends Error {}

/** A page opened from a file has no store. */
export const hasServer = location.protocol === 'http:' || location.protocol === 'https:';

const PATIENCE = 20_000;

/** Asks the store; a `Blob` goes as it is, everything else as JSON. */
export async function ask<T>(
  method: string,
  path: string,
  body?: unknown,
  type = 'application/json',
  patience = PATIENCE,
): Promise<T> {
  if (!hasServer) throw new Unreachable('There is no store beside this page.');
  const answer = await fetched({ method, path, body, type, patience });
  const json: unknown = await answer.json().catch(() => ({}));
  if (!answer.ok) throw new Refusal(answer.status, json as Record<string, unknown>);
  return json as T;
}

interface Question {
  readonly method: string;
  readonly path: string;
  readonly body: unknown;
  readonly type: string;
  readonly patience: number;
}

async function fetched({ method, path, body, type, patience }: Question): Promise<Response> {
  try {
    return await fetch(new URL(`/api${path}`, location.origin), {
      method,
      signal: AbortSignal.timeout(patience),
      ...(body === undefined
        ? {}
        : { body: body instanceof Blob ? body : JSON.stringify(body), headers: { 'content-type': type } }),
    });
  } catch (error) {
    throw new Unreachable('The store of this machine does not answer.', { cause: error });
  }
}

interface Saving {
  readonly saveId: string;
  readonly text: string;
  readonly who: string;
  readonly why: string;
}

const at = (id: string): string => `/builds/${encodeURIComponent(id)}`;

export const api = {
  /** Builds on the list, or those put away. */
  builds: async (search = '', archived = false) =>
    (
      await ask<{ builds: readonly BuildHead[] }>(
        'GET',
        `/builds?search=${encodeURIComponent(search)}&archived=${archived ? 'yes' : 'no'}`,
      )
    ).builds,
  build: async (id: string) => await ask<{ build: BuildHead; revision: Revision }>('GET', at(id)),
  make: async (id: string, saving: Saving) => await ask<SavedAnswer>('POST', '/builds', { id, ...saving }),
  save: async (id: string, base: number, saving: Saving) =>
    await ask<SavedAnswer>('POST', `${at(id)}/revisions`, { base, ...saving }),
  revisions: async (id: string) =>
    (await ask<{ revisions: readonly RevisionHead[] }>('GET', `${at(id)}/revisions`)).revisions,
  revision: async (id: string, number: number) =>
    (await ask<{ revision: Revision }>('GET', `${at(id)}/revisions/${number}`)).revision,
  order: async (id: string) => (await ask<{ order: unknown }>('GET', `${at(id)}/drawing-order`)).order,
  keepOrder: async (id: string, order: object) =>
    await ask<{ kept: true }>('PUT', `${at(id)}/drawing-order`, { order }),
  copy: async (id: string, name: string, who: string) =>
    await ask<SavedAnswer>('POST', `${at(id)}/copy`, {
      saveId: freshId(),
      name,
      who,
      why: 'A copy of an earlier job.',
    }),
  archive: async (id: string, archived: boolean, who: string) =>
    await ask<{ build: BuildHead }>('PATCH', at(id), { archived, who }),
  shelf: async (kind?: string) =>
    (await ask<{ items: readonly ShelfItem[] }>('GET', kind === undefined ? '/shelf' : `/shelf?kind=${kind}`))
      .items,
  putOnShelf: async (kind: string, name: string, data: object, who: string) =>
    await ask<{ item: ShelfItem }>('POST', '/shelf', { saveId: freshId(), kind, name, data, who }),
  offShelf: async (id: string) => await ask<{ item: ShelfItem }>('PATCH', `/shelf/${id}`, { archived: true }),
};
