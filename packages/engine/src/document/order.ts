/** Values that stand in an order (least, typical, greatest): written the other way round they would be judged as what nobody meant. */
import type { Id, Path } from '../contracts/index.ts';
import { startOf } from './nodes.ts';
import type { Reading } from './reading.ts';
import type { SourceText } from './source.ts';

type Values = Readonly<Record<string, unknown>>;

interface Ordered {
  readonly climate: unknown;
  readonly survey: unknown;
  readonly places: ReadonlyMap<Id, { readonly values: Values; readonly path: Path }>;
}

const POSTS = ['min', 'typical', 'max'];
const AIR = ['coldest', 'hottest'];

/** Faults of the weather, of the places and of the surveyed posts. */
export function checkOrder(reading: Reading, source: SourceText, { climate, survey, places }: Ordered): void {
  const ordered = (values: unknown, names: readonly string[], path: Path): void => {
    const known = names.flatMap((name) => statedOf(valuesOf(values)[name], name));
    const wrong = known.find((one, i) => i > 0 && one.value < (known[i - 1]?.value ?? one.value));
    if (wrong === undefined) return;
    const before = known[known.indexOf(wrong) - 1];
    const at = [...path, wrong.name];
    const found = source.find(at);
    reading.faults.add({
      offset: startOf(found?.value ?? null, startOf(found?.key ?? null, 0)),
      found: wrong.text,
      expected: names.join(' <= '),
      message: `found ${wrong.name} ${wrong.text} below ${before?.name} ${before?.text}; ${names.join(', ')} is the order, from the least to the greatest`,
      path: at,
    });
  };
  ordered(climate, AIR, ['climate']);
  for (const { values, path } of places.values()) ordered(values, AIR, path);
  for (const [state, row] of Object.entries(valuesOf(survey)))
    ordered(valuesOf(row)['posts'], POSTS, ['survey', state, 'posts']);
}

const valuesOf = (raw: unknown): Values => (typeof raw === 'object' && raw !== null ? (raw as Values) : {});

interface Named {
  readonly name: string;
  readonly value: number;
  readonly text: string;
}

/** A stated number; of a band its middle. */
function statedOf(raw: unknown, name: string): readonly Named[] {
  const { value, text } = valuesOf(raw);
  return typeof value === 'number' ? [{ name, value, text: typeof text === 'string' ? text : '' }] : [];
}
