/** What the defaults of a part may depend on beside its own fields. */
import type { Build, FieldContext, Kind, Part } from '../contracts/index.ts';

/**
 * Nominal volts of the part's system, first that exists: the system that it names, that of its output, that of a
 * battery's role, that where its kind belongs (`home`); 12 V when the document states none.
 */
export function fieldContext(
  part: Part,
  build: Pick<Build, 'systems'>,
  home: Kind['home'] = 'house',
): FieldContext {
  const { systems } = build;
  const named = ['system', 'output-system', 'role'].map((field) => part.fields[field]);
  const names = [...named.filter((name) => typeof name === 'string'), home];
  const nominal = names.map((name) => systems[name]).find((volts) => volts !== undefined);
  return { nominal: nominal ?? 12, systems };
}
