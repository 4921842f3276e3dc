/** Collects what there is to say about a document. */
import type { Path } from '../contracts/index.ts';
import type { Lines } from './text.ts';
import type { Diagnostic, Severity } from './types.ts';

/** After so many a person starts again anyway; the rest is counted. */
export const MOST_DIAGNOSTICS = 200;

export interface Fault {
  readonly severity?: Severity;
  readonly offset: number;
  readonly found: string;
  readonly expected: string;
  readonly nearest?: string | undefined;
  readonly message: string;
  readonly path: Path;
  readonly related?: { readonly offset: number; readonly says: string };
}

export class Faults {
  readonly lines: Lines;
  readonly #kept: Fault[] = [];
  #errors = 0;
  #dropped = 0;

  constructor(lines: Lines) {
    this.lines = lines;
  }

  add(fault: Fault): void {
    const isError = (fault.severity ?? 'error') === 'error';
    if (isError) this.#errors++;
    if (this.#kept.length < MOST_DIAGNOSTICS) this.#kept.push(fault);
    else this.#dropped++;
  }

  /** True when no more are kept: looking for nearest names is not worth the time. */
  get full(): boolean {
    return this.#kept.length >= MOST_DIAGNOSTICS;
  }

  get errors(): number {
    return this.#errors;
  }

  get list(): readonly Fault[] {
    return this.#kept;
  }

  /** A collector of its own, for trying an alternative. */
  trial(): Faults {
    return new Faults(this.lines);
  }

  /** Takes over what a trial found. */
  take(trial: Faults): void {
    for (const fault of trial.list) this.add(fault);
  }

  /** In the order of the text. `before`: only those that stand before this offset. */
  diagnostics(): readonly Diagnostic[] {
    const sorted = this.#kept
      .map((fault, order) => ({ fault, order }))
      .toSorted((a, b) => a.fault.offset - b.fault.offset || a.order - b.order)
      .map(({ fault }) => this.#finished(fault));
    if (this.#dropped > 0) sorted.push(this.#more());
    return Object.freeze(sorted);
  }

  #finished(fault: Fault): Diagnostic {
    const { line, column } = this.lines.position(fault.offset);
    const { related, nearest } = fault;
    return Object.freeze({
      severity: fault.severity ?? 'error',
      line,
      column,
      found: clipped(fault.found),
      expected: fault.expected,
      ...(nearest === undefined ? {} : { nearest }),
      message: fault.message.replace(/\s*[\r\n]\s*/g, ' '),
      path: Object.freeze([...fault.path]),
      ...(related === undefined
        ? {}
        : { related: Object.freeze({ ...this.lines.position(related.offset), says: related.says }) }),
    });
  }

  #more(): Diagnostic {
    const { line, column } = this.lines.position(this.lines.text.length);
    const message = `and ${this.#dropped} more of the kind: mend the first ones and read again`;
    return Object.freeze({ severity: 'error', line, column, found: '', expected: '', message, path: [] });
  }
}

const LONGEST_FOUND = 200;

const clipped = (text: string): string =>
  text.length > LONGEST_FOUND ? `${text.slice(0, LONGEST_FOUND)}…` : text;
