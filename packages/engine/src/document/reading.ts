/** What every part of the reader carries along. */
import type { Faults } from './faults.ts';
import type { Steps } from './types.ts';

export interface Reading {
  readonly faults: Faults;
  readonly steps: Steps;
  /** The document was written by a newer version: unknown names are kept and reported, not refused. */
  readonly newer: boolean;
  /** What was read before and may be taken as it is; null: nothing. */
  readonly known: Map<string, unknown> | null;
}

/** The value could not be read; the reason is reported. */
export const BAD: unique symbol = Symbol('bad');

/** A value that was read, `undefined` when there is none to speak of, or BAD. */
export type Read<T> = T | undefined | typeof BAD;

/** The value, or undefined also when it could not be read. */
export function good<T>(value: Read<T>): T | undefined {
  return value === BAD ? undefined : value;
}
