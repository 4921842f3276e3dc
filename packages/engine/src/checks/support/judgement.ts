/** Making judgements: what a check says, the rest empty. */
import type { Basis, Id, Judgement, Measure, Need, Step } from '../../contracts/index.ts';

/** What takes work to say is said when it is asked for: of three judgements of a subject two are seldom read. */
type Lazily<T extends string | readonly unknown[]> = T | (() => T);

type Words = 'says' | 'working' | 'restsOn' | 'limits';

export type Said = Pick<Judgement, 'holds'> & { readonly says: Lazily<string> } & {
  readonly [K in Exclude<Words, 'says'>]?: Lazily<Judgement[K]>;
} & Partial<Omit<Judgement, 'holds' | Words>>;

export const NOTHING: Measure = { value: null, unit: '' };

const told = <T extends string | readonly unknown[]>(said: Lazily<T>): T =>
  typeof said === 'function' ? said() : said;

class Made implements Judgement {
  readonly holds: boolean | null;
  readonly value: Measure;
  readonly limit: Measure;
  readonly margin: number | null;
  readonly worst: string | null;
  readonly others: number;
  readonly missing: readonly Need[];
  readonly severity?: NonNullable<Judgement['severity']>;
  readonly note?: NonNullable<Judgement['note']>;
  readonly #said: Said;
  #restsOn: readonly Basis[] | null = null;
  #limits: readonly Basis[] | null = null;

  constructor(said: Said) {
    this.#said = said;
    this.holds = said.holds;
    this.value = said.value ?? NOTHING;
    this.limit = said.limit ?? NOTHING;
    this.margin = said.margin ?? null;
    this.worst = said.worst ?? null;
    this.others = said.others ?? 0;
    this.missing = said.missing ?? [];
    if (said.severity !== undefined) this.severity = said.severity;
    if (said.note !== undefined) this.note = said.note;
  }

  get says(): string {
    return told(this.#said.says);
  }

  get working(): readonly Step[] {
    return told(this.#said.working ?? []);
  }

  get restsOn(): readonly Basis[] {
    this.#restsOn ??= distinct(told(this.#said.restsOn ?? []));
    return this.#restsOn;
  }

  get limits(): readonly Basis[] {
    this.#limits ??= distinct(told(this.#said.limits ?? []));
    return this.#limits;
  }

  get about(): readonly Id[] {
    return [...new Set(this.#said.about ?? [])];
  }
}

/** A whole judgement from what differs from "nothing". */
export const judgement = (said: Said): Judgement => new Made(said);

/** Cannot be said: a figure is not there. */
export function missing(
  says: Said['says'],
  needs: readonly Need[],
  more: Omit<Said, 'holds' | 'says' | 'missing'> = {},
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
