/** The converter that feeds the 12/24 V net of a hybrid or electric vehicle: holds the posts up to a stated limit. */
import type { FieldTable, Kind } from '../contracts/index.ts';
import { runningVoltageFixed } from '../reference/index.ts';
import { statedRating } from './common.ts';
import { practice, scaled } from './figures.ts';
import { choice, quantity, signed, systemField } from './shapes.ts';
import { STIFF_AMPS, holding, statedEnvelope } from './supply.ts';
import { converterGlyph, plate } from './symbols.ts';

const fields: FieldTable = {
  system: systemField(),
  limit: quantity(
    'current',
    "Greatest current in all, the vehicle's own load included, A. Without it and `added-limit` every surplus verdict is open.",
    {
      wanted: true,
      slack: 'down',
      how: "ask the vehicle's maker or importer",
    },
  ),
  'added-limit': quantity('current', 'Greatest current for added loads, A.', {
    wanted: true,
    slack: 'down',
    how: "ask the vehicle's maker or importer",
  }),
  above: choice(['folds-back', 'shuts-down'], 'What it does above its limit.'),
  'set-point': quantity('voltage', 'Voltage that it holds, V.', {
    slack: 'down',
    fallback: (_read, about) => scaled(runningVoltageFixed, about.nominal / 12),
  }),
  gradient: signed('gradient', 'Change of the set point with temperature, V/K; none when not given.', {
    fallback: () => practice(0, 'V/K', 'an electronic converter holds its voltage'),
  }),
};

export const vehicleConverter: Kind = {
  name: 'vehicle-converter',
  title: 'vehicle supply converter',
  letter: 'T',
  home: 'vehicle',
  fields,
  terminals: () => ({ type: 'named', names: ['+', '-'] }),
  atPostsWhenUnwired: { plus: '+', minus: '-' },
  implied: (vehicle) => vehicle.hasVehicleBattery && vehicle.supply !== 'alternator',
  abilities: (read) => {
    const above = read.choice('above');
    return {
      generates: {
        plus: '+',
        minus: '-',
        role: 'vehicle-supply',
        limit: (state) => (state.supply === 'converter' ? (state.output ?? read.quantity('limit')) : null),
        setPoint: (state, about) =>
          state.supply === 'converter' ? statedEnvelope(read, about.nominal, about.coldestAir) : null,
        addedLimit: read.quantity('added-limit'),
        above: above === 'folds-back' || above === 'shuts-down' ? above : null,
        selfLimiting: true,
      },
      across: [['+', '-']],
      dcRating: statedRating(read),
    };
  },
  symbol: (read) => ({
    shape: 'box',
    terminals: ['+', '-'],
    glyph: converterGlyph,
    plate: plate(read, 'limit'),
  }),
  elements: (at) => [
    holding(at, {
      feeds: at.state.supply === 'converter',
      limit: (at.state.output ?? at.read.quantity('limit'))?.sourced.value ?? STIFF_AMPS,
      volts: at.setPoint?.sourced.value ?? 0,
      senseOwn: false,
    }),
  ],
  example: `loomwright: 1
title: A hybrid's supply converter
practice: europe
systems: { vehicle: 12 V }
vehicle: { supply: converter, engine: yes }
places:
  boot: { label: Boot floor, hottest: 45 °C }
parts:
  auxiliary-battery: { kind: battery, at: boot, role: vehicle, chemistry: agm, capacity: 50 Ah }
  converter: { kind: vehicle-converter, at: boot, limit: 120 A, added-limit: 20 A, above: folds-back }
  body: { kind: body-section, medium: steel }
  earth-point: { kind: chassis-point, at: boot, section: body }
wires:
  earth: { from: auxiliary-battery.-, to: earth-point.stud, size: 25 mm2, insulation: pvc-105, length: 25 cm }
`,
};
