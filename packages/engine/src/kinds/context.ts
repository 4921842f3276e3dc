/** What the defaults of a part may depend on beside its own fields. */
import type { Build, FieldContext, Part, Registry } from '../contracts/index.ts';
import { inSeries } from './series.ts';

/** What of a build a default may hang on: without its parts and wires nothing stands in series. */
type Around = Pick<Build, 'systems'> & Partial<Pick<Build, 'parts' | 'wires'>>;

/**
 * Nominal volts of the part's system, first that exists: the system that it names, that of its output, that of a
 * battery's role, that where its kind belongs (`home`); 12 V when the document states none. A battery in series with others
 * of its system has its share of those volts.
 */
export function fieldContext(part: Part, build: Around, kinds: Registry['kinds']): FieldContext {
  const { systems, parts, wires } = build;
  const named = ['system', 'output-system', 'role'].map((field) => part.fields[field]);
  const home = kinds.get(part.kind)?.home ?? 'house';
  const names = [...named.filter((name) => typeof name === 'string'), home];
  const nominal = names.map((name) => systems[name]).find((volts) => volts !== undefined);
  const volts = nominal ?? 12;
  const stands = part.kind === 'battery' && parts !== undefined && wires !== undefined;
  return { nominal: stands ? volts / inSeries(part, { parts, wires }, kinds) : volts, systems };
}
