import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { atRest, giveWay } from './at-rest.ts';

const CALM = 500;

describe('work that nobody waits for', () => {
  let heard: string[] = [];
  const wanted = () =>
    atRest({ begin: () => heard.push('begin'), leave: () => heard.push('leave'), calm: CALM });

  beforeEach(() => {
    heard = [];
    vi.useFakeTimers();
  });
  afterEach(() => vi.useRealTimers());

  it('begins once all was calm long enough', () => {
    const off = wanted();
    vi.advanceTimersByTime(CALM - 1);
    expect(heard).toEqual([]);
    vi.advanceTimersByTime(1);
    expect(heard).toEqual(['begin']);
    off();
  });

  it('is left when an edit begins, and begun anew when it is calm again', () => {
    const off = wanted();
    vi.advanceTimersByTime(CALM);
    giveWay();
    expect(heard).toEqual(['begin', 'leave']);
    vi.advanceTimersByTime(CALM - 1);
    giveWay();
    vi.advanceTimersByTime(CALM - 1);
    expect(heard.filter((each) => each === 'begin')).toHaveLength(1);
    vi.advanceTimersByTime(1);
    expect(heard.at(-1)).toBe('begin');
    off();
  });

  it('is left for good once it is taken off', () => {
    const off = wanted();
    vi.advanceTimersByTime(CALM);
    off();
    expect(heard).toEqual(['begin', 'leave']);
    giveWay();
    vi.advanceTimersByTime(9 * CALM);
    expect(heard).toEqual(['begin', 'leave']);
  });
});
