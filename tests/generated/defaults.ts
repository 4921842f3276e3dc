/**
 * docs/defaults.md: every value that is taken when a document does not give it. Found by asking, not by listing: each kind is
 * asked bare, with each of its choices, with two of them together, with the sample figures of its example, in 12, 24 and 48 V.
 */
import type { Basis, Field, Kind, Part, Shape, Sourced } from '../../packages/engine/src/contracts/index.ts';
import { readDocument } from '../../packages/engine/src/document/index.ts';
import { kinds, makeRegistry } from '../../packages/engine/src/kinds/registry.ts';
import { asked, grid, type Asked } from '../../packages/engine/src/kinds/testing/surroundings.ts';
import { aroundDefaults } from './around.ts';
import { PROVENANCE, printed, row, table } from './words.ts';

const registry = makeRegistry();
const SYSTEMS = [12, 24, 48];

interface Variant {
  readonly says: string;
  readonly fields: Readonly<Record<string, unknown>>;
}

interface Found {
  readonly when: readonly string[];
  readonly systems: readonly number[];
  readonly sourced: Sourced | string | boolean;
}

/** Field -> values, each once, with the first circumstances in which it was met. */
type Finds = Map<string, Map<string, { when: Set<string>; systems: Set<number>; sourced: Found['sourced'] }>>;

const choicesOf = (shape: Shape): readonly string[] =>
  shape.shape === 'choice'
    ? shape.of
    : shape.shape === 'any-of'
      ? shape.of.flatMap((each) => choicesOf(each))
      : [];

const settings = (field: string, spec: Field): readonly Variant[] =>
  spec.shape.shape === 'flag'
    ? [true, false].map((value) => ({ says: `${field} ${value ? 'yes' : 'no'}`, fields: { [field]: value } }))
    : choicesOf(spec.shape).map((value) => ({ says: `${field} ${value}`, fields: { [field]: value } }));

/** What is given in the kind's own example, as the text typed. */
function samples(kind: Kind): readonly Variant[] {
  const { build } = readDocument(kind.example, registry);
  if (build === null) throw new Error(`the example of ${kind.name} does not read`);
  const [part] = [...build.parts.values()].filter((each) => each.kind === kind.name);
  return part === undefined
    ? []
    : Object.entries(part.fields)
        .filter(([field, value]) => field in kind.fields && typeof value !== 'string')
        .filter(([, value]) => typeof value !== 'boolean')
        .map(([field, value]) => ({ says: `${field} ${typed(value)}`.trim(), fields: { [field]: value } }));
}

const typed = (value: unknown): string =>
  typeof value === 'object' && value !== null && 'text' in value ? String(value.text) : 'as in the example';

const both = (a: Variant, b: Variant): Variant => ({
  says: `${a.says}, ${b.says}`,
  fields: { ...a.fields, ...b.fields },
});

/** Bare, then one setting, then two of different fields, then a sample figure with one setting and with two. */
function variants(kind: Kind): readonly Variant[] {
  const own = Object.entries(kind.fields).flatMap(([field, spec]) => settings(field, spec));
  const one: readonly Variant[] = [...own, ...samples(kind)];
  const apart = (a: Variant, b: Variant): boolean =>
    !Object.keys(a.fields).some((field) => field in b.fields);
  const pairs = one.flatMap((a, i) =>
    one
      .slice(i + 1)
      .filter((b) => apart(a, b))
      .map((b) => both(a, b)),
  );
  const triples = samples(kind).flatMap((sample) =>
    own.flatMap((a, i) =>
      own
        .slice(i + 1)
        .filter((b) => apart(a, b))
        .map((b) => both(both(a, b), sample)),
    ),
  );
  return [{ says: '', fields: {} }, ...one, ...pairs, ...triples];
}

/** Everything that one part assumes. */
function assumedBy(kind: Kind, variant: Variant, system: number): ReadonlyMap<string, Found['sourced']> {
  const part: Part = { id: 'x', kind: kind.name, fields: { ...variant.fields } };
  const of: Asked = asked(part, { vehicle: system, house: system });
  const words = new Map<string, Found['sourced']>();
  for (const [field, spec] of Object.entries({ ...registry.common, ...kind.fields })) {
    if (of.read.given(field) || spec.fallback === undefined) continue;
    const made = spec.fallback(of.read, of.read.about);
    if (made !== null) words.set(field, made);
  }
  kind.abilities(of.read);
  for (const at of grid(of).slice(0, 24)) {
    kind.elements(at);
    kind.memory?.(at);
  }
  for (const basis of of.values.assumed()) {
    const field = basis.path.replace(/^parts\.x\./, '');
    const shape = kind.fields[field]?.shape.shape;
    if (!words.has(field) && isPlain(basis) && shape !== 'flag' && shape !== 'choice')
      words.set(field, isCurve(field) ? asCurve(basis.sourced) : basis.sourced);
  }
  return words;
}

