/** A few kinds of part for testing the reader without the real ones. */
import type {
  Ability,
  FieldTable,
  Kind,
  Part,
  Registry,
  Shape,
  Terminals,
  ValueReader,
} from '../../contracts/index.ts';
import { STATE_IDS } from '../../contracts/index.ts';
import { parseThreshold } from '../../quantity/index.ts';

const text: Shape = { shape: 'text' };
const volts: Shape = { shape: 'quantity', dimension: 'voltage', min: 0 };
const amps: Shape = { shape: 'quantity', dimension: 'current', min: 0 };
const field = (shape: Shape) => ({ shape, doc: 'For tests.' });

const COMMON: FieldTable = {
  label: field(text),
  standby: field(amps),
  reach: field({
    shape: 'record',
    fields: { who: field({ shape: 'choice', of: ['owner', 'workshop'] }), tool: field({ shape: 'flag' }) },
  }),
};

function kind(
  name: string,
  fields: FieldTable,
  terminals: readonly string[] | 'numbered' | ((read: ValueReader) => Terminals),
  more: Partial<Kind> = {},
): Kind {
  const fixed: Terminals | undefined =
    terminals === 'numbered'
      ? { type: 'numbered' }
      : typeof terminals === 'function'
        ? undefined
        : { type: 'named', names: terminals };
  return {
    name,
    title: name,
    letter: 'X',
    fields,
    terminals: (read) => fixed ?? (terminals as (read: ValueReader) => Terminals)(read),
    abilities: (): Ability => ({}),
    elements: () => [],
    example: '',
    ...more,
  };
}

const threshold: Shape = {
  shape: 'phrase',
  expected: '"13.3 V after 15 s"',
  pattern: '[0-9].*V',
  read: (raw) => {
    const found = parseThreshold(raw);
    return found.ok ? { ok: true, value: found.value } : found;
  },
};

const KINDS: readonly Kind[] = [
  kind(
    'battery',
    {
      system: field(text),
      role: field({ shape: 'choice', of: ['vehicle', 'house'] }),
      chemistry: field({ shape: 'choice', of: ['flooded', 'agm', 'gel', 'lifepo4', 'sodium-ion'] }),
      capacity: field({ shape: 'quantity', dimension: 'charge' }),
      resistance: field({ shape: 'quantity', dimension: 'resistance' }),
      held: field({ shape: 'quantity', dimension: 'voltage', band: false }),
    },
    ['+', '-'],
  ),
  kind(
    'charger',
    {
      'input-system': field(text),
      current: field(amps),
      voltage: field({ shape: 'record', fields: { absorption: field(volts), float: field(volts) } }),
      starts: field(threshold),
      stops: field(threshold),
      efficiency: field({
        shape: 'any-of',
        of: [
          { shape: 'quantity', dimension: 'share', min: 0.1, max: 1 },
          {
            shape: 'list',
            of: {
              shape: 'row',
              of: [
                { shape: 'number', min: 0, max: 1 },
                { shape: 'number', min: 0, max: 1 },
              ],
            },
            min: 1,
          },
        ],
        expected: '0.88 or [[0.5, 0.9], [1, 0.88]]',
      }),
      coil: field({
        shape: 'any-of',
        of: [
          { shape: 'quantity', dimension: 'resistance' },
          { shape: 'quantity', dimension: 'current' },
        ],
        expected: '85 Ω or 150 mA',
      }),
    },
    ['in+', 'in-', 'out+', 'out-', 'enable'],
    {
      contradictions: (read) =>
        read.given('starts') && read.given('stops') && stopsAbove(read)
          ? [{ field: 'stops', message: 'found a stop threshold above the start threshold; exchange them' }]
          : [],
    },
  ),
  kind(
    'switch',
    {
      poles: field({ shape: 'number', min: 1, max: 2 }),
      rating: field(amps),
      momentary: field({ shape: 'flag' }),
      opens: field({ shape: 'quantity', dimension: 'time', never: true }),
    },
    (read) => ({
      type: 'named',
      names: read.raw('poles') === 2 ? ['in', 'out', 'in.2', 'out.2'] : ['in', 'out'],
    }),
  ),
  kind(
    'fuse',
    {
      rating: field(amps),
      curve: field({
        shape: 'list',
        of: {
          shape: 'record',
          fields: {
            at: field({ shape: 'quantity', dimension: 'share' }),
            opens: field({ shape: 'quantity', dimension: 'time', never: true }),
          },
        },
      }),
    },
    ['line', 'load'],
  ),
  kind('busbar', { rating: field(amps) }, 'numbered'),
  kind('body-section', { medium: field({ shape: 'choice', of: ['steel', 'composite'] }) }, [], {
    abilities: () => ({ section: { medium: 'steel', spread: null } }),
  }),
  kind('chassis-point', { section: field(text) }, ['stud']),
  kind('strap', { from: field(text), to: field(text) }, []),
  kind(
    'supply-point',
    {
      live: field({ shape: 'list', of: { shape: 'choice', of: STATE_IDS } }),
      dead: field({
        shape: 'any-of',
        of: [
          { shape: 'choice', of: ['others'] },
          { shape: 'list', of: { shape: 'choice', of: STATE_IDS } },
        ],
        expected: 'others, or a list of states',
      }),
      measured: field({ shape: 'flag' }),
    },
    ['out'],
  ),
  kind(
    'base-load',
    {
      current: field({
        shape: 'any-of',
        of: [amps, { shape: 'map', keys: STATE_IDS, of: amps }],
        expected: 'a current, or currents by state',
      }),
    },
    ['+', '-'],
  ),
];

function stopsAbove(read: ValueReader): boolean {
  const value = (name: string) => (read.raw(name) as { voltage: { value: number } }).voltage.value;
  return value('stops') > value('starts');
}

const unused = (): never => {
  throw new Error('not used by the test kinds');
};

function readerFor(part: Part): ValueReader {
  return {
    quantity: unused,
    number: unused,
    choice: unused,
    flag: unused,
    resolve: unused,
    figure: unused,
    raw: (name) => part.fields[name] ?? null,
    given: (name) => part.fields[name] !== undefined && part.fields[name] !== 'unknown',
    about: { nominal: 12 },
  };
}

/** The registry of the test kinds. */
export const testRegistry: Registry = {
  kinds: new Map(KINDS.map((k) => [k.name, k])),
  common: COMMON,
  readerFor,
};
