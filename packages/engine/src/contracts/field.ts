import type { Dimension } from '../quantity/dimension.ts';
import type { Sourced } from '../reference/sourced.ts';
import type { Effort, SlackEnd, ValueReader } from './values.ts';

/**
 * Shapes of document values. The reader walks the syntax tree with them, and the JSON Schema is printed from them.
 * The value that results is given behind each.
 */
export type Shape =
  /** -> Given (a Stated or 'unknown') */
  | {
      readonly shape: 'quantity';
      readonly dimension: Dimension;
      /** SI, inclusive. */
      readonly min?: number;
      readonly max?: number;
      /** A band may be written (default true). */
      readonly band?: boolean;
      /** `never` may be written (-> Infinity). */
      readonly never?: boolean;
    }
  /** -> number (a bare number or fraction, no unit), or 'unknown' */
  | { readonly shape: 'number'; readonly min?: number; readonly max?: number }
  /** -> string out of the list, or 'unknown' */
  | { readonly shape: 'choice'; readonly of: readonly string[] }
  /** -> boolean, or 'unknown' */
  | { readonly shape: 'flag' }
  /** -> string */
  | { readonly shape: 'text' }
  /** -> the value of the first alternative that reads */
  | { readonly shape: 'any-of'; readonly of: readonly Shape[]; readonly expected: string }
  /** -> array */
  | { readonly shape: 'list'; readonly of: Shape; readonly min?: number }
  /** -> array of fixed length: a row such as `[40 °C, 0.85]` */
  | { readonly shape: 'row'; readonly of: readonly Shape[] }
  /** -> Record<string, value>, keys from the table */
  | { readonly shape: 'record'; readonly fields: FieldTable }
  /** -> Record<string, value>, free or listed keys */
  | { readonly shape: 'map'; readonly keys?: readonly string[]; readonly of: Shape }
  /** -> whatever `read` makes of a scalar's text */
  | {
      readonly shape: 'phrase';
      readonly read: (text: string) => PhraseResult;
      /** For messages and completion: `"13.3 V after 15 s"`. */
      readonly expected: string;
      /** A regular expression source for the JSON Schema, deliberately loose. */
      readonly pattern: string;
    };

export type PhraseResult =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly message: string };

export interface Field {
  readonly shape: Shape;
  /** One sentence: meaning, unit, range. Printed in the schema and the help. */
  readonly doc: string;
  /** What reports call it, where its key says too little: "pull-in voltage" for `pulls`. Reports add the part's name. */
  readonly label?: string;
  /** Some verdicts stay open without it. */
  readonly wanted?: boolean;
  /** Published default, under the other fields; null when this part has none. Only for quantities and choices/flags. */
  readonly fallback?: (read: ValueReader, about: FieldContext) => Sourced | string | boolean | null;
  /** The direction that makes the charger's voltage slack; absent: never pushed. */
  readonly slack?: SlackEnd;
  /** How a person gets it; default "read it on the part or its sheet". */
  readonly how?: string;
  readonly effort?: Effort;
}

export type FieldTable = Readonly<Record<string, Field>>;

/** What a default may depend on beside the part's own fields. */
export interface FieldContext {
  /** Nominal volts of the part's system (12, 24, 48). */
  readonly nominal: number;
  /** Nominal volts by system name, for parts that stand between two systems. */
  readonly systems?: Readonly<Record<string, number>>;
}
