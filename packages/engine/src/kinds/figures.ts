/** Published figures of the kinds, and values computed from others. */
import type {
  Ask,
  Basis,
  Effort,
  FieldContext,
  Given,
  Prov,
  SlackEnd,
  Sourced,
  Stated,
} from '../contracts/index.ts';
import { weakest } from '../reference/index.ts';

type Band = readonly [number, number];

const figure = (prov: Prov, value: number, unit: string, source: string, band?: Band): Sourced => ({
  value,
  unit,
  prov,
  source,
  ...(band === undefined ? {} : { band }),
});

/** A default written from memory, not confirmed. */
export const memory = (value: number, unit: string, source: string, band?: Band): Sourced =>
  figure('memory', value, unit, source, band);

/** Common practice without a source. */
export const practice = (value: number, unit: string, source: string, band?: Band): Sourced =>
  figure('practice', value, unit, source, band);

/** Read in a published source. */
export const seen = (value: number, unit: string, source: string, band?: Band): Sourced =>
  figure('seen', value, unit, source, band);

/** The band from `low` to `high` times a value. */
export const times = (value: number, low: number, high: number): Band => [value * low, value * high];

/** A published figure and its band times a factor: from a 12 V block to 24 and 48 V. */
export const scaled = (sourced: Sourced, factor: number): Sourced => ({
  ...sourced,
  value: sourced.value * factor,
  ...(sourced.band === undefined ? {} : { band: times(factor, ...sourced.band) }),
});

/** How a value is asked for; by default it is read on the part or its sheet. */
export const ask = (
  label: string,
  slack?: SlackEnd,
  effort: Effort = 'read',
  how = 'read it on the part or its sheet',
): Ask => ({ label, how, effort, ...(slack === undefined ? {} : { slack }) });

/**
 * A value computed from others: as well founded as the least founded of them, assumed when one of them is. Its path stands
 * beside the first of them that belongs to a part.
 */
export function derived(
  name: string,
  label: string,
  value: number,
  unit: string,
  from: readonly Basis[],
): Basis {
  const owner = from.find((basis) => basis.path.startsWith('parts.')) ?? from[0];
  const path = owner === undefined ? name : `${owner.path.slice(0, owner.path.lastIndexOf('.'))}.${name}`;
  const assumed = from.filter((basis) => basis.assumed);
  const asked = assumed[0] ?? owner;
  return {
    path,
    label,
    how: asked?.how ?? 'computed',
    effort: asked?.effort ?? 'read',
    assumed: assumed.length > 0,
    sourced: {
      value,
      unit,
      prov: weakest(...from.map((basis) => basis.sourced.prov)),
      source: `computed from ${from.map((basis) => basis.label).join(', ')}`,
    },
    from,
  };
}

/** A quantity as written in a document, or null for anything else (an absent value, a word, a list). */
export function asGiven(raw: unknown): Given | null {
  if (raw === 'unknown') return raw;
  return isStated(raw) ? raw : null;
}

export function isStated(raw: unknown): raw is Stated {
  return typeof raw === 'object' && raw !== null && 'value' in raw && typeof raw.value === 'number';
}

/** The member of a structured value, or null. */
export function member(raw: unknown, key: string): unknown {
  return typeof raw === 'object' && raw !== null && !Array.isArray(raw)
    ? ((raw as Readonly<Record<string, unknown>>)[key] ?? null)
    : null;
}

/** Nominal volts of a system by name; the part's own when there is no such system. */
export const nominalOf = (about: FieldContext, system: string): number =>
  about.systems?.[system] ?? about.nominal;

/** The value of a field that is written by name, when it is text. */
export const textOf = (read: { raw(field: string): unknown }, field: string): string | null => {
  const raw = read.raw(field);
  return typeof raw === 'string' ? raw : null;
};
