import { describe, expect, it } from 'vitest';
import { eventSteps, timesApart } from './event-steps.ts';

const plain = (texts: readonly string[]): readonly string[] => texts.map((t) => t.replaceAll('\u00A0', ' '));

const event = (atMs: number) => ({ atMs, part: 'charger', to: 'off', says: 'signal gone' });

describe('times of events', () => {
  it('that lie 100 ms apart are told apart; the others stay as printed elsewhere', () => {
    expect(plain(timesApart([0, 15_000, 15_100, 20_000]))).toEqual(['0 s', '15.0 s', '15.1 s', '20 s']);
    expect(plain(timesApart([15_010, 15_040, 15_042]))).toEqual(['15.01 s', '15.040 s', '15.042 s']);
    expect(plain(timesApart([149_900, 150_000]))).toEqual(['2 min 29.9 s', '2 min 30.0 s']);
    expect(plain(timesApart([3_600_000, 3_600_100]))).toEqual(['60 min 0.0 s', '60 min 0.1 s']);
  });

  it('that are equal print alike', () => {
    expect(plain(timesApart([5000, 5000]))).toEqual(['5.00 s', '5.00 s']);
  });

  it('stand in the lines of a working, the first so many', () => {
    const steps = eventSteps([event(15_000), event(15_100), event(30_000)], 2);
    expect(plain(steps.map((s) => s.what))).toEqual(['after 15.0 s', 'after 15.1 s']);
    expect(steps[0]?.about).toEqual(['charger']);
  });
});
