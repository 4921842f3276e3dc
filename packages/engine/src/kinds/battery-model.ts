/** What a battery is in numbers: rest voltage, the three resistances, what it accepts. */
import type { Basis, Charge, FieldContext, Sourced, ValueReader } from '../contracts/index.ts';
import { isFigure, restVoltage, type Chemistry } from '../reference/index.ts';
import { ask, asGiven, isStated, member, memory, times } from './figures.ts';
import type { OneSidedValue } from './phrases.ts';
import { LEAST_OHMS } from './circuit.ts';

/** Volts at which a 12 V lead block takes its acceptance, no more: the usual charging voltage. */
const LEAD_FULL_VOLTS = 14.4;

/** Capacity with which a battery of unknown capacity is solved, Ah: a starter battery, a usual house battery. */
const UNKNOWN_CAPACITY = {
  vehicle: memory(80, 'Ah', 'usual starter battery of a van', [45, 110]),
  house: memory(100, 'Ah', 'usual house battery', [50, 300]),
} as const;

export const isLithium = (chemistry: Chemistry): boolean =>
  chemistry === 'lifepo4' || chemistry === 'sodium-ion';

export const roleOf = (read: ValueReader): 'vehicle' | 'house' | null => {
  const role = read.choice('role');
  return role === 'vehicle' || role === 'house' ? role : null;
};

/** The chemistry as stated, or null. */
export const statedChemistry = (read: ValueReader): Chemistry | null =>
  read.choice('chemistry') as Chemistry | null;

/** The chemistry that it is solved with: as stated, else flooded in the vehicle and LiFePO4 in the house. */
export const chemistryOf = (read: ValueReader): Chemistry =>
  statedChemistry(read) ?? (roleOf(read) === 'vehicle' ? 'flooded' : 'lifepo4');

/** Nominal volts of the battery itself: what it says, else its share of its system's by the batteries in series with it. */
export function nominalVolts(read: ValueReader, about: FieldContext = read.about): number {
  const own = asGiven(read.raw('nominal'));
  return isStated(own) ? own.value : about.nominal;
}

/** 12 V blocks in series. */
export const blocksOf = (read: ValueReader, about: FieldContext = read.about): number =>
  nominalVolts(read, about) / 12;

/** Capacity as stated, else the figure it is solved with. */
export function capacityOf(read: ValueReader): Basis {
  const role = roleOf(read) ?? 'house';
  return certain(
    read.resolve(
      'capacity',
      asGiven(read.raw('capacity')),
      UNKNOWN_CAPACITY[role],
      ask('capacity of {part}'),
    ),
  );
}

/** State of charge that a corner's word means, 0 to 1: lead 100/50/25 %, lithium and sodium-ion 90/50/20 %. */
export function stateOfCharge(chemistry: Chemistry, charge: Charge): number {
  if (charge === 'half') return 0.5;
  if (isLithium(chemistry)) return charge === 'full' ? 0.9 : 0.2;
  return charge === 'full' ? 1 : 0.25;
}

/**
 * How many times its resistance at 20 °C a battery has at a cell temperature, °C. From memory: lead doubles at -20 °C;
 * LiFePO4 and sodium-ion x1.5 at 0, x4 at -20 °C; straight lines between, flat outside.
 */
export function coldFactor(chemistry: Chemistry, celsius: number): number {
  const points: readonly (readonly [number, number])[] = isLithium(chemistry)
    ? [
        [-20, 4],
        [0, 1.5],
        [20, 1],
      ]
    : [
        [-20, 2],
        [20, 1],
      ];
  return straight(points, celsius);
}

/** Straight lines between points of rising x, flat outside. */
export function straight(points: readonly (readonly [number, number])[], x: number): number {
  let before = points[0];
  for (const point of points) {
    if (before === undefined || x <= before[0]) break;
    if (x <= point[0]) {
      return before[1] + ((x - before[0]) / (point[0] - before[0])) * (point[1] - before[1]);
    }
    before = point;
  }
  return before?.[1] ?? 0;
}

