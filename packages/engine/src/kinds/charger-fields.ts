/** Fields of a dc charger. */
import type { FieldContext, FieldTable, ValueReader } from '../contracts/index.ts';
import { inputNominal, setDefault } from './charger-model.ts';
import { memory, scaled } from './figures.ts';
import { chargerEfficiency } from '../reference/index.ts';
import { lowInputShape, samplingShape, thresholdShape } from './phrases.ts';
import { greatestVolts } from './protect.ts';
import {
  anyOf,
  choice,
  field,
  flag,
  listShape,
  quantity,
  quantityShape,
  recordShape,
  rowShape,
  systemField,
  text,
} from './shapes.ts';

const MODES = ['voltage', 'signal', 'signal-and-voltage'] as const;

const thresholds = (doc: string) =>
  field(
    anyOf(
      '"13.3 V after 15 s", or one for each mode: `{ voltage: 13.3 V after 15 s, signal: 12.3 V after 15 s }`',
      thresholdShape,
      recordShape(Object.fromEntries(MODES.map((mode) => [mode, field(thresholdShape, `In mode ${mode}.`)]))),
    ),
    doc,
  );

const share = quantityShape('share', { min: 0, max: 1 });

const atInput =
  (volts: number, source: string, low: number, high: number) => (read: ValueReader, about: FieldContext) =>
    scaled(memory(volts, 'V', source, [low, high]), inputNominal(read, about) / 12);

export const chargerFields: FieldTable = {
  'input-system': systemField('Name of the system at its input; the vehicle when not given.'),
  'output-system': systemField('Name of the system at its output; the house when not given.'),
  current: quantity('current', 'Rated output current, A.', { wanted: true, slack: 'up' }),
  voltage: field(
    recordShape({
      absorption: quantity('voltage', 'Absorption voltage, V.', { fallback: setDefault, slack: 'up' }),
      float: quantity('voltage', 'Float voltage, V.'),
    }),
    'Set voltages: `{ absorption: 14.4 V, float: 13.6 V }`.',
  ),
  'low-input': field(
    lowInputShape,
    'What it does when its input falls: `stops`, `holds 12.9 V`, or `reduces from 13.0 V to 12.0 V`; stops when not given.',
  ),
  enable: choice(MODES, 'What switches it on: input voltage, a run signal, or both.', { wanted: true }),
  starts: thresholds('Input voltage at which it starts, V, and for how long.'),
  stops: thresholds('Input voltage below which it stops, V, and for how long.'),
  minimum: quantity('voltage', 'Input voltage below which it cannot work, V.', {
    label: 'lowest working input',
    fallback: atInput(10.5, 'usual charger', 9, 11),
  }),
  'input-limit': quantity('current', 'Greatest input current that it ever takes, A.'),
  efficiency: field(
    anyOf(
      'a share such as 0.88, or a table such as [[0.1, 0.80], [0.5, 0.90], [1.0, 0.88]]',
      quantityShape('share', { min: 0.3, max: 1 }),
      listShape(rowShape(share, share), 1),
    ),
    'Efficiency: one figure, or [share of rated current, efficiency] pairs.',
    { slack: 'down', fallback: () => chargerEfficiency },
  ),
  negative: choice(['common', 'isolated'], 'Whether input and output share their negative inside.', {
    wanted: true,
  }),
  sense: choice(['none', 'output', 'input'], 'What its sense terminals belong to.', {
    fallback: () => 'none',
  }),
  'enable-on': quantity('voltage', 'Voltage at the enable terminal above which a signal counts, V.', {
    label: 'enable threshold',
    fallback: atInput(8, 'usual enable input', 2, 9),
  }),
  'enable-max': quantity('voltage', 'Greatest voltage allowed at the enable terminal, V.', {
    label: 'greatest enable voltage',
    fallback: (read, about) =>
      memory(
        greatestVolts({ nominal: inputNominal(read, about) }),
        'V',
        'enable inputs are built for the net of the vehicle',
      ),
  }),
  'enable-resistance': quantity('resistance', 'Resistance of the enable input, Ω.', {
    fallback: () => memory(10_000, 'Ω', 'usual enable input', [3000, 100_000]),
  }),
  derates: quantity('temperature', 'Air temperature from which it gives less, °C; half at 20 K above.', {
    label: 'derating temperature',
    fallback: () => memory(45, '°C', 'usual charger', [40, 50]),
  }),
  'two-way': flag('Whether it can also feed from output to input.', false),
  samples: field(samplingShape, 'Pauses in which it looks at its input unloaded: `5 s every 3 min`.'),
  profile: text('Charging profile that is set.'),
  maker: field(
    recordShape({
      fuse: quantity('current', 'Input fuse that the maker prints, A.'),
      cable: text('Input cable that the maker prints.'),
      input: quantity('current', 'Greatest input current that the maker prints, A.'),
    }),
    "What the maker's manual prints: `{ fuse: 60 A, cable: 16 mm2, input: 50 A }`.",
  ),
};
