/** The six facts of a first answer: what each may be, how it is read from words, and what "don't know" is taken as. */
import type { PracticeId } from '../contracts/index.ts';
import { isUnknown, parseQuantity, parseSize, type Size } from '../quantity/index.ts';

export type Supply = 'alternator' | 'variable' | 'converter';
export type BatterySpot = 'bonnet' | 'seat' | 'behind';
export type Chemistry = 'flooded' | 'agm' | 'gel' | 'lifepo4' | 'sodium-ion';
export type Return = 'cable' | 'body';

/** A number that may be a band; `low` equals `high` when it is none. */
export interface Span {
  readonly low: number;
  readonly high: number;
  /** As a build document writes it. */
  readonly text: string;
}

/** The facts; null is "don't know". */
export interface SixFacts {
  readonly supply: Supply | null;
  /** Only of a converter: A for added loads, as the vehicle's maker states it. */
  readonly addedLimit: Span | null;
  readonly battery: BatterySpot | null;
  /** m, one way, from the vehicle battery to the charger. */
  readonly length: Span | null;
  /** A of the charger's output; null: advise. */
  readonly charger: number | null;
  readonly chemistry: Chemistry | null;
  /** Ah */
  readonly capacity: Span | null;
  readonly return: Return | null;
  /** Empty: don't know. */
  readonly stock: readonly Size[];
  /** Nominal volts of vehicle and house. */
  readonly system: 12 | 24;
  readonly practice: PracticeId;
}

export type FactName =
  | 'supply'
  | 'battery'
  | 'length'
  | 'charger'
  | 'house'
  | 'return'
  | 'stock'
  | 'system'
  | 'practice';

/** One question: what is asked, what may be answered, and what no answer is taken as. */
export interface Question {
  readonly name: FactName;
  readonly asks: string;
  readonly choices: string;
  readonly unknown: string;
}

/** The questions in the order in which they are asked; the last two have a default instead of "don't know". */
export const QUESTIONS: readonly Question[] = [
  {
    name: 'supply',
    asks: 'What feeds the 12/24 V net of the vehicle?',
    choices:
      'alternator, variable (alternator whose voltage varies), converter (hybrid or electric; "converter 20 A" with the maker\'s limit for added loads)',
    unknown: 'any of them: 12.2 to 15.2 V (twice that at 24 V), a converter not excluded',
  },
  {
    name: 'battery',
    asks: 'Where is the vehicle battery?',
    choices: 'bonnet, seat (under a seat), behind (in the load space)',
    unknown: 'under the bonnet',
  },
  {
    name: 'length',
    asks: 'How long is the way from it to the charger, one way?',
    choices:
      'a length such as 4.5 m, a band such as 3..6 m, or short (1 to 2 m), medium (3 to 6 m), long (6 to 10 m)',
    unknown: '1 to 10 m',
  },
  {
    name: 'charger',
    asks: 'How large is the charger (its output current)?',
    choices: '20 A, 30 A, 40 A, 50 A, 60 A, another current, or advise',
    unknown: 'advise: from the idle surplus and the house battery',
  },
  {
    name: 'house',
    asks: 'What is the house battery?',
    choices: 'chemistry and capacity, such as lifepo4 200 Ah; flooded, agm, gel, lifepo4, sodium-ion',
    unknown: 'lifepo4, 100 to 300 Ah',
  },
  {
    name: 'return',
    asks: 'How does the negative come back?',
    choices: 'cable, body',
    unknown: 'both are tried, the worse one counts',
  },
  {
    name: 'stock',
    asks: 'Which cable sizes are in stock?',
    choices: 'sizes with their unit, such as 16 25 35 50 mm2, or 6, 4, 2 AWG',
    unknown: 'the usual row: 10 to 70 mm², or 8 to 2/0 AWG',
  },
];

export type Answers = Readonly<Partial<Record<FactName, string>>>;

/** A fact that could not be read, in one sentence. */
export interface Problem {
  readonly name: FactName;
  readonly message: string;
}

export interface ReadFacts {
  readonly facts: SixFacts;
  readonly problems: readonly Problem[];
}

