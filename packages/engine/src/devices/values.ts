/**
 * Values under an assumption: what is given wins; what is not takes its published default; bands are pushed to the end
 * that the assumption asks for; pinned paths count as given at their nominal. Everything read is noted, so that a verdict
 * can list what it rests on.
 */
import type {
  Ask,
  Assumption,
  Basis,
  Field,
  FieldContext,
  FieldTable,
  Given,
  Push,
  SlackEnd,
  Sourced,
  Stated,
  ValueReader,
} from '../contracts/index.ts';
import { confirms } from './confirms.ts';
import { unitOf } from './unit-of.ts';

/** Nothing pushed, nothing pinned. */
export const NOMINAL: Assumption = { push: 'nominal', pinned: new Set() };

/** All values of one build under one assumption. */
export interface Values {
  readonly assumption: Assumption;
  /** A reader for the fields of one subject; `prefix` is its path in the document (`parts.charger`). */
  reader(
    prefix: string,
    name: string,
    table: FieldTable,
    fields: Readonly<Record<string, unknown>>,
    about: FieldContext,
  ): ValueReader;
  /** Resolves one quantity by its full path. */
  resolve(path: string, stated: Given | null | undefined, fallback: Sourced | null, ask: Ask): Basis | null;
  /** As `resolve`, for a value that may never be used: it is noted only by `use`. */
  look(path: string, stated: Given | null | undefined, fallback: Sourced | null, ask: Ask): Basis | null;
  /** Notes a value as used. */
  use(basis: Basis): Basis;
  /** A figure of a published table or a model constant: confirmed where the build confirms its path. */
  figure(path: string, sourced: Sourced, ask: Ask): Basis;
  /** All assumed values read so far, in order of first reading. */
  assumed(): readonly Basis[];
}

export function makeValues(assumption: Assumption, confirmed: ReadonlySet<string> = new Set()): Values {
  const noted = new Map<string, Basis>();
  const note = (basis: Basis): Basis => {
    if (!basis.assumed) return basis;
    // One path may be read for several things (a factor for six conductors, one for seven): whichever was read first, one is told.
    const known = noted.get(basis.path);
    if (known === undefined || basis.label < known.label) noted.set(basis.path, basis);
    return basis;
  };
  const vouched = new Map<string, boolean>();
  const isConfirmed = (path: string, label: string): boolean => {
    if (confirmed.size === 0) return false;
    const key = `${path} ${label}`;
    let found = vouched.get(key);
    if (found === undefined) {
      found = [...confirmed].some((name) => confirms(name, path, label));
      vouched.set(key, found);
    }
    return found;
  };
  const values: Values = {
    assumption,
    resolve: (path, stated, fallback, ask) => {
      const basis = resolved(assumption, path, stated ?? null, fallback, ask);
      return basis === null ? null : note(basis);
    },
    look: (path, stated, fallback, ask) => resolved(assumption, path, stated ?? null, fallback, ask),
    use: note,
    figure: (path, sourced, ask) => {
      const prov = isConfirmed(path, ask.label) ? 'confirmed' : sourced.prov;
      return note(defaulted(assumption, path, prov === sourced.prov ? sourced : { ...sourced, prov }, ask));
    },
    reader: (prefix, name, table, fields, about) =>
      new FieldReader(values, prefix, name, table, fields, about),
    assumed: () => [...noted.values()],
  };
  return values;
}

/** The end of a band that the push asks for. */
export function pushed(
  band: readonly [number, number],
  nominal: number,
  push: Push,
  slack: SlackEnd | undefined,
): number {
  if (push === 'nominal' || slack === undefined) return nominal;
  return (push === 'slack') === (slack === 'up') ? band[1] : band[0];
}

function endOf(
  assumption: Assumption,
  path: string,
  value: number,
  band: readonly [number, number] | undefined,
  ask: Ask,
): number {
  if (band === undefined || assumption.pinned.has(path)) return value;
  if (assumption.only !== undefined && assumption.only !== path) return value;
  return pushed(band, value, assumption.push, ask.slack);
}

function resolved(
  assumption: Assumption,
  path: string,
  stated: Given | null,
  fallback: Sourced | null,
  ask: Ask,
): Basis | null {
  if (stated !== null && stated !== 'unknown') return fromStated(assumption, path, stated, ask);
  return fallback === null ? null : defaulted(assumption, path, fallback, ask);
}

