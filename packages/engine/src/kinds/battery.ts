/** A battery: rest voltage behind a resistance, with an acceptance when charging; or held at a voltage. */
import type {
  Basis,
  Charge,
  ElementOf,
  FieldTable,
  Kind,
  Surroundings,
  ValueReader,
} from '../contracts/index.ts';
import { chemistries } from '../reference/index.ts';
import {
  acceptance,
  blocksOf,
  cellTemperature,
  chargeBlockedBelow,
  dischargeResistance,
  faultResistanceDefault,
  isLithium,
  nominalVolts,
  chemistryOf,
  opensAbove,
  opensBelow,
  reserveDefault,
  resistanceDefault,
  restByCharge,
  restVolts,
  roleOf,
  selfDischarge,
  settledDefault,
  settledResistance,
  statedChemistry,
  capacityOf,
} from './battery-model.ts';
import { LEAST_OHMS, linearSource, noCurrent, standbyElement } from './circuit.ts';
import { standbyOf, statedRating } from './common.ts';
import { asGiven, isStated, nominalOf, textOf } from './figures.ts';
import { oneSidedShape } from './phrases.ts';
import { choice, field, flag, quantity, recordShape, signed, systemField } from './shapes.ts';
import { batteryGlyph, plate } from './symbols.ts';

const fields: FieldTable = {
  system: systemField(),
  role: choice(['vehicle', 'house'], 'Which battery it is: it starts the vehicle, or serves the house.', {
    wanted: true,
  }),
  nominal: quantity(
    'voltage',
    'Nominal voltage of this battery; when not given, that of its system, shared among the batteries in series with it.',
  ),
  chemistry: choice([...chemistries], 'Chemistry of its cells.', { wanted: true }),
  capacity: quantity('charge', 'Rated capacity, Ah.', { wanted: true }),
  cranking: quantity('current', 'Cold cranking current, A.'),
  resistance: quantity('resistance', 'Resistance for discharge and cranking at 20 °C, Ω.', {
    fallback: resistanceDefault,
    slack: 'up',
    how: 'measure: volts across, amperes through',
    effort: 'meter',
  }),
  'settled-resistance': quantity('resistance', 'Resistance while charging that has lasted minutes, Ω.', {
    fallback: (read, about) => settledDefault(read, about, 'half'),
    how: 'measure: rise of the volts over the amperes after some minutes of charging',
    effort: 'meter',
  }),
  'fault-resistance': quantity(
    'resistance',
    'Resistance of the cells alone in a short circuit, Ω; protection electronics not counted.',
    {
      fallback: faultResistanceDefault,
      slack: 'up',
    },
  ),
  rest: quantity('voltage', 'Rest voltage, V: fixes it whatever the charge.', {
    slack: 'down',
    how: 'measure at the posts after hours of rest',
    effort: 'meter',
  }),
  'charge-limit': quantity('current', 'Greatest charging current allowed, A.'),
  'discharge-limit': quantity('current', 'Greatest discharging current allowed, A.'),
  'charge-lowest': signed('temperature', 'Lowest cell temperature at which it may be charged, °C.', {
    label: 'lowest charging temperature',
    fallback: (read) =>
      isLithium(chemistryOf(read))
        ? {
            value: 0,
            unit: '°C',
            prov: 'seen',
            source: 'cell makers: lithium plating below; sodium-ion taken alike (memory)',
          }
        : null,
  }),
  'discharge-lowest': signed('temperature', 'Lowest cell temperature at which it may be discharged, °C.', {
    label: 'lowest discharging temperature',
    fallback: (read) =>
      isLithium(chemistryOf(read))
        ? { value: -20, unit: '°C', prov: 'seen', source: 'cell data sheet: -20 to 60 °C' }
        : null,
  }),
  absorption: quantity('voltage', 'Absorption voltage that its sheet asks for, V.'),
  float: quantity('voltage', 'Float voltage that its sheet asks for, V.'),
  opens: field(
    recordShape({
      charge: field(oneSidedShape, 'Where its protection stops charging.'),
      discharge: field(oneSidedShape, 'Where its protection stops discharging.'),
      both: field(oneSidedShape, 'Where its protection opens altogether.'),
    }),
    'What its own protection does: `{ charge: below 0 °C, both: above 15.6 V }`.',
  ),
  'no-start-reserve': quantity(
    'charge',
    'Charge that can be taken before the vehicle no longer starts, Ah.',
    {
      label: 'no-start reserve',
      fallback: reserveDefault,
    },
  ),
  heater: quantity('power', 'Power of its cell heater, W.'),
  vented: flag('Whether the gas of a lead battery is led to the outside; yes when not given.', true),
  held: quantity(
    'voltage',
    'Holds its terminals at this voltage in every condition, V: for worked examples and calibration.',
  ),
};

