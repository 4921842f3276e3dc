/** The six facts: how they are asked, what may be chosen, what "don't know" is taken as. */
import { isDontKnow, type Answers, type FactName } from '@loomwright/engine';

export type FactId = 'supply' | 'way' | 'charger' | 'house' | 'return' | 'stock';

/** Answers that are given; undefined: not known. */
export type Gives = Readonly<Partial<Record<FactName, string | undefined>>>;

export interface Choice {
  readonly label: string;
  /** What it gives on top of the answers there are when it is taken: two quick presses are both heard. */
  readonly gives: (answers: Answers) => Gives;
}

export interface Group {
  readonly caption: string;
  readonly choices: readonly Choice[];
  /** Goes on to the next fact when chosen. */
  readonly last: boolean;
}

export interface Fact {
  readonly id: FactId;
  readonly name: string;
  /** Where it stands, behind the name in the slip. */
  readonly more: string;
  readonly names: readonly FactName[];
  readonly groups: readonly Group[];
  /** What may be typed; null: nothing. */
  readonly typed: { readonly name: FactName; readonly label: string; readonly example: string } | null;
  /** Several may be chosen. */
  readonly many: boolean;
}

const one = (name: FactName, label: string, value: string | undefined = label): Choice => ({
  label,
  gives: () => ({ [name]: value }),
});
const DONT_KNOW = 'don’t know';

const SUPPLY: Fact = {
  id: 'supply',
  name: 'Feeds the 12/24 V net',
  more: 'while the vehicle runs',
  names: ['supply'],
  groups: [
    {
      caption: '',
      last: true,
      choices: [
        one('supply', 'alternator'),
        one('supply', 'alternator, voltage varies', 'variable'),
        one('supply', 'converter (hybrid, electric)', 'converter'),
        { label: DONT_KNOW, gives: () => ({ supply: undefined }) },
      ],
    },
  ],
  typed: { name: 'supply', label: 'Converter with its maker’s limit', example: 'converter 20 A' },
  many: false,
};

const wayFact = (feet: boolean): Fact => ({
  id: 'way',
  name: 'Vehicle battery, to charger',
  more: 'one way, along the cable',
  names: ['battery', 'length'],
  groups: [
    {
      caption: 'The battery is',
      last: false,
      choices: [
        one('battery', 'under the bonnet', 'bonnet'),
        one('battery', 'under a seat', 'seat'),
        one('battery', 'behind', 'behind'),
      ],
    },
    {
      caption: 'The way is',
      last: true,
      choices: [
        one('length', 'short, 1 to 2 m', '1..2 m'),
        one('length', feet ? 'medium, 10 to 20 ft' : 'medium, 3 to 6 m', '3..6 m'),
        one('length', feet ? 'long, 20 to 33 ft' : 'long, 6 to 10 m', '6..10 m'),
        { label: DONT_KNOW, gives: () => ({ length: undefined }) },
      ],
    },
  ],
  typed: { name: 'length', label: 'Length, or a band', example: feet ? '11 ft 10 in' : '3.6 m' },
  many: false,
});
const WAY = wayFact(false);
const WAY_FEET = wayFact(true);

const CHARGER: Fact = {
  id: 'charger',
  name: 'Charger',
  more: 'its output current',
  names: ['charger'],
  groups: [
    {
      caption: '',
      last: true,
      choices: [
        ...['20 A', '30 A', '40 A', '50 A', '60 A'].map((amps) => one('charger', amps)),
        { label: 'don’t know: advise', gives: () => ({ charger: undefined }) },
      ],
    },
  ],
  typed: { name: 'charger', label: 'Another current', example: '25 A' },
  many: false,
};

const CHEMISTRIES: readonly (readonly [string, string])[] = [
  ['LiFePO4', 'lifepo4'],
  ['AGM', 'agm'],
  ['Gel', 'gel'],
  ['Flooded', 'flooded'],
  ['Sodium-ion', 'sodium-ion'],
];

function joined(...words: readonly (string | undefined)[]): string | undefined {
  const known = words.filter((word) => word !== undefined && word !== '');
  return known.length === 0 ? undefined : known.join(' ');
}

