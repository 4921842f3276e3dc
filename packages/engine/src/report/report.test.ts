import { describe, expect, it } from 'vitest';
import type { Basis, Effort, Finding, Step, Verdict } from '../contracts/index.ts';
import {
  basisText,
  bandLine,
  factText,
  groupBases,
  measureLine,
  needLine,
  saysLine,
  stepText,
} from './finding.ts';
import { printBand, printMeasure, printValue } from './measure.ts';
import { firstLine, inOrder, tallyOf } from './tally.ts';
import { conditionWords, verdictWords } from './words.ts';

/** Text with ordinary spaces, for reading. */
const plain = (text: string) => text.replaceAll('\u00A0', ' ');

const basis = (
  label: string,
  value: number,
  unit: string,
  more: Partial<Basis> & { band?: [number, number] } = {},
): Basis => ({
  path: `parts.${label}`,
  label,
  how: more.how ?? 'read the plate',
  effort: more.effort ?? 'read',
  assumed: more.assumed ?? true,
  sourced: {
    value,
    unit,
    prov: 'practice',
    source: 'common practice, no source',
    ...(more.band === undefined ? {} : { band: more.band }),
  },
});

const need = (effort: Effort) => ({
  basis: basis('rating of feed-fuse', 80, 'A', { effort }),
  why: 'it decides',
});

const finding = (verdict: Verdict, efforts: readonly Effort[] = [], aside = false): Finding =>
  ({
    id: `check/${verdict}`,
    verdict,
    open: verdict === 'open' ? 'missing' : null,
    needs: efforts.map(need),
    dangerFamily: verdict === 'danger',
    aside: aside ? { reason: 'customer knows' } : null,
    says: 'it hunts.',
    value: { value: 0.48, unit: 'V' },
    limit: { value: 0.41, unit: 'V' },
    margin: -0.07,
    band: [0.48, 0.52, 0.4],
  }) as unknown as Finding;

describe('the line that opens a result', () => {
  it.each([
    [
      [
        finding('danger'),
        finding('fault'),
        finding('open', ['read']),
        finding('open', ['engine']),
        finding('open', ['confirm']),
      ],
      '1 danger, 1 fault, 3 open: 1 to read, 1 to measure, 1 to confirm',
    ],
    [
      [
        finding('open', ['meter']),
        finding('open', ['confirm']),
        finding('open', ['confirm']),
        finding('met'),
      ],
      'Nothing found wrong; 3 open: 1 to measure, 2 to confirm',
    ],
    [[finding('met'), finding('met'), finding('advice')], 'Nothing found wrong. 2 met.'],
    [[finding('danger'), finding('danger')], '2 dangers'],
    [[finding('open', ['log'])], 'Nothing found wrong; 1 open: 1 to log'],
    [[], 'Nothing found wrong, and nothing here to judge.'],
  ])('%#', (findings, line) => {
    expect(firstLine(tallyOf(findings))).toBe(line);
  });

  it('counts an open finding once, by the cheapest of what it needs', () => {
    expect(tallyOf([finding('open', ['log', 'read', 'meter'])]).toGet).toEqual({
      read: 1,
      measure: 0,
      log: 0,
      confirm: 0,
    });
  });

  it('says how many findings are set aside, and asks nobody for what nobody has', () => {
    expect(firstLine(tallyOf([finding('fault', [], true), finding('met')]))).toBe(
      'Nothing else found wrong: 1 set aside',
    );
    expect(firstLine(tallyOf([finding('danger'), finding('fault', [], true)]))).toBe('1 danger, 1 set aside');
    expect(firstLine(tallyOf([finding('open')]))).toBe('Nothing found wrong; 1 open');
  });

  it('never lets a danger be set aside', () => {
    const tally = tallyOf([finding('danger', [], true), finding('fault', [], true)]);
    expect([tally.danger, tally.fault, tally.aside]).toEqual([1, 0, 1]);
  });

  it('lists by verdict, danger families first, then by name', () => {
    const some = [
      { id: 'b', verdict: 'met', dangerFamily: false },
      { id: 'z', verdict: 'open', dangerFamily: true },
      { id: 'a', verdict: 'open', dangerFamily: false },
      { id: 'c', verdict: 'danger', dangerFamily: true },
    ] as const;
    expect(inOrder(some).map((each) => each.id)).toEqual(['c', 'z', 'a', 'b']);
  });
});