const heldAt = (read: ValueReader): number | null => {
  const given = asGiven(read.raw('held'));
  return isStated(given) ? read.number('held', given.value) : null;
};

const chargeOf = (at: Surroundings): Charge =>
  roleOf(at.read) === 'vehicle' ? at.corner.vehicleBattery : at.corner.houseBattery;

/** A protection that lets charge in below what the cells bear guards nothing. */
const guards = (blocked: Basis, lowest: Basis | null): boolean =>
  lowest === null || blocked.sourced.value >= lowest.sourced.value;

/** In a fault: the cells behind their own resistance; the greatest current of a full battery, the least of a half full one. */
function inFault(at: Surroundings): ElementOf<string> {
  const { read } = at;
  const rest =
    at.mode === 'fault-greatest'
      ? Math.max(restByCharge(read, read.about, 'full'), restVolts(read, read.about, 'full'))
      : restVolts(read, read.about, 'half');
  return at.opened
    ? noCurrent('+', '-', rest)
    : linearSource('+', '-', rest, read.number('fault-resistance', LEAST_OHMS));
}

function inService(at: Surroundings): ElementOf<string> {
  const { read } = at;
  const charge = chargeOf(at);
  const rest = serviceRest(at, charge);
  if (at.opened) return noCurrent('+', '-', rest);
  const held = bankHeld(at);
  if (held !== null) return linearSource('+', '-', held, LEAST_OHMS);
  const { taken, rise, giving } = cellsAt(read, charge, at.air);
  return {
    type: 'pieces',
    a: '+',
    b: '-',
    points: [
      [rest, 0],
      [rest + rise, taken],
    ],
    below: giving,
    above: TOPPED,
  };
}

/** Volts at which chargers hold it where they are judged by their greatest power; a battery of a series stack has its share. */
function bankHeld({ read, bankHeldAt }: Surroundings): number | null {
  if (bankHeldAt === null || roleOf(read) === 'vehicle') return null;
  const system = textOf(read, 'system') ?? 'house';
  const volts = bankHeldAt.get(system);
  return volts === undefined ? null : (volts * nominalVolts(read)) / nominalOf(read.about, system);
}

/** What the cells take and give whatever their rest voltage is. */
interface Cells {
  /** Acceptance, A, and the volts above rest at which it is reached. */
  readonly taken: number;
  readonly rise: number;
  /** Conductance while discharging, S. */
  readonly giving: number;
}

/** A swept rest voltage asks for the same cells again and again: they are worked out once for each charge and air. */
const known = new WeakMap<ValueReader, Map<string, Cells>>();

function cellsAt(read: ValueReader, charge: Charge, air: number): Cells {
  const ofPart = known.get(read) ?? new Map<string, Cells>();
  known.set(read, ofPart);
  const key = `${charge}|${air}`;
  let cells = ofPart.get(key);
  if (cells === undefined) {
    const celsius = cellTemperature(read, air);
    const taken = acceptance(read, charge, air);
    const rise = taken * settledResistance(read, charge, celsius);
    cells = { taken, rise: rise > 0 ? rise : 1, giving: 1 / dischargeResistance(read, celsius) };
    ofPart.set(key, cells);
  }
  return cells;
}

/**
 * Conductance beyond the acceptance, S: in place of none, so that two batteries in series, both full, share their volts evenly
 * instead of anyhow. A tenth of a milliampere per volt.
 */
const TOPPED = 1e-4;

/** A stated rest voltage above what the running supply holds at the least is taken down to it; a window sweep gives its own. */
function serviceRest(at: Surroundings, charge: Charge): number {
  const { read } = at;
  const rest = restVolts(read, read.about, charge);
  if (roleOf(read) !== 'vehicle') return rest;
  // Both are volts at the posts; a half of a series pair has its share of them.
  const share = (12 * blocksOf(read)) / at.nominal.vehicle;
  if (at.vehicleRest !== null) return at.vehicleRest * share;
  if (!read.given('rest') || !at.state.running || at.leastSetPoint === null) return rest;
  return Math.min(rest, at.leastSetPoint * share);
}

const PRINTED: Readonly<Record<string, string>> = {
  agm: 'AGM',
  lifepo4: 'LiFePO4',
  'sodium-ion': 'Na-ion',
};

function printedChemistry(read: ValueReader): readonly string[] {
  const stated = statedChemistry(read);
  return stated === null ? [] : [PRINTED[stated] ?? stated];
}

