import { describe, expect, it } from 'vitest';
import * as alternator from './alternator.ts';
import * as converter from './converter.ts';
import * as copper from './copper.ts';
import { smallestConductor } from './smallest-conductor.ts';
import { weakest } from './sourced.ts';
import type { Sourced } from './sourced.ts';

function sourced(from: object): [string, Sourced][] {
  return Object.entries(from).flatMap(([name, value]) => {
    if (typeof value !== 'object' || value === null) return [];
    return 'prov' in value ? [[name, value as Sourced] as [string, Sourced]] : sourced(value);
  });
}

const groups = [alternator, converter, copper, { smallestConductor }];

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

describe('hot output', () => {
  it('alternator: 16 of 24 A and 41 of 50 A when hot (engine technical manual)', () => {
    expect(alternator.alternatorHotFactor.idle.value).toBeCloseTo(16 / 24, 2);
    expect(alternator.alternatorHotFactor.speed.value).toBeCloseTo(41 / 50, 12);
  });
});
