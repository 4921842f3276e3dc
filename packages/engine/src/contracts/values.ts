import type { Sourced } from '../reference/sourced.ts';
import type { FieldContext } from './field.ts';

export type { Prov, Sourced } from '../reference/sourced.ts';

/**
 * A quantity as a person wrote it: SI number, perhaps a band (`3..8 mΩ`; then `value` is its midpoint).
 * `text` is what was typed.
 */
export interface Stated {
  readonly value: number;
  readonly band?: readonly [number, number];
  readonly text: string;
}

/** What a document can say where a quantity stands: a quantity, or that nobody knows. */
export type Given = Stated | 'unknown';

/**
 * Which end of every band is taken. `slack`: less voltage at the charger (resistance, load, power, heat up; source,
 * efficiency, start threshold down; stop threshold up). `stiff`: the other end.
 */
export type Push = 'nominal' | 'slack' | 'stiff';

/** The direction in which a value makes the charger's voltage slack. */
export type SlackEnd = 'up' | 'down';

/**
 * What is assumed while judging: which end of the bands, which values count as given at their nominal although the
 * document does not say so (for ranking the facts worth getting), and, when `only` is present, the single path that
 * is pushed while all others stay nominal.
 */
export interface Assumption {
  readonly push: Push;
  readonly pinned: ReadonlySet<string>;
  readonly only?: string;
}

/** How a fact is had, in rising cost. */
export type Effort = 'read' | 'confirm' | 'tape' | 'meter' | 'engine' | 'log';

/** A value that a verdict rests on, with the path by which it can be pinned, asked for and found in the document. */
export interface Basis {
  /** e.g. `parts.charger.efficiency`, `survey.idling.load`, `table:fuse-curve/bolt-down`. */
  readonly path: string;
  /** In plain words: "efficiency of charger". */
  readonly label: string;
  readonly sourced: Sourced;
  /** How it is had: "read the plate", "measure: volts across, amperes through". */
  readonly how: string;
  readonly effort: Effort;
  /** True when nobody gave it and the published default is used. */
  readonly assumed: boolean;
  /** Of a computed value: what it was computed from. */
  readonly from?: readonly Basis[];
}

/** Reads the values of one subject (a part, a wire, a place...) under the present assumption and notes what was read. */
export interface ValueReader {
  /** The field's value: given, else its default; null when there is neither. */
  quantity(field: string): Basis | null;
  /** As `quantity`, the bare number; `otherwise` when there is neither a value nor a default. */
  number(field: string, otherwise: number): number;
  /** A word out of a closed list, or null when not given and without default. */
  choice(field: string): string | null;
  /** A yes/no, or null when not given and without default. */
  flag(field: string): boolean | null;
  /** The structured value as the document room made it (see the field's shape), or null. */
  raw(field: string): unknown;
  /** True when the document gives the field (and not `unknown`). */
  given(field: string): boolean;
  /** Resolves a quantity that sits inside a structured value, or a default that is no field. `path` is relative. */
  resolve(path: string, stated: Given | null, fallback: Sourced | null, ask: Ask): Basis | null;
  /** A figure of a published table, by its full path (`table:...`): confirmed where the build confirms it. */
  figure(path: string, sourced: Sourced, ask: Ask): Basis;
  /** Notes a value as used that was resolved elsewhere and not noted there. */
  use(basis: Basis): Basis;
  /** What defaults may depend on beside the part's own fields. */
  readonly about: FieldContext;
}

/** What is needed to ask for a value. */
export interface Ask {
  /** What it is in plain words; `{part}` stands for the name of the subject that is read. */
  readonly label: string;
  readonly how: string;
  readonly effort: Effort;
  /** Absent: the value is never pushed. */
  readonly slack?: SlackEnd;
}
