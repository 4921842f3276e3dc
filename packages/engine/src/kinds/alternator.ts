/** The vehicle's alternator: regulates, or is at its limit, or is blocked; it never absorbs. */
import type { Basis, CornerFacts, FieldTable, Kind, StateFacts, ValueReader } from '../contracts/index.ts';
import type { Plate } from '../quantity/index.ts';
import { alternatorGradient, alternatorHotFactor } from '../reference/index.ts';
import { statedRating } from './common.ts';
import { ask, derived, practice, scaled } from './figures.ts';
import { plateShape } from './phrases.ts';
import { choice, field, quantity, signed, systemField } from './shapes.ts';
import { STIFF_AMPS, holding, statedEnvelope } from './supply.ts';
import { generatorGlyph, plate } from './symbols.ts';

/** Share of the rating that it gives when hot, without a plate (common practice): at idling speed, at road speed. */
const HOT_SHARE = {
  idle: { value: 0.4, band: [0.3, 0.6] },
  road: { value: 0.8, band: [0.75, 0.9] },
} as const;

const OUTPUT_FIELD = { idle: 'idle-output', road: 'hot-output' } as const;

const fields: FieldTable = {
  system: systemField(),
  plate: field(
    plateShape,
    'Its plate in the form of ISO 8854: output at idling speed / rated output A, test voltage V.',
  ),
  output: quantity('current', 'Rated output where no plate in that form is found, A.', {
    slack: 'down',
    fallback: (read, about) => {
      if (plateOf(read) !== null) return null;
      const scale = 12 / about.nominal;
      return practice(120 * scale, 'A', 'alternator without a plate, 120 A at 12 V, equal power elsewhere', [
        90 * scale,
        150 * scale,
      ]);
    },
  }),
  'idle-output': quantity('current', 'Output at idling speed when hot, A.', {
    slack: 'down',
    how: 'measure with a clamp at hot idle under full load',
    effort: 'engine',
  }),
  'hot-output': quantity('current', 'Output at road speed when hot, A.', {
    slack: 'down',
    how: 'measure with a clamp while driving under full load',
    effort: 'log',
  }),
  'set-point': quantity('voltage', 'Voltage that it holds at 20 °C, V.', { slack: 'down' }),
  gradient: signed('gradient', 'Change of the set point with its temperature, V/K.', {
    fallback: (_read, about) => scaled(alternatorGradient, about.nominal / 12),
  }),
  sense: choice(
    ['posts', 'own'],
    "Where it senses: at the vehicle battery's posts, or at its own terminals.",
    {
      fallback: () => 'posts',
    },
  ),
};

function plateOf(read: ValueReader): Plate | null {
  const raw = read.raw('plate');
  return typeof raw === 'object' && raw !== null && 'idle' in raw ? (raw as Plate) : null;
}

/** Greatest current in a state and corner, A: surveyed, stated, by the plate, or by the published share of the rating. */
function limit(read: ValueReader, state: StateFacts, corner: CornerFacts): Basis | null {
  if (state.supply !== 'alternator') return null;
  if (state.output !== null) return state.output;
  const speed = state.speed ?? 'road';
  const own = OUTPUT_FIELD[speed];
  if (read.given(own)) return read.quantity(own);
  const plate = plateOf(read);
  return plate === null ? byShare(read, speed) : byPlate(read, plate, speed, corner);
}

function byPlate(read: ValueReader, plate: Plate, speed: 'idle' | 'road', corner: CornerFacts): Basis | null {
  const amps = speed === 'idle' ? plate.idle : plate.rated;
  const stated = { value: amps, text: `${amps} A` };
  const printed = read.resolve('plate', stated, null, ask('plate of {part}'));
  if (printed === null || corner.air !== 'hottest') return printed;
  const factor = read.figure(
    `table:alternator/hot-${speed}`,
    speed === 'idle' ? alternatorHotFactor.idle : alternatorHotFactor.speed,
    ask('hot output over the plate', 'down'),
  );
  const name = `hot-${speed}`;
  return derived(name, `output ${WHEN[speed]}, hot`, amps * factor.sourced.value, 'A', [printed, factor]);
}

function byShare(read: ValueReader, speed: 'idle' | 'road'): Basis | null {
  const rated = read.quantity('output');
  if (rated === null) return null;
  const { value, band } = HOT_SHARE[speed];
  const amps = rated.sourced.value;
  const fallback = practice(amps * value, 'A', `${value * 100} % of the rating ${WHEN[speed]}, hot`, [
    amps * band[0],
    amps * band[1],
  ]);
  return read.resolve(
    OUTPUT_FIELD[speed],
    null,
    fallback,
    ask(`output of {part} ${WHEN[speed]}`, 'down', 'read', 'read its plate'),
  );
}

const WHEN = { idle: 'at idling speed', road: 'at road speed' } as const;

/** Its rated output. */
function printedOutput(read: ValueReader): readonly string[] {
  const rated = plateOf(read)?.rated;
  return rated === undefined ? plate(read, 'output') : [`${rated}\u00A0A`];
}

export const alternator: Kind = {
  name: 'alternator',
  title: 'alternator',
  letter: 'G',
  home: 'vehicle',
  fields,
  terminals: () => ({ type: 'named', names: ['+', '-'] }),
  atPostsWhenUnwired: { plus: '+', minus: '-' },
  implied: (vehicle) => vehicle.hasVehicleBattery && vehicle.supply !== 'converter',
  abilities: (read) => ({
    generates: {
      plus: '+',
      minus: '-',
      role: 'vehicle-supply',
      limit: (state, corner) => limit(read, state, corner),
      setPoint: (state, about) =>
        state.supply === 'alternator' && !state.recovering
          ? statedEnvelope(read, about.nominal, about.coldestAir)
          : null,
      addedLimit: null,
      above: 'folds-back',
      selfLimiting: true,
    },
    across: [['+', '-']],
    dcRating: statedRating(read),
  }),
  symbol: (read) => ({
    shape: 'round',
    terminals: ['+', '-'],
    glyph: generatorGlyph,
    plate: printedOutput(read),
  }),
  elements: (at) => [
    holding(at, {
      feeds: at.state.supply === 'alternator',
      limit: limit(at.read, at.state, at.corner)?.sourced.value ?? STIFF_AMPS,
      volts: at.setPoint?.sourced.value ?? 0,
      senseOwn: at.read.choice('sense') === 'own',
    }),
  ],
  example: `loomwright: 1
title: A van's alternator by its plate
practice: europe
systems: { vehicle: 12 V }
vehicle: { supply: alternator }
places:
  bonnet: { label: Under the bonnet, hottest: 80 °C, engine-space: yes }
survey:
  idling: { posts: { min: 13.6 V, typical: 13.9 V, max: 14.3 V } }
parts:
  starter-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 80 Ah }
  alternator: { kind: alternator, at: bonnet, plate: 70/150 A 13.5 V }
  body: { kind: body-section, medium: steel }
  earth-point: { kind: chassis-point, at: bonnet, section: body }
wires:
  earth: { from: starter-battery.-, to: earth-point.stud, size: 35 mm2, insulation: pvc-105, length: 30 cm }
`,
};
