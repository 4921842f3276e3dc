/** Figures that are needed and not there. */
import type { Basis, Effort, Need } from '../../contracts/index.ts';

/** A need for a value that nobody gave and that has no default. */
export function need(
  path: string,
  label: string,
  why: string,
  how = 'read it on the part or its sheet',
  effort: Effort = 'read',
): Need {
  const basis: Basis = {
    path,
    label,
    how,
    effort,
    assumed: true,
    sourced: { value: Number.NaN, unit: '', prov: 'memory', source: 'no figure' },
  };
  return { basis, why };
}

/** What reports call fields whose keys say too little; the words that the kinds use. */
const LABELS: Readonly<Record<string, string>> = {
  interrupts: 'interrupting rating',
  curve: 'opening times',
};

/** A field of a part that nobody gave. */
export const partNeed = (part: string, field: string, why: string): Need =>
  need(`parts.${part}.${field}`, `${LABELS[field] ?? field.replaceAll('-', ' ')} of ${part}`, why);

/** One of each path, the first kept. */
export function distinct(bases: readonly (Basis | null | undefined)[]): readonly Basis[] {
  const seen = new Map<string, Basis>();
  for (const basis of bases)
    if (basis !== null && basis !== undefined && !seen.has(basis.path)) seen.set(basis.path, basis);
  return [...seen.values()];
}

export function distinctNeeds(needs: readonly Need[]): readonly Need[] {
  const seen = new Map<string, Need>();
  for (const n of needs) if (!seen.has(n.basis.path)) seen.set(n.basis.path, n);
  return [...seen.values()];
}