describe('numbers as people read them', () => {
  it.each([
    [13.444, 'V', '13.44 V'],
    [48.3, 'mV', '48.3 mV'],
    [-31.04, 'A', '−31.0 A'],
    [9.72, 'mΩ', '9.72 mΩ'],
    [0.0072, 'Ω', '7.20 mΩ'],
    [655, 'W', '655 W'],
    [25, 'mm2', '25 mm²'],
    [0.9, 'm', '0.90 m'],
    [178, 'mm', '178 mm'],
    [9600, 's', '2 h 40 min'],
    [14_399.6, 's', '3 h 59 min'],
    [400, 'ms', '400 ms'],
    [5.78, '%', '5.8 %'],
    [82_656, 'A²s', '82656 A²s'],
    [0.8, '', '0.8'],
    [0.000386, 'Ω/m', '0.386 mΩ/m'],
    [null, 'A', 'no figure'],
    [Number.NaN, 'V', 'no figure'],
  ])('%s %s', (value, unit, text) => {
    expect(plain(printValue(value, unit))).toBe(text);
  });

  it('prints bands with one unit where both ends share it', () => {
    expect(plain(printBand(27, 150, 'A'))).toBe('27.0 to 150 A');
    expect(plain(printBand(-52, 11, 'A'))).toBe('−52.0 to 11.0 A');
    expect(plain(printBand(0.05, 1, 'A'))).toBe('50.0 mA to 1.00 A');
    expect(plain(printBand(5, 5, 'V'))).toBe('5.00 V');
  });

  it('prefers words where there is no number', () => {
    expect(printMeasure({ value: null, unit: 'm', words: 'no device' })).toBe('no device');
    expect(plain(printMeasure({ value: 3, unit: 'A', words: 'per wire' }))).toBe('3.00 A (per wire)');
  });
});

describe('lines of a finding', () => {
  it('says by how much', () => {
    expect(plain(measureLine(finding('fault')))).toBe('0.48 V, limit 0.41 V, 0.07 V over');
    const short = {
      ...finding('fault'),
      value: { value: 11.4, unit: 'V' },
      limit: { value: 12, unit: 'V' },
      margin: -0.6,
    };
    expect(plain(measureLine(short))).toBe('11.40 V, limit 12.00 V, 0.60 V short');
    expect(plain(measureLine({ ...short, margin: 0.6 }))).toBe('11.40 V, limit 12.00 V, 0.60 V to spare');
  });

  it('leaves out a measure that only repeats the sentence', () => {
    const wordy = {
      says: 'The posts swing.',
      value: { value: null, unit: 'V', words: 'The posts swing' },
      limit: { value: 0, unit: 'V' },
      margin: null,
    };
    expect(measureLine(wordy)).toBe('');
  });

  it('marks the sentence of a bad end', () => {
    expect(saysLine({ says: 'it hunts.', open: 'undecided', about: [] })).toBe('At worst: it hunts.');
    expect(saysLine({ says: 'it hunts.', open: null, about: ['charger'] })).toBe('It hunts.');
    expect(saysLine({ says: 'charger hunts.', open: null, about: ['charger'] })).toBe('charger hunts.');
  });

  it('shows the band of the value, and nothing where there is none', () => {
    expect(plain(bandLine(finding('open')))).toBe('over the bands of what is assumed: 0.40 to 0.52 V');
    expect(bandLine({ ...finding('open'), band: [0.48, 0.48, 0.48] })).toBe('');
    expect(bandLine({ ...finding('open'), band: [0.48, null, null] })).toBe('');
  });

  it('says what is needed, how, and why', () => {
    expect(plain(needLine(need('read')))).toBe('Rating of feed-fuse 80 A: read the plate. It decides.');
  });

  it('prints a value with its band, and no number for a count', () => {
    expect(plain(basisText(basis('efficiency of charger', 0.88, '', { band: [0.85, 0.9] })))).toBe(
      'efficiency of charger 0.88 (0.85 to 0.9)',
    );
    expect(basisText(basis('states in which it is live', 2, ''))).toBe('states in which it is live');
  });

  it('groups values that are alike', () => {
    const groups = groupBases([
      basis('joint of feed at a', 0.00005, 'Ω'),
      basis('joint of feed at b', 0.00005, 'Ω'),
      basis('joint of return at b', 0.0003, 'Ω'),
    ]);
    expect(groups.map(({ label, amount, count }) => [label, plain(amount), count])).toEqual([
      ['joint', '0.05 mΩ', 2],
      ['joint of return at b', '0.3 mΩ', 1],
    ]);
  });

  it('names at most three of the findings that a fact would settle', () => {
    const text = factText({
      basis: basis('plate', 1, 'A'),
      score: 4,
      closes: ['a', 'b', 'c', 'd'],
      how: 'read the plate',
    });
    expect(text.could).toBe('could settle a, b, c and 1 more');
  });

  it('gives a silent step no result', () => {
    const step: Step = { what: 'after 3 s', how: 'charger: off', value: null, unit: '' };
    expect(stepText(step)).toEqual({ what: 'After 3 s', how: 'charger: off', result: '', source: '' });
    expect(stepText({ ...step, unit: 'A' }).result).toBe('no figure');
  });
});

describe('conditions in words', () => {
  it.each([
    ['driving/charge-switch=on/weak', 'driving, charge-switch on; hot, least source, all loads on'],
    ['ignition-on/typical-quiet', 'ignition on; typical, loads off'],
    [
      'driving/a=on,b=off/typical-quiet/open=feed-fuse',
      'driving, a on, b off, feed-fuse open; typical, loads off',
    ],
    ['driving/weak/posts=14.000V', 'driving, posts 14.000V; hot, least source, all loads on'],
  ])('%s', (id, words) => {
    expect(conditionWords(id)).toBe(words);
  });

  it('names the kind of open', () => {
    expect(verdictWords({ verdict: 'open', open: 'missing' })).toBe('open, missing');
    expect(verdictWords({ verdict: 'met', open: null })).toBe('met');
  });
});