/** The house battery is one answer of two words; each choice keeps the other word. */
const HOUSE: Fact = {
  id: 'house',
  name: 'House battery',
  more: 'chemistry and capacity',
  names: ['house'],
  groups: [
    {
      caption: 'Chemistry',
      last: false,
      choices: CHEMISTRIES.map(([label, word]) => ({
        label,
        gives: ({ house }: Answers) => ({ house: joined(word, houseOf(house).capacity) }),
      })),
    },
    {
      caption: 'Capacity',
      last: true,
      choices: [
        ...['100 Ah', '200 Ah', '300 Ah'].map((amount) => ({
          label: amount,
          gives: ({ house }: Answers) => ({ house: joined(houseOf(house).chemistry, amount) }),
        })),
        { label: DONT_KNOW, gives: () => ({ house: undefined }) },
      ],
    },
  ],
  typed: { name: 'house', label: 'As on its plate', example: 'lifepo4 230 Ah' },
  many: false,
};

export function houseOf(answer: string | undefined): {
  readonly chemistry: string | undefined;
  readonly capacity: string | undefined;
} {
  const match = /^(lifepo4|[a-z-]+)?\s*(\d.*)?$/i.exec(answer ?? '');
  return { chemistry: match?.[1], capacity: match?.[2] };
}

const RETURN: Fact = {
  id: 'return',
  name: 'Way back',
  more: 'from the charger’s minus',
  names: ['return'],
  groups: [
    {
      caption: '',
      last: true,
      choices: [
        one('return', 'a cable', 'cable'),
        one('return', 'the body', 'body'),
        { label: DONT_KNOW, gives: () => ({ return: undefined }) },
      ],
    },
  ],
  typed: null,
  many: false,
};

const SIZES = {
  metric: ['10', '16', '25', '35', '50', '70'].map((size) => `${size} mm2`),
  imperial: ['8', '6', '4', '2', '1/0', '2/0'].map((size) => `${size} AWG`),
};

function stockFact(row: readonly string[], example: string): Fact {
  const toggled = (size: string, answer: string | undefined): string | undefined => {
    const ticked = stockOf(answer);
    const next = ticked.includes(size)
      ? ticked.filter((each) => each !== size)
      : [...ticked, size].toSorted((a, b) => order(row, a) - order(row, b));
    return next.length === 0 ? undefined : next.join(', ');
  };
  return {
    id: 'stock',
    name: 'Sizes in stock',
    more: 'tick what is on the shelf',
    names: ['stock'],
    groups: [
      {
        caption: '',
        last: false,
        choices: row.map((size) => ({
          label: sizeWords(size),
          gives: ({ stock }: Answers) => ({ stock: toggled(size, stock) }),
        })),
      },
      { caption: '', last: true, choices: [{ label: DONT_KNOW, gives: () => ({ stock: undefined }) }] },
    ],
    typed: { name: 'stock', label: 'Or all at once', example },
    many: true,
  };
}

const order = (row: readonly string[], size: string): number =>
  row.includes(size) ? row.indexOf(size) : row.length;

/** The ticked sizes, each with its unit. */
export function stockOf(answer: string | undefined): readonly string[] {
  if (answer === undefined) return [];
  const unit = /(mm2|mm²|awg|sae)\s*$/i.exec(answer)?.[1] ?? 'mm2';
  return answer
    .replace(/(\d)\s+(?=mm|awg|sae)/gi, '$1')
    .split(/[\s,;]+/)
    .filter((each) => each !== '')
    .map((each) => {
      const number = each.replace(/(mm2|mm²|awg|sae)$/i, '');
      const own = /(mm2|mm²|awg|sae)$/i.exec(each)?.[1] ?? unit;
      return `${number} ${/mm/i.test(own) ? 'mm2' : own.toUpperCase()}`;
    });
}

export const sizeWords = (size: string): string => size.replace('mm2', 'mm²').replace(' ', '\u00a0');

const STOCK_METRIC = stockFact(SIZES.metric, '16 25 35 mm2');
const STOCK_AWG = stockFact(SIZES.imperial, '6, 4, 2 AWG');

