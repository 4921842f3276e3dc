/** Building blocks of field tables. */
import type { Field, FieldTable, Shape } from '../contracts/index.ts';
import { STATE_IDS } from '../contracts/index.ts';
import type { Dimension } from '../quantity/index.ts';

type Extra = Omit<Field, 'shape' | 'doc'>;
type Limits = { readonly min?: number; readonly max?: number; readonly never?: boolean };

export const quantityShape = (dimension: Dimension, limits: Limits = {}): Shape => ({
  shape: 'quantity',
  dimension,
  ...limits,
});

export const choiceShape = (...of: readonly string[]): Shape => ({ shape: 'choice', of });
export const listShape = (of: Shape, min?: number): Shape => ({
  shape: 'list',
  of,
  ...(min === undefined ? {} : { min }),
});
export const rowShape = (...of: readonly Shape[]): Shape => ({ shape: 'row', of });
export const recordShape = (fields: FieldTable): Shape => ({ shape: 'record', fields });
export const anyOf = (expected: string, ...of: readonly Shape[]): Shape => ({
  shape: 'any-of',
  of,
  expected,
});
export const textShape: Shape = { shape: 'text' };

/** A state's name. */
export const stateShape: Shape = choiceShape(...STATE_IDS);

/** A quantity that cannot be negative. */
export const quantity = (dimension: Dimension, doc: string, extra: Extra = {}): Field => ({
  shape: quantityShape(dimension, dimension === 'temperature' ? {} : { min: 0 }),
  doc,
  ...extra,
});

/** A quantity of either sign. */
export const signed = (dimension: Dimension, doc: string, extra: Extra = {}): Field => ({
  shape: quantityShape(dimension),
  doc,
  ...extra,
});

export const choice = (of: readonly string[], doc: string, extra: Extra = {}): Field => ({
  shape: choiceShape(...of),
  doc,
  ...extra,
});

export const flag = (doc: string, fallback?: boolean, extra: Extra = {}): Field => ({
  shape: { shape: 'flag' },
  doc,
  ...(fallback === undefined ? {} : { fallback: () => fallback }),
  ...extra,
});

export const text = (doc: string, extra: Extra = {}): Field => ({ shape: textShape, doc, ...extra });

export const field = (shape: Shape, doc: string, extra: Extra = {}): Field => ({ shape, doc, ...extra });

/** Name of one of the document's systems. */
export const systemField = (doc = 'Name of the system it belongs to, one of `systems`.'): Field => text(doc);
