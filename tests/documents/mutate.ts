/** Damages documents in ways that people, editors and transfers do, and worse; repeatable by a seed. */

/** Whole numbers from 0 up to below a bound. */
export interface Chance {
  below(bound: number): number;
  pick<T>(items: readonly T[]): T;
}

/** A generator of 32-bit state (mulberry32, public domain): the same numbers for the same seed on every machine. */
export function seeded(seed: number): Chance {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const below = (bound: number): number => Math.floor(next() * bound);
  return {
    below,
    pick: <T>(items: readonly T[]): T => {
      const item = items[below(items.length)];
      if (item === undefined) throw new RangeError('nothing to pick from');
      return item;
    },
  };
}

const CHARACTERS = [
  ...Array.from('{}[]:,#\'"-?!&*|>%@`~\\/.+=<>()0123456789 \t\n'),
  '\r\n',
  'é',
  'Ω',
  '½',
  '\u00A0',
  '\u200B',
  '\u2028',
  '\uFEFF',
  '😀',
  '\u0000',
  '\r',
] as const;

const VALUES = [
  'unknown',
  'never',
  'auto',
  'yes',
  'no',
  'null',
  '~',
  '',
  '-',
  '0',
  '-1',
  '1e9',
  '0x1F',
  'NaN',
  '.inf',
  '13,2 V',
  '1,300 A',
  '25',
  '25 mm',
  '#4',
  '"#4"',
  '4 ga',
  '3..8 mΩ',
  '8..3 mΩ',
  '999999999999999999999 V',
  '-300 °C',
  '[1, 2]',
  '{ a: 1 }',
  '[[40 °C, 1.0]]',
  '{}',
  '[]',
  '&a b',
  '*a',
  '!!str x',
  'a.b',
  '.',
  '__proto__',
  'constructor',
  'toString',
  "it's",
  '"',
  "'",
  '|',
  '>',
  '2 h 40 min',
  'others',
  'battery.+',
  '12 V after 5 s',
] as const;

type Mutator = (text: string, chance: Chance) => string;

const cut = (text: string, at: number, remove: number, put = ''): string =>
  text.slice(0, at) + put + text.slice(at + remove);

const onLines =
  (change: (lines: string[], at: number, chance: Chance) => void): Mutator =>
  (text, chance) => {
    const lines = text.split('\n');
    change(lines, chance.below(lines.length), chance);
    return lines.join('\n');
  };

/** Stretches behind a colon, up to a comma, a brace or the line's end. */
const VALUE = /(?<=: )[^,{}[\]\n#]+/g;

function onValue(change: (value: string, others: readonly string[], chance: Chance) => string): Mutator {
  return (text, chance) => {
    const found = [...text.matchAll(VALUE)];
    if (found.length === 0) return text;
    const { index, 0: value } = chance.pick(found);
    return cut(
      text,
      index,
      value.length,
      change(
        value,
        found.map((m) => m[0]),
        chance,
      ),
    );
  };
}

const MUTATORS: readonly Mutator[] = [
  (text, chance) => cut(text, chance.below(text.length + 1), 1),
  (text, chance) => cut(text, chance.below(text.length + 1), chance.below(40)),
  (text, chance) => {
    const at = chance.below(text.length + 1);
    return cut(text, at, 0, text.charAt(at));
  },
  (text, chance) => cut(text, chance.below(text.length + 1), 1, chance.pick(CHARACTERS)),
  (text, chance) => cut(text, chance.below(text.length + 1), 0, chance.pick(CHARACTERS)),
  (text, chance) => cut(text, chance.below(text.length + 1), 0, chance.pick(VALUES)),
  (text, chance) => {
    const at = chance.below(text.length + 1);
    return cut(text, at, 2, `${text.charAt(at + 1)}${text.charAt(at)}`);
  },
  (text, chance) => text.slice(0, chance.below(text.length + 1)),
  onLines((lines, at) => lines.splice(at, 1)),
  onLines((lines, at) => lines.splice(at, 0, lines[at] ?? '')),
  onLines((lines, at, chance) => {
    const other = chance.below(lines.length);
    [lines[at], lines[other]] = [lines[other] ?? '', lines[at] ?? ''];
  }),
  onLines((lines, at, chance) => {
    lines[at] = `${chance.pick([' ', '  ', '\t', '- ', '? ', '    '])}${lines[at] ?? ''}`;
  }),
  onLines((lines, at) => {
    lines[at] = (lines[at] ?? '').trimStart();
  }),
  onLines((lines, at) => {
    lines[at] = `${lines[at] ?? ''}\r`;
  }),
  onValue((_value, _others, chance) => chance.pick(VALUES)),
  onValue((_value, others, chance) => chance.pick(others)),
  onValue((value) => value.replace(/ ?[^\d.,\s-]+$/, '')),
  onValue((value) => `"${value}`),
  onValue((value) => `[${value}]`),
  onValue((value) => value.toUpperCase()),
];

/**
 * The text with faults in it. `small`: one to three; `full`: up to twenty. The same seed gives the same text.
 */
export function mutate(text: string, seed: number, extent: 'small' | 'full' = 'small'): string {
  const chance = seeded(seed);
  const count = 1 + chance.below(extent === 'small' ? 3 : 20);
  let damaged = text;
  for (let i = 0; i < count; i++) damaged = chance.pick(MUTATORS)(damaged, chance);
  return damaged;
}
