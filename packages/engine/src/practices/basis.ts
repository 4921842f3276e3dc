/** Published figures of the practices as bases: what can be confirmed once, by the path of its table. */
import type { Basis, Sourced } from '../contracts/index.ts';

/** A figure of a published table or rule. `path` is what a workshop confirms: `table:reach/north-america/plain`. */
export function published(path: string, label: string, sourced: Sourced): Basis {
  return {
    path,
    label,
    sourced,
    how: 'read the standard, confirm it once',
    effort: 'confirm',
    assumed: true,
  };
}

/** Greatest share of nominal volts that may be lost, as a fraction. */
export function dropLimit(path: string, label: string, share: number, source: string): Basis {
  return published(path, label, { value: share, unit: '', prov: 'seen', source });
}

/** A length, m. */
export function distance(
  path: string,
  label: string,
  metres: number,
  prov: Sourced['prov'],
  source: string,
): Basis {
  return published(path, label, { value: metres, unit: 'm', prov, source });
}