/** Resistance for discharge and cranking at 20 °C, Ω: lead 0.4 and LiFePO4 0.6 Ω·Ah over the capacity of a 12 V block (memory). */
export function resistanceDefault(read: ValueReader, about: FieldContext): Sourced {
  const chemistry = chemistryOf(read);
  const perAmpHour = isLithium(chemistry) ? 0.6 : 0.4;
  const value = (perAmpHour * blocksOf(read, about)) / capacityOf(read).sourced.value;
  return memory(
    value,
    'Ω',
    `${perAmpHour} Ω·Ah over the capacity, for each 12 V block`,
    times(value, 0.6, 2),
  );
}

/** Resistance of the cells alone in a short circuit, Ω. */
export function faultResistanceDefault(read: ValueReader, about: FieldContext): Sourced {
  if (isLithium(chemistryOf(read))) {
    const least = (0.12 * blocksOf(read, about)) / capacityOf(read).sourced.value;
    return memory(least, 'Ω', '0.6 mΩ for 200 Ah at 12 V, cells only', [least, 2 * least]);
  }
  const whole = read.number('resistance', resistanceDefault(read, about).value);
  return memory(0.8 * whole, 'Ω', '0.6 to 1 times its resistance', times(whole, 0.6, 1));
}

/** Resistance while charging that has lasted minutes, Ω, by charge: see `settledResistance`. */
export function settledDefault(read: ValueReader, about: FieldContext, charge: Charge): Sourced {
  const chemistry = chemistryOf(read);
  const blocks = blocksOf(read, about);
  if (isLithium(chemistry)) {
    const value = (2.0 * blocks) / capacityOf(read).sourced.value;
    return {
      ...memory(
        value,
        'Ω',
        '2.0 Ω·Ah over the capacity: 30 A lifts 200 Ah from 13.3 to 13.6 V',
        times(value, 0.6, 2),
      ),
      prov: 'practice',
    };
  }
  const rest = restVolts(read, about, charge);
  const least = read.number('resistance', resistanceDefault(read, about).value);
  const taken = leadAcceptance(read, charge);
  const value = Math.max((LEAD_FULL_VOLTS * blocks - rest) / taken, least);
  return memory(value, 'Ω', 'it takes its acceptance at 14.4 V for each 12 V block and less below', [
    Math.max(0.6 * value, Math.min(least, value)),
    2 * value,
  ]);
}

/**
 * Resistance while charging, Ω. What makes the charger's voltage slack differs by role: a vehicle battery that takes more
 * (less resistance) pulls the posts down, a house battery that takes more keeps the charger's output, and so its power, down.
 */
export function settledResistance(read: ValueReader, charge: Charge, celsius: number): number {
  const given = asGiven(read.raw('settled-resistance'));
  const slack = roleOf(read) === 'vehicle' ? 'down' : 'up';
  const basis = certain(
    read.resolve(
      'settled-resistance',
      given,
      settledDefault(read, read.about, charge),
      ask('settled resistance of {part}', slack),
    ),
  );
  const cold = isStated(given) || !isLithium(chemistryOf(read)) ? 1 : coldFactor(chemistryOf(read), celsius);
  return Math.max(basis.sourced.value * cold, LEAST_OHMS);
}

/** Resistance for discharge at a cell temperature, Ω; a given one is never changed. */
export function dischargeResistance(read: ValueReader, celsius: number): number {
  const cold = read.given('resistance') ? 1 : coldFactor(chemistryOf(read), celsius);
  return Math.max(read.number('resistance', LEAST_OHMS) * cold, LEAST_OHMS);
}

/** Rest voltage at a charge, V: as stated, else by chemistry. */
export function restVolts(read: ValueReader, about: FieldContext, charge: Charge): number {
  const given = asGiven(read.raw('rest'));
  if (isStated(given)) return read.number('rest', given.value);
  return restByCharge(read, about, charge);
}

