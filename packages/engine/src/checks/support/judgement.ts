/** Making judgements: what a check says, the rest empty. */
import type { Basis, Id, Judgement, Measure, Need, Step } from '../../contracts/index.ts';

export type Said = Pick<Judgement, 'holds' | 'says'> & Partial<Omit<Judgement, 'holds' | 'says'>>;

export const NOTHING: Measure = { value: null, unit: '' };

/** A whole judgement from what differs from "nothing". */
export function judgement(said: Said): Judgement {
  return {
    value: NOTHING,
    limit: NOTHING,
    margin: null,
    worst: null,
    others: 0,
    working: [],
    missing: [],
    ...said,
    restsOn: distinct(said.restsOn ?? []),
    limits: distinct(said.limits ?? []),
    about: [...new Set(said.about ?? [])],
  };
}

/** Cannot be said: a figure is not there. */
export function missing(
  says: string,
  needs: readonly Need[],
  more: Partial<Omit<Judgement, 'holds' | 'says' | 'missing'>> = {},
): Judgement {
  return judgement({ ...more, holds: null, says, missing: needs });
}

/** A value that is nowhere, described so that it can be asked for. */
export function absent(path: string, label: string, how: string, unit: string): Basis {
  return {
    path,
    label,
    sourced: { value: Number.NaN, unit, prov: 'memory', source: 'not given' },
    how,
    effort: 'read',
    assumed: true,
  };
}

export const present = (bases: readonly (Basis | null | undefined)[]): readonly Basis[] =>
  bases.filter((b): b is Basis => b !== null && b !== undefined);

function distinct(bases: readonly Basis[]): readonly Basis[] {
  const seen = new Map<string, Basis>();
  for (const basis of bases) if (!seen.has(basis.path)) seen.set(basis.path, basis);
  return [...seen.values()];
}

export const step = (
  what: string,
  how: string,
  value: number | null,
  unit: string,
  more: { readonly source?: string; readonly about?: readonly Id[] } = {},
): Step => ({ what, how, value, unit, ...more });

/** A limit within 1e-9 relative counts as met. */
export const atMost = (value: number, limit: number): boolean =>
  value <= limit + 1e-9 * Math.max(Math.abs(limit), Math.abs(value));
export const atLeast = (value: number, limit: number): boolean => atMost(limit, value);
