/** Voltage rating and breaking capacity of fuse families where the part itself states none. */
import type { FuseFamily } from './fuse-curve.ts';
import type { Figure, Prov } from './sourced.ts';
import { noFigure } from './sourced.ts';

interface Capacity {
  /** Greatest dc voltage that the figure holds for, V. */
  readonly toVolts: number;
  readonly amps: number;
}

interface FamilyRatings {
  readonly volts: number;
  readonly prov: Prov;
  readonly source: string;
  /** By rising voltage; the capacity falls as the voltage rises. */
  readonly capacities: readonly Capacity[];
  /** Rated currents, A. */
  readonly ratings?: readonly [number, number];
}

const BLADE: FamilyRatings = {
  volts: 32,
  prov: 'seen',
  source: 'ISO 8820-3:2015, scope (rated 32 or 58 V: the lower is assumed)',
  capacities: [{ toVolts: 32, amps: 1000 }],
  ratings: [0, 100],
};

const STRIP: FamilyRatings = {
  volts: 32,
  prov: 'seen',
  source: 'ISO 8820-5:2015, scope',
  capacities: [{ toVolts: 32, amps: 2000 }],
  ratings: [30, 500],
};

const FAMILIES: Readonly<Record<FuseFamily, FamilyRatings>> = {
  'blade-f': BLADE,
  'blade-c': BLADE,
  'blade-e': BLADE,
  'strip-30': STRIP,
  'strip-51': STRIP,
  'bolt-down': {
    volts: 32,
    prov: 'memory',
    source: 'flat bolt-down limiter of marine practice (2.7 to 6 kA are met)',
    capacities: [{ toVolts: 32, amps: 6000 }],
  },
  cube: {
    volts: 58,
    prov: 'memory',
    source: 'post-mount cube fuse of marine practice (10 kA at 14 V, 5 kA at 32 V, 2 kA at 58 V)',
    capacities: [
      { toVolts: 14, amps: 10_000 },
      { toVolts: 32, amps: 5000 },
      { toVolts: 58, amps: 2000 },
    ],
  },
  cartridge: { volts: 32, prov: 'memory', source: 'glass cartridge, SAE J554', capacities: [] },
  'class-t': {
    volts: 125,
    prov: 'memory',
    source:
      'UL 248-15 (125 to 160 V dc: the lower is assumed; the dc rating is optional and must be read on the fuse)',
    capacities: [{ toVolts: 125, amps: 20_000 }],
  },
};

/**
 * Voltage rating of a family, V dc: blades and strips 32 (seen), bolt-down and cartridge 32, cube 58, class T
 * 125 (memory).
 */
export function fuseVoltage(family: FuseFamily): Figure {
  const { volts, prov, source } = FAMILIES[family];
  return { value: volts, unit: 'V', prov, source };
}

/**
 * Current that a fuse of the family can break at a voltage, A. No figure for glass cartridges, above the
 * family's voltage, or for a rating
 * outside its standard. Figures from memory must be read on the fuse before anything rests on them.
 * @param volts greatest voltage of the circuit, V @param ratingA rated current, A (not given: not compared)
 */
export function fuseInterrupting(family: FuseFamily, volts: number, ratingA?: number): Figure {
  const { capacities, prov, source, ratings } = FAMILIES[family];
  if (capacities.length === 0)
    return noFigure(`${family} fuses have no breaking capacity to rely on: read it on the fuse`);
  if (ratingA !== undefined && ratings !== undefined && (ratingA < ratings[0] || ratingA > ratings[1])) {
    return noFigure(`${ratingA} A is outside the ratings of ${family} fuses (up to ${ratings[1]} A)`);
  }
  const capacity = capacities.find((candidate) => volts <= candidate.toVolts);
  if (capacity === undefined)
    return noFigure(`no breaking capacity of ${family} fuses is known at ${volts} V`);
  return { value: capacity.amps, unit: 'A', prov, source, range: `up to ${capacity.toVolts} V dc` };
}
