/** Whole vehicles worked by hand: the figures beside each case are from that arithmetic (metric class 5 copper, 20 °C). */
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../contracts/index.ts';
import { charge } from './worked-texts.ts';
import * as texts from './worked-texts.ts';
import { judgeText } from './judge-text.ts';

const findingsOf = (text: string): readonly Finding[] => judgeText(text, texts.own).findings;
const findingOf = (text: string, id: string): Finding =>
  judgeText(
    text,
    texts.own.filter((c) => c.id === id.split('/')[0]),
  ).finding(id);

const step = (f: Finding, what: string): number =>
  f.working.find((s) => s.what === what)?.value ?? Number.NaN;

describe('seven metres of cable each way, 30 A at 14.2 V, 484 W, starts 13.3 V, stops 12.8 V', () => {
  it('6 mm²: 51.2 mΩ, 11.80 V at 13.9 V, hunts from 13.30 to 14.74 V, 2.7 A of 30 A', () => {
    const f = findingOf(texts.thinRun('6 mm2', '13.9 V'), 'hunting/charger');
    expect(f.verdict).toBe('fault');
    expect(step(f, 'greatest power at the input')).toBeCloseTo(484.1, 1);
    expect(step(f, 'loop resistance')).toBeCloseTo(0.0512, 4);
    expect(step(f, 'input with the charger on')).toBeCloseTo(11.8, 1);
    expect(f.says).toMatch(/13\.30.V to 14\.7[0-9].V/);
    expect(step(f, 'mean output')).toBeCloseTo(2.73, 2);
    expect(step(f, 'period')).toBe(33);
    expect(step(f, 'largest loop that hunts at no source voltage')).toBeCloseTo(0.0132, 4);
  });

  it('16 mm²: 21.9 mΩ, settles at 13.9 V, hunts from 13.30 to 13.63 V', () => {
    expect(findingOf(texts.thinRun('16 mm2', '13.9 V'), 'hunting/charger').verdict).toBe('met');
    const f = findingOf(texts.thinRun('16 mm2', '13.5 V'), 'hunting/charger');
    expect(f.verdict).toBe('fault');
    expect(f.says).toMatch(/13\.30.V to 13\.6[2-4].V/);
  });

  it('25 mm²: window 13.30 to 13.40 V; 35 mm²: none', () => {
    const at25 = findingOf(texts.thinRun('25 mm2', '13.9 V'), 'hunting/charger');
    expect(at25.verdict).toBe('met');
    expect(at25.says).toMatch(/13\.30.V to 13\.[34][0-9].V/);
    const at35 = findingOf(texts.thinRun('35 mm2', '13.9 V'), 'hunting/charger');
    expect(at35.says).toContain('nor within 1');
  });

  it('a unit that holds 12.9 V by giving less does not hunt', () => {
    const f = findingOf(texts.thinRun('6 mm2', '13.9 V', 'holds 12.9 V'), 'hunting/charger');
    expect(f.verdict).toBe('met');
  });
});

describe('shunt by-passed by the body: 0.5 mΩ beside 1.6 mΩ, 30 A for 3 h', () => {
  it('the shunt sees 7.1 A; 68.6 Ah or 34 % of 200 Ah wrong', () => {
    const f = findingOf(texts.bypassed, 'shunt-share/shunt');
    expect(f.verdict).toBe('fault');
    expect(step(f, 'through shunt')).toBeCloseTo(7.14, 1);
    expect(step(f, 'error over the state')).toBeCloseTo(68.6, 0);
    expect(step(f, 'of the capacity')).toBeCloseTo(34.3, 0);
    expect(f.about).toContain('past');
  });
});

describe('the van that must pass: 9.7 mΩ, run signal, starts 12.3 V, stops 12.0 V', () => {
  it('hunts nowhere in its envelope and prints the window below it, 12.30 to 12.40 V', () => {
    const f = findingOf(texts.reference, 'hunting/charger');
    expect(f.verdict).toBe('met');
    expect(f.says).toMatch(/12\.30.V to 12\.4[0-1].V/);
    expect(f.margin).toBeCloseTo(0.1, 1);
  });

  it('nothing else is wrong with it', () => {
    const bad = findingsOf(texts.reference).filter((f) => ['danger', 'fault', 'open'].includes(f.verdict));
    expect(bad.map((f) => `${f.id}: ${f.says}`)).toEqual([]);
  });
});

describe('two chargers on one feed', () => {
  it('the second never starts beside the first, which pulls the feed under its start threshold', () => {
    const findings = findingsOf(texts.twoOnOne).filter(
      (f) => f.id.startsWith('input-window/') && f.verdict === 'fault',
    );
    expect(findings.map((f) => f.id)).toContain('input-window/second/charger');
  });
});

describe("the beekeeper's van", () => {
  const judged = findingsOf(texts.beekeeper('95 A'));

  it('no danger, no fault, and only the unmeasured run plug open', () => {
    expect(judged.filter((f) => f.verdict === 'danger' || f.verdict === 'fault').map((f) => f.id)).toEqual(
      [],
    );
    expect(judged.filter((f) => f.verdict === 'open').map((f) => [f.id, f.open])).toEqual([
      ['enable/charges-only-while-the-engine-runs/charger', 'unconfirmed'],
    ]);
  });

  it('hunts at hot idle when idling gives only 62 A', () => {
    const f = findingOf(texts.beekeeper('62 A'), 'hunting/charger');
    expect([f.verdict, f.worst]).toEqual(['fault', 'idling/hold-switch=on/weak']);
    expect(step(f, 'share of the time on')).toBeCloseTo(25, 0);
  });
});

describe('what nobody gave stays open', () => {
  it.each([
    ['hunting/charger', charge({ current: 'unknown' })],
    ['hunting/charger', charge({ enable: 'unknown' })],
    ['enable/charges/charger', charge({ enable: 'unknown' })],
    ['surplus/idling', charge({ current: 'unknown' })],
  ])('%s', (id, text) => {
    const f = findingOf(text, id);
    expect([f.verdict, f.open]).toEqual(['open', 'missing']);
    expect(f.needs.length).toBeGreaterThan(0);
  });
});

describe('a tripped breaker', () => {
  it('that leaves its wire live from the house is advice, and a fault where the build asks', () => {
    const asked = '\nrequires:\n  - a tripped breaker leaves nothing live beyond it\n';
    const plain = findingOf(texts.joinedBehindBreaker, 'still-live/feed-fuse');
    expect([plain.verdict, plain.value.value]).toEqual(['advice', expect.closeTo(13.2, 0)]);
    expect(plain.about).toContain('house-battery');
    expect(findingOf(texts.joinedBehindBreaker + asked, 'still-live/feed-fuse').verdict).toBe('fault');
  });
});

describe('two like batteries in series', () => {
  it('share the volts of the stack', () => {
    const [upper, lower] = ['vehicle-battery', 'lower-battery'].map((id) =>
      findingOf(texts.pair, `battery-over-volts/${id}`),
    );
    expect(upper?.verdict).toBe('met');
    expect(upper?.value.value).toBeCloseTo(14.3, 1);
    expect(upper?.value.value).toBeCloseTo(lower?.value.value ?? 0, 6);
  });
});