function fromStated(assumption: Assumption, path: string, stated: Stated, ask: Ask): Basis {
  const value = endOf(assumption, path, stated.value, stated.band, ask);
  const sourced: Sourced = { value, unit: unitOf(stated.text), prov: 'given', source: 'the build' };
  return {
    path,
    label: ask.label,
    how: ask.how,
    effort: ask.effort,
    assumed: false,
    sourced:
      stated.band === undefined || assumption.pinned.has(path) ? sourced : { ...sourced, band: stated.band },
  };
}

function defaulted(assumption: Assumption, path: string, fallback: Sourced, ask: Ask): Basis {
  const value = endOf(assumption, path, fallback.value, fallback.band, ask);
  const pinned = assumption.pinned.has(path);
  const sourced: Sourced = pinned
    ? { value: fallback.value, unit: fallback.unit, prov: 'given', source: 'taken as given' }
    : value === fallback.value
      ? fallback
      : { ...fallback, value };
  return { path, label: ask.label, how: ask.how, effort: ask.effort, assumed: !pinned, sourced };
}

/** Reads the fields of one subject; each field is resolved once. */
class FieldReader implements ValueReader {
  readonly #values: Values;
  readonly #prefix: string;
  readonly #name: string;
  readonly #table: FieldTable;
  readonly #fields: Readonly<Record<string, unknown>>;
  readonly #about: FieldContext;
  readonly #known = new Map<string, Basis | null>();

  constructor(
    values: Values,
    prefix: string,
    name: string,
    table: FieldTable,
    fields: Readonly<Record<string, unknown>>,
    about: FieldContext,
  ) {
    this.#values = values;
    this.#prefix = prefix;
    this.#name = name;
    this.#table = table;
    this.#fields = fields;
    this.#about = about;
  }

  use(basis: Basis): Basis {
    return this.#values.use(basis);
  }

  quantity(field: string): Basis | null {
    const known = this.#known.get(field);
    if (known !== undefined) return known;
    const made = this.#quantity(field);
    this.#known.set(field, made);
    return made;
  }

  #quantity(field: string): Basis | null {
    const spec = this.#spec(field);
    const fallback = this.#fallback(spec);
    const stated = this.#fields[field];
    return this.resolve(
      field,
      isGiven(stated) ? stated : null,
      typeof fallback === 'object' ? fallback : null,
      askFor(spec, `${spec.label ?? spaced(field)} of ${this.#name}`),
    );
  }

  number(field: string, otherwise: number): number {
    return this.quantity(field)?.sourced.value ?? otherwise;
  }

  choice(field: string): string | null {
    const stated = this.#fields[field];
    if (typeof stated === 'string' && stated !== 'unknown') return stated;
    const fallback = this.#fallback(this.#spec(field));
    return typeof fallback === 'string' ? fallback : null;
  }

  flag(field: string): boolean | null {
    const stated = this.#fields[field];
    if (typeof stated === 'boolean') return stated;
    const fallback = this.#fallback(this.#spec(field));
    return typeof fallback === 'boolean' ? fallback : null;
  }

  raw(field: string): unknown {
    return this.#fields[field] ?? null;
  }

  given(field: string): boolean {
    const stated = this.#fields[field];
    return stated !== undefined && stated !== 'unknown';
  }

  resolve(path: string, stated: Given | null, fallback: Sourced | null, ask: Ask): Basis | null {
    return this.#values.resolve(`${this.#prefix}.${path}`, stated, fallback, named(ask, this.#name));
  }

  figure(path: string, sourced: Sourced, ask: Ask): Basis {
    return this.#values.figure(path, sourced, ask);
  }

  get about(): FieldContext {
    return this.#about;
  }

  #spec(field: string): Field {
    const spec = this.#table[field];
    if (spec === undefined) throw new Error(`the kind has no field ${field}`);
    return spec;
  }

  #fallback(spec: Field): Sourced | string | boolean | null {
    return spec.fallback === undefined ? null : spec.fallback(this, this.#about);
  }
}

const askFor = (spec: Field, label: string): Ask => ({
  label,
  how: spec.how ?? 'read it on the part or its sheet',
  effort: spec.effort ?? 'read',
  ...(spec.slack === undefined ? {} : { slack: spec.slack }),
});

const isGiven = (value: unknown): value is Given =>
  value === 'unknown' || (typeof value === 'object' && value !== null && 'value' in value && 'text' in value);

/** An ask with the subject's name in its place. */
const named = (ask: Ask, name: string): Ask =>
  ask.label.includes('{part}') ? { ...ask, label: ask.label.replace('{part}', name) } : ask;

const spaced = (field: string): string => field.replaceAll('-', ' ');