const LENGTHS: Readonly<Record<string, string>> = { short: '1..2 m', medium: '3..6 m', long: '6..10 m' };
const METRIC_STOCK = ['10 mm2', '16 mm2', '25 mm2', '35 mm2', '50 mm2', '70 mm2'];
const AWG_STOCK = ['8 AWG', '6 AWG', '4 AWG', '2 AWG', '1/0 AWG', '2/0 AWG'];

/** The row of sizes that "don't know" stands for. */
export function usualStock(practice: PracticeId): readonly Size[] {
  return (practice === 'north-america' ? AWG_STOCK : METRIC_STOCK).flatMap((text) => {
    const found = parseSize(text);
    return found.ok ? [found.size] : [];
  });
}

/** Reads the answers; what is missing or "don't know" becomes null, and what cannot be read is named. */
export function readFacts(answers: Answers): ReadFacts {
  const problems: Problem[] = [];
  const read = <T>(name: FactName, otherwise: T, reader: (text: string) => Read<T>): T => {
    const text = (answers[name] ?? '').trim();
    if (isDontKnow(text)) return otherwise;
    const found = reader(text);
    if ('value' in found) return found.value;
    problems.push({ name, message: found.message });
    return otherwise;
  };
  const supply = read<readonly [Supply, Span | null] | null>('supply', null, readSupply);
  const house = read<readonly [Chemistry | null, Span | null]>('house', [null, null], readHouse);
  const facts: SixFacts = {
    supply: supply?.[0] ?? null,
    addedLimit: supply?.[1] ?? null,
    battery: read<BatterySpot | null>('battery', null, (text) => oneOf(text, SPOTS)),
    length: read<Span | null>('length', null, readLength),
    charger: read<number | null>('charger', null, readCharger),
    chemistry: house[0],
    capacity: house[1],
    return: read<Return | null>('return', null, (text) => oneOf(text, RETURNS)),
    stock: read<readonly Size[]>('stock', [], readStock),
    system: read<12 | 24>('system', 12, readSystem),
    practice: read<PracticeId>('practice', 'europe', (text) => oneOf(text, PRACTICES)),
  };
  return { facts, problems };
}

type Read<T> = { readonly value: T } | { readonly message: string };

/** Nothing, "?", "unknown", "don't know", "dont know". */
export function isDontKnow(text: string): boolean {
  return text === '' || text === '?' || isUnknown(text) || /^(i )?(don.?t|do not) know$/i.test(text);
}

const SPOTS: Readonly<Record<string, BatterySpot>> = {
  bonnet: 'bonnet',
  hood: 'bonnet',
  'under the bonnet': 'bonnet',
  seat: 'seat',
  'under a seat': 'seat',
  behind: 'behind',
  rear: 'behind',
};
const RETURNS: Readonly<Record<string, Return>> = {
  cable: 'cable',
  'a cable': 'cable',
  body: 'body',
  'the body': 'body',
  chassis: 'body',
};
const PRACTICES: Readonly<Record<string, PracticeId>> = {
  europe: 'europe',
  'north-america': 'north-america',
  'north america': 'north-america',
};
const SUPPLIES: Readonly<Record<string, Supply>> = {
  alternator: 'alternator',
  'fixed alternator': 'alternator',
  variable: 'variable',
  'variable voltage': 'variable',
  'variable-voltage': 'variable',
  converter: 'converter',
};
const CHEMISTRIES: Readonly<Record<string, Chemistry>> = {
  flooded: 'flooded',
  agm: 'agm',
  gel: 'gel',
  lifepo4: 'lifepo4',
  lfp: 'lifepo4',
  'sodium-ion': 'sodium-ion',
  sodium: 'sodium-ion',
};
function oneOf<T extends string>(text: string, words: Readonly<Record<string, T>>): Read<T> {
  const key = text.toLowerCase();
  const value = Object.hasOwn(words, key) ? words[key] : undefined;
  if (value !== undefined) return { value };
  return notUnderstood(text, [...new Set(Object.values(words))].join(', '));
}

function notUnderstood(text: string, choices: string): { readonly message: string } {
  return { message: `"${text}" is not understood: write ${choices}, or nothing when you don't know` };
}