/** The facts in the order in which they stand. */
export function factsFor(american: boolean, feet: boolean): readonly Fact[] {
  return [SUPPLY, feet ? WAY_FEET : WAY, CHARGER, HOUSE, RETURN, american ? STOCK_AWG : STOCK_METRIC];
}

/** Whether a fact is known in whole, in part, or not at all. */
export function knownOf(fact: Fact, answers: Answers): 'given' | 'part' | 'unknown' {
  if (fact.id === 'house') {
    const { chemistry, capacity } = houseOf(answers.house);
    return chemistry !== undefined && capacity !== undefined
      ? 'given'
      : chemistry === capacity
        ? 'unknown'
        : 'part';
  }
  const known = fact.names.filter((name) => answers[name] !== undefined && !isDontKnow(answers[name]));
  return known.length === fact.names.length ? 'given' : known.length === 0 ? 'unknown' : 'part';
}

const SPOTS: Readonly<Record<string, string>> = { bonnet: 'bonnet', seat: 'under a seat', behind: 'behind' };
const SUPPLIES: Readonly<Record<string, string>> = {
  variable: 'alternator, varies',
  body: 'the body',
  cable: 'a cable',
};
const CHEMISTRY_WORDS: Readonly<Record<string, string>> = Object.fromEntries(
  CHEMISTRIES.map(([label, word]) => [word, label]),
);

/** The fact in few words, for its cell. */
export function valueOf(fact: Fact, answers: Answers, advised: string | null, drawn = false): string {
  const value = plainValue(fact, answers, advised);
  return drawn ? value.replace(/don’t know|length\?/, AS_DRAWN) : value;
}

/** Of a build that was drawn: what the six facts do not say stands in the drawing. */
const AS_DRAWN = 'as drawn';

function plainValue(fact: Fact, answers: Answers, advised: string | null): string {
  if (fact.id === 'way') return wayWords(answers);
  if (fact.id === 'house') return houseWords(answers.house);
  if (fact.id === 'stock') return stockWords(answers.stock);
  const value = answers[fact.names[0] as FactName];
  if (value === undefined)
    return fact.id === 'charger' && advised !== null ? `don’t know, ${advised}` : DONT_KNOW;
  return SUPPLIES[value] ?? value;
}

function wayWords({ battery, length }: Answers): string {
  if (battery === undefined && length === undefined) return DONT_KNOW;
  const spot = battery === undefined ? 'place?' : (SPOTS[battery] ?? battery);
  return `${spot}, ${length === undefined ? 'length?' : length.replace('..', ' to ')}`;
}

function houseWords(answer: string | undefined): string {
  const { chemistry, capacity } = houseOf(answer);
  if (chemistry === undefined && capacity === undefined) return DONT_KNOW;
  const named = chemistry === undefined ? 'chemistry?' : (CHEMISTRY_WORDS[chemistry] ?? chemistry);
  return `${named} ${capacity === undefined ? 'Ah?' : capacity.replace('..', ' to ')}`;
}

function stockWords(answer: string | undefined): string {
  const sizes = stockOf(answer);
  if (sizes.length === 0) return DONT_KNOW;
  const units = new Set(sizes.map((size) => size.split(' ')[1]));
  if (units.size > 1) return sizes.map(sizeWords).join(', ');
  return `${sizes.map((size) => size.split(' ')[0]).join(' ')} ${[...units][0] === 'mm2' ? 'mm²' : [...units][0]}`;
}

/** Whether a choice is the present answer; of several that may be chosen, whether it is one of them. */
export function isChosen(fact: Fact, choice: Choice, answers: Answers): boolean {
  if (fact.many && choice.label !== DONT_KNOW)
    return stockOf(answers.stock).some((size) => sizeWords(size) === choice.label);
  if (fact.id === 'house') return isHouseChosen(choice, answers);
  return Object.entries(choice.gives(answers)).every(([name, value]) => answers[name as FactName] === value);
}

function isHouseChosen(choice: Choice, answers: Answers): boolean {
  const { chemistry, capacity } = houseOf(answers.house);
  if (choice.label === DONT_KNOW) return chemistry === undefined && capacity === undefined;
  return (
    choice.label === capacity || (chemistry !== undefined && CHEMISTRY_WORDS[chemistry] === choice.label)
  );
}
