/** What went wrong, in plain words: the members of an RFC 9457 problem detail. */

/** Stable short names of problems, for programs. */
export type ProblemCode =
  | 'already-served'
  | 'archive-refused'
  | 'bad-request'
  | 'busy'
  | 'cross-site'
  | 'disk-fault'
  | 'disk-full'
  | 'exists'
  | 'failed'
  | 'folder-refused'
  | 'id-taken'
  | 'method-not-allowed'
  | 'newer-store'
  | 'not-a-build'
  | 'not-a-photo'
  | 'not-found'
  | 'read-only'
  | 'save-id-reused'
  | 'stale-revision'
  | 'store-damaged'
  | 'too-deep'
  | 'too-large'
  | 'too-many-requests'
  | 'wrong-host'
  | 'wrong-type';

export interface ProblemWords {
  readonly code: ProblemCode;
  /** HTTP status. */
  readonly status: number;
  /** What, the same for every occurrence. */
  readonly title: string;
  /** What and where, of this occurrence. */
  readonly detail: string;
  /** What the person can do; empty when there is nothing. */
  readonly todo: string;
  /** Further members of the answer. */
  readonly members?: Readonly<Record<string, unknown>>;
}

/** A refusal or a fault that is told to a person; everything else that is thrown is a fault of the program. */
export class Problem extends Error {
  readonly words: ProblemWords;

  constructor(words: ProblemWords, cause?: unknown) {
    super(`${words.title} ${words.detail} ${words.todo}`.trim(), cause === undefined ? {} : { cause });
    this.name = 'Problem';
    this.words = words;
  }
}

/** The document that is sent (`application/problem+json`, RFC 9457 section 3). */
export function problemBody({ code, status, title, detail, todo, members }: ProblemWords): object {
  return { ...members, type: `urn:loomwright:problem:${code}`, title, status, detail, todo, code };
}

export const notFound = (what: string): Problem =>
  new Problem({
    code: 'not-found',
    status: 404,
    title: 'Not found.',
    detail: `There is no ${what} here.`,
    todo: 'Look it up in the list again; it may belong to another data folder.',
  });