function readSupply(text: string): Read<readonly [Supply, Span | null]> {
  const match = /^(.*?)\s*(\d.*)?$/.exec(text);
  const word = (match?.[1] ?? '').toLowerCase();
  const supply = Object.hasOwn(SUPPLIES, word) ? SUPPLIES[word] : undefined;
  if (supply === undefined) return notUnderstood(text, 'alternator, variable, or converter');
  const limitText = match?.[2];
  if (limitText === undefined) return { value: [supply, null] };
  if (supply !== 'converter') return { message: `"${text}": only a converter has a limit for added loads` };
  const limit = readSpan(limitText, 'current', 1, 500);
  return 'value' in limit ? { value: [supply, limit.value] } : limit;
}

/** The questions name their unit, so a bare number (or band) is in it; elsewhere a number without a unit is refused. */
const ASKED_IN = { length: 'm', current: 'A', charge: 'Ah' } as const;

function withUnit(text: string, dimension: keyof typeof ASKED_IN): string {
  return /^[\d.,\s]+$/.test(text) ? `${text.trim()} ${ASKED_IN[dimension]}` : text;
}

function readLength(text: string): Read<Span> {
  return readSpan(LENGTHS[text.toLowerCase()] ?? text, 'length', 0.2, 30);
}

function readCharger(text: string): Read<number | null> {
  if (/^advise$/i.test(text)) return { value: null };
  const read = parseQuantity(withUnit(text, 'current'), 'current', { min: 1, max: 200, band: false });
  return read.ok ? { value: read.value } : { message: read.message };
}

const HOUSE = /^(lifepo4|[a-z-]+)?\s*(\d.*)?$/i;

function readHouse(text: string): Read<readonly [Chemistry | null, Span | null]> {
  const match = HOUSE.exec(text);
  const word = (match?.[1] ?? '').toLowerCase();
  const chemistry = word === '' ? null : Object.hasOwn(CHEMISTRIES, word) ? CHEMISTRIES[word] : undefined;
  if (match === null || chemistry === undefined)
    return notUnderstood(
      text,
      'a chemistry (flooded, agm, gel, lifepo4, sodium-ion) and a capacity, such as lifepo4 200 Ah',
    );
  const capacityText = match[2];
  if (capacityText === undefined) return { value: [chemistry, null] };
  const capacity = readSpan(capacityText, 'charge', 1, 5000);
  return 'value' in capacity ? { value: [chemistry, capacity.value] } : capacity;
}

function readSpan(
  text: string,
  dimension: 'length' | 'current' | 'charge',
  min: number,
  max: number,
): Read<Span> {
  const read = parseQuantity(withUnit(text, dimension), dimension, { min, max });
  if (!read.ok) return { message: read.message };
  return {
    value: { low: read.band?.[0] ?? read.value, high: read.band?.[1] ?? read.value, text: read.text },
  };
}

function readSystem(text: string): Read<12 | 24> {
  const volts = Number(/^(\d+)\s*v?$/i.exec(text)?.[1]);
  return volts === 12 || volts === 24
    ? { value: volts }
    : { message: `"${text}" is not understood: write 12 V or 24 V` };
}

const UNIT = /(mm2|mm²|mm\^2|awg|sae|sqmm)$/i;

/** A list whose unit may stand once, at the end: `16 25 35 mm2`, `6, 4, 2 AWG`, `16 mm2, 4 AWG`. */
function readStock(text: string): Read<readonly Size[]> {
  const tokens = text
    .replace(/(\d)\s+(?=mm|awg|sae|sq)/gi, '$1')
    .split(/[\s,;]+/)
    .filter((token) => token !== '');
  const unit = UNIT.exec(tokens.at(-1) ?? '')?.[1] ?? '';
  const sizes: Size[] = [];
  for (const token of tokens) {
    const written = /^[\d.,/]+$/.test(token) && unit !== '' ? `${token} ${unit}` : token.replace(UNIT, ' $1');
    const found = parseSize(written);
    if (!found.ok) return { message: found.message };
    sizes.push(found.size);
  }
  return { value: sizes };
}