/** No single cell rests lower, V: a flat lead cell stands at about 1.95 V, others higher (common practice, no source). */
const LEAST_REST_V = 1.8;
/** None rests above this share of its system's nominal volts; far lower, as it may be one of many in series. */
const MOST_REST = 1.25;
/** Less is no battery that starts a vehicle or feeds a house, Ah. */
const LEAST_CAPACITY = 1;

/** Slips of the pen: another unit, a lost decimal, two figures exchanged. */
function contradictions(read: ValueReader): readonly { readonly field: string; readonly message: string }[] {
  const found: { field: string; message: string }[] = [];
  const { nominal } = read.about;
  if (read.given('rest')) {
    const rest = read.number('rest', nominal);
    if (rest < LEAST_REST_V || rest > MOST_REST * nominal)
      found.push({
        field: 'rest',
        message: `${rest} V is no rest voltage of a battery in a system of ${nominal} V; write what a meter shows at its posts after hours without current`,
      });
  }
  if (read.given('capacity')) {
    const capacity = capacityOf(read).sourced.value;
    if (capacity < LEAST_CAPACITY)
      found.push({
        field: 'capacity',
        message: `${capacity} Ah is no capacity of such a battery; is it ${1000 * capacity} Ah?`,
      });
  }
  if (read.given('fault-resistance')) {
    const [cells, whole] = [read.number('fault-resistance', 0), read.number('resistance', 0)];
    if (cells > MOST_TIMES * whole)
      found.push({
        field: 'fault-resistance',
        message: `its cells alone would have ${ohmText(cells)}, more than ${MOST_TIMES} times the ${ohmText(whole)} of the whole battery: is one of the two in another unit?`,
      });
  }
  return found;
}

/** So many times the resistance of the whole no figure of the cells alone is off by care. */
const MOST_TIMES = 10;

const ohmText = (ohms: number): string => `${Number((ohms * 1000).toPrecision(3))} mΩ`;

export const battery: Kind = {
  name: 'battery',
  title: 'battery',
  letter: 'G',
  fields,
  terminals: () => ({ type: 'named', names: ['+', '-'] }),
  contradictions,
  abilities: (read) => {
    const chemistry = statedChemistry(read);
    const lowest = isLithium(chemistryOf(read)) ? read.quantity('charge-lowest') : null;
    const blocked = chargeBlockedBelow(read);
    return {
      stores: {
        plus: '+',
        minus: '-',
        role: roleOf(read),
        system: textOf(read, 'system'),
        nominal: nominalVolts(read),
        chemistry,
        capacity: read.given('capacity') ? capacityOf(read) : null,
        chargeLimit: read.quantity('charge-limit'),
        chargeLowest: lowest,
        guardedInFrost: read.given('heater') || (blocked !== null && guards(blocked, lowest)),
        noStartReserve: read.quantity('no-start-reserve'),
        selfDischarge: selfDischarge(read),
        cranking: read.quantity('cranking'),
        opens: { chargeBelow: blocked, above: opensAbove(read), below: opensBelow(read) },
        absorption: read.quantity('absorption'),
        float: read.quantity('float'),
        dischargeLimit: read.quantity('discharge-limit'),
      },
      // Valve-regulated types (agm, gel) keep their gas unless they are abused.
      gases: chemistryOf(read) === 'flooded',
      across: [['+', '-']],
      dcRating: statedRating(read),
      ...standbyOf(read, '+', '-'),
    };
  },
  symbol: (read) => ({
    shape: 'box',
    terminals: ['+', '-'],
    glyph: batteryGlyph,
    plate: [...printedChemistry(read), ...plate(read, 'capacity')],
  }),
  elements: (at) => {
    const held = heldAt(at.read);
    const own = at.mode === 'service' ? inService(at) : inFault(at);
    const standby = standbyElement(at, '+', '-');
    if (held === null) return [own, ...standby];
    const holds = at.mode === 'service' && !at.opened;
    return [
      holds ? noCurrent('+', '-', held) : own,
      {
        type: 'hold',
        a: '+',
        b: '-',
        senseA: '+',
        senseB: '-',
        volts: held,
        least: holds ? -Infinity : 0,
        greatest: holds ? Infinity : 0,
      },
      ...standby,
    ];
  },
  example: `loomwright: 1
title: A starter battery with its earth
practice: europe
systems: { vehicle: 12 V }
places:
  bonnet: { label: Under the bonnet, hottest: 80 °C, engine-space: yes }
parts:
  starter-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: agm, capacity: 80 Ah, cranking: 800 A }
  body: { kind: body-section, medium: steel }
  earth-point: { kind: chassis-point, at: bonnet, section: body }
wires:
  earth: { from: starter-battery.-, to: earth-point.stud, size: 35 mm2, insulation: pvc-105, length: 30 cm }
`,
};
