/** What the store needs to know of a build's text. It judges nothing. */
import { openSession } from '@loomwright/engine';

export interface Fault {
  readonly severity: 'error' | 'warning' | 'info';
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

export interface Described {
  /** Whether the text means to be a build: it has the line `loomwright: 1`. */
  readonly isBuild: boolean;
  /** As the document says; null when that cannot be read. */
  readonly title: string | null;
  /** Errors; 0: a build, else a draft. */
  readonly errors: number;
  readonly diagnostics: Fault[];
}

/** Largest text of a build, in bytes of UTF-8; the reader refuses more. */
export const MOST_TEXT = 1024 * 1024;
/** Longest title that is kept beside the text. */
const MOST_TITLE = 200;
const MOST_DIAGNOSTICS = 200;

const FIRST_LINE = /^loomwright[ \t]*:/m;

/** Reads a build's text (or the bytes of a file) for its title and its faults. Never throws. */
export function describe(input: string | Uint8Array, file = 'build'): Described {
  const session = openSession(input, { file });
  const { source, build, diagnostics } = session;
  const title = build?.title ?? source.notation(['title']);
  const marked = source.notation(['loomwright']) !== undefined || FIRST_LINE.test(source.text);
  return {
    isBuild: build !== null || marked,
    title: typeof title === 'string' && title.trim() !== '' ? clip(title.trim()) : null,
    errors: diagnostics.filter((each) => each.severity === 'error').length,
    diagnostics: diagnostics.slice(0, MOST_DIAGNOSTICS).map(({ severity, line, column, message }) => ({
      severity,
      line,
      column,
      message,
    })),
  };
}

/** Cuts between characters, never inside one. */
const clip = (title: string): string =>
  title.length <= MOST_TITLE ? title : title.slice(0, MOST_TITLE).replace(/[\uD800-\uDBFF]$/, '');