/** A value of its own, not one that was computed from others. */
const isPlain = (basis: Basis): boolean => basis.from === undefined && basis.sourced.prov !== 'given';

/** A curve is no figure: what stands for it is the number of its points. */
const isCurve = (path: string): boolean => /^table:[a-z]+-curve\//.test(path);
const asCurve = (sourced: Sourced): Sourced => ({ ...sourced, unit: 'points' });

function findsOf(kind: Kind): Finds {
  const finds: Finds = new Map();
  for (const variant of variants(kind)) {
    for (const system of SYSTEMS) {
      for (const [field, sourced] of assumedBy(kind, variant, system))
        note(finds, field, variant, system, sourced);
    }
  }
  return finds;
}

/** The first variant that shows a value names its circumstances; further systems join where that variant is the same. */
function note(
  finds: Finds,
  field: string,
  variant: Variant,
  system: number,
  sourced: Found['sourced'],
): void {
  const values = finds.get(field) ?? new Map();
  finds.set(field, values);
  const key = JSON.stringify(sourced);
  const found = values.get(key);
  if (found === undefined)
    values.set(key, { when: new Set([variant.says]), systems: new Set([system]), sourced });
  else if (found.when.has(variant.says)) found.systems.add(system);
}

function circumstances(found: {
  readonly when: ReadonlySet<string>;
  readonly systems: ReadonlySet<number>;
}): string {
  const systems =
    found.systems.size === SYSTEMS.length ? '' : [...found.systems].map((v) => `${v} V`).join(', ');
  return [[...found.when].join('; '), systems].filter((text) => text !== '').join('; ');
}

function lines(finds: Finds, order: readonly string[]): readonly string[] {
  const rank = (field: string): number => {
    const at = order.indexOf(field.split('.')[0] ?? field);
    return at < 0 ? order.length : at;
  };
  const fields = [...finds.keys()].toSorted((a, b) => rank(a) - rank(b) || (a < b ? -1 : a > b ? 1 : 0));
  return fields.flatMap((field) =>
    [...(finds.get(field)?.values() ?? [])].map((found) => {
      const { sourced } = found;
      if (typeof sourced !== 'object') {
        const word = sourced === true ? 'yes' : sourced === false ? 'no' : sourced;
        return row(`\`${field}\``, circumstances(found), word, '', '', '');
      }
      const { value, band } = printed(sourced);
      return row(`\`${field}\``, circumstances(found), value, band, PROVENANCE[sourced.prov], sourced.source);
    }),
  );
}

const HEAD = ['field', 'when', 'value', 'band', 'provenance', 'source'];

/** Common fields without a default of their own in a kind are listed once, under "every part". */
function withoutCommon(finds: Finds): Finds {
  return new Map([...finds].filter(([field]) => !(field in registry.common)));
}

export function defaultsText(): string {
  const all = (kinds as readonly Kind[]).map((kind) => ({ kind, finds: findsOf(kind) }));
  const common: Finds = new Map();
  for (const [field, spec] of Object.entries(registry.common)) {
    const made = all[0]?.finds.get(field);
    if (spec.fallback !== undefined && made !== undefined) common.set(field, made);
  }
  const sections = all.flatMap(({ kind, finds }) => {
    const rows = lines(withoutCommon(finds), Object.keys(kind.fields));
    return [`## ${kind.name}`, '', ...(rows.length === 0 ? ['Nothing is assumed.', ''] : table(HEAD, rows))];
  });
  return `${[
    '# Defaults',
    '',
    'Written by `npm run generate`; not to be edited.',
    '',
    'What is taken where a document gives no value. A band is judged at both ends: it never decides a verdict silently. Values that depend on another figure are shown for the sample figure named under "when"; where several circumstances lead to the same value, the simplest is named.',
    '',
    '## Every part',
    '',
    ...table(HEAD, lines(common, Object.keys(registry.common))),
    ...sections,
    ...aroundDefaults(),
  ]
    .join('\n')
    .trimEnd()}\n`;
}
