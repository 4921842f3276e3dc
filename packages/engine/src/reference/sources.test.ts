import { describe, expect, it } from 'vitest';
import * as alternator from './alternator.ts';
import * as battery from './battery.ts';
import * as converter from './converter.ts';
import * as copper from './copper.ts';
import {
  dropShare,
  protectionDistance,
  protectionShare,
  smallestConductor,
  supportInterval,
} from './distances.ts';
import { chemistries } from './rest-voltage.ts';
import { isFigure, weakest } from './sourced.ts';
import type { Sourced } from './sourced.ts';

function sourced(from: object): [string, Sourced][] {
  return Object.entries(from).flatMap(([name, value]) => {
    if (typeof value !== 'object' || value === null) return [];
    return 'prov' in value ? [[name, value as Sourced] as [string, Sourced]] : sourced(value);
  });
}

const groups = [
  alternator,
  battery,
  converter,
  copper,
  { dropShare, protectionDistance, protectionShare, smallestConductor, supportInterval },
];

describe('every figure', () => {
  it.each(groups.flatMap(sourced))('%s has a source and lies inside its band', (_, figure) => {
    expect(figure.source.length).toBeGreaterThan(3);
    if (figure.band === undefined) return;
    expect(figure.band[0]).toBeLessThanOrEqual(figure.value);
    expect(figure.band[1]).toBeGreaterThanOrEqual(figure.value);
  });

  it('that rests on several is as good as the worst of them', () => {
    expect(weakest('seen', 'memory', 'given')).toBe('memory');
    expect(weakest('seen', 'computed')).toBe('computed');
    expect(weakest('given')).toBe('given');
  });
});

describe('set points', () => {
  it('exist for every chemistry but sodium-ion', () => {
    for (const chemistry of chemistries) {
      expect(isFigure(battery.absorptionVoltage(chemistry)), chemistry).toBe(chemistry !== 'sodium-ion');
      expect(isFigure(battery.floatVoltage(chemistry)), chemistry).toBe(chemistry !== 'sodium-ion');
      expect(isFigure(battery.peukertExponent(chemistry)), chemistry).toBe(chemistry !== 'sodium-ion');
    }
  });

  it('those of lithium iron phosphate are from memory, its highest voltage seen', () => {
    const absorption = battery.absorptionVoltage('lifepo4');
    expect(isFigure(absorption) && absorption.prov).toBe('memory');
    expect(battery.lifepo4HighestVoltage).toMatchObject({ value: 14.6, prov: 'seen' });
  });

  it('float moves from 2.30 to 2.27 V per cell at 35 °C and to 2.33 V at 15 °C (battery handbook)', () => {
    const perKelvin = battery.leadCompensation.value / 6;
    expect(2.3 + 10 * perKelvin).toBeCloseTo(2.27, 6);
    expect(2.3 - 10 * perKelvin).toBeCloseTo(2.33, 6);
  });

  it('alternator: 16 of 24 A and 41 of 50 A when hot (engine technical manual)', () => {
    expect(alternator.alternatorHotFactor.idle.value).toBeCloseTo(16 / 24, 2);
    expect(alternator.alternatorHotFactor.speed.value).toBeCloseTo(41 / 50, 12);
  });
});