/** Rest voltage by chemistry and charge alone, V. */
export function restByCharge(read: ValueReader, about: FieldContext, charge: Charge): number {
  const chemistry = chemistryOf(read);
  const found = restVoltage(chemistry, stateOfCharge(chemistry, charge));
  return (isFigure(found) ? found.value : 12) * blocksOf(read, about);
}

/** Current that a lead battery takes, A: full 0.01, half 0.15, low 0.3 times its capacity (memory). */
function leadAcceptance(read: ValueReader, charge: Charge): number {
  const share = charge === 'full' ? 0.01 : charge === 'half' ? 0.15 : 0.3;
  return share * capacityOf(read).sourced.value;
}

/** Lowest cell temperature at which charging is allowed, °C; null: no limit. */
export function chargeLowest(read: ValueReader): number | null {
  const own = isLithium(chemistryOf(read)) ? read.quantity('charge-lowest') : null;
  const blocked = chargeBlockedBelow(read);
  const limits = [own?.sourced.value, blocked?.sourced.value].filter((v) => v !== undefined);
  return limits.length === 0 ? null : Math.max(...limits);
}

/** Temperature below which its own protection stops charging, °C, when stated. */
export function chargeBlockedBelow(read: ValueReader): Basis | null {
  return oneSided(read, 'charge', 'below', 'temperature') ?? oneSided(read, 'both', 'below', 'temperature');
}

/** Voltage above which its own protection opens, V, when stated. */
export function opensAbove(read: ValueReader): Basis | null {
  return oneSided(read, 'both', 'above', 'voltage') ?? oneSided(read, 'charge', 'above', 'voltage');
}

/** Voltage below which its own protection opens against a discharge, V, when stated. */
export function opensBelow(read: ValueReader): Basis | null {
  return oneSided(read, 'both', 'below', 'voltage') ?? oneSided(read, 'discharge', 'below', 'voltage');
}

function oneSided(
  read: ValueReader,
  which: string,
  side: OneSidedValue['side'],
  dimension: string,
): Basis | null {
  const raw = member(read.raw('opens'), which) as OneSidedValue | null;
  if (raw === null || typeof raw !== 'object' || raw.side !== side || raw.dimension !== dimension)
    return null;
  return read.resolve(
    `opens.${which}`,
    raw.limit,
    null,
    ask(`where the protection of {part} opens (${which})`),
  );
}

/** Temperature of the cells, °C: that of the place; a heater keeps them where they may be charged. */
export function cellTemperature(read: ValueReader, air: number): number {
  return read.given('heater') ? Math.max(air, chargeLowest(read) ?? air) : air;
}

/** Greatest current that it takes, A: lead by charge; lithium its charge limit, else half its capacity, nothing in frost. */
export function acceptance(read: ValueReader, charge: Charge, air: number): number {
  const lowest = chargeLowest(read);
  if (lowest !== null && cellTemperature(read, air) < lowest) return 0;
  if (!isLithium(chemistryOf(read))) return leadAcceptance(read, charge);
  const stated = read.quantity('charge-limit');
  return stated?.sourced.value ?? 0.5 * capacityOf(read).sourced.value;
}

/** Charge that may be taken before the vehicle no longer starts, Ah: the smaller of 20 Ah and 40 % of a stated capacity. */
export function reserveDefault(read: ValueReader): Sourced | null {
  if (!read.given('capacity')) return null;
  const capacity = capacityOf(read).sourced.value;
  return {
    value: Math.min(20, 0.4 * capacity),
    unit: 'Ah',
    prov: 'seen',
    source: 'service bulletins: the smaller of 20 Ah and 40 % of the capacity',
  };
}

/** Loss of a lead battery per month, as a share of its capacity (memory). */
export const selfDischarge = (read: ValueReader): Basis | null =>
  isLithium(chemistryOf(read))
    ? null
    : read.resolve(
        'self-discharge',
        null,
        memory(0.03, '', 'lead, 3 % a month', [0.02, 0.05]),
        ask('monthly self-discharge of {part}'),
      );

function certain(basis: Basis | null): Basis {
  if (basis === null) throw new Error('a battery figure has a default');
  return basis;
}
