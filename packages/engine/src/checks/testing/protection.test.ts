/** Protection of whole builds: worked shorts by hand, a reference that must pass, and the design faults that workshops make. */
import { describe, expect, it } from 'vitest';
import type { Check, Finding } from '../../contracts/index.ts';
import { checks } from '../registry.ts';
import { van } from '../support/examples.ts';
import { judgeText } from './judge-text.ts';

const FAMILY: readonly string[] = [
  'protected',
  'rating',
  'interrupting',
  'clearing',
  'automatic-reset',
  'rating-window',
  'nuisance',
  'selectivity',
  'blade-holder',
  'conductor',
  'joint-heat',
  'contacts',
  'wetting',
  'voltage-rating',
  'mechanical-size',
  'stud-lugs',
  'reach-hand',
  'sparks',
  'venting',
];
const own: readonly Check[] = checks.filter((check) => FAMILY.includes(check.id));
const only = (...ids: readonly string[]): readonly Check[] => own.filter((check) => ids.includes(check.id));

const bad = (findings: readonly Finding[]): readonly string[] =>
  findings.filter((f) => f.verdict !== 'met' && f.verdict !== 'advice').map((f) => `${f.verdict} ${f.id}`);

const currentIn = (f: Finding): number => f.working.find((s) => s.what.startsWith('Governing'))?.value ?? 0;

const BARE = 'joints: { from: 0 mΩ, to: 0 mΩ }';

/** A tap of 9 m behind 60 A: battery 5 mΩ, breaker 2 mΩ, contact 5 mΩ, body 3 mΩ, 12.6 V. */
const longTap = (tapFuse: boolean, at = '20 °C'): string => `loomwright: 1
title: A long thin tap
practice: europe
systems: { vehicle: 12 V }
settings: { resistance-at: ${at} }
climate: { coldest: 20 °C, hottest: 30 °C }
places: { bay: { label: Battery bay, hottest: 30 °C }, rear: { label: Rear, hottest: 30 °C } }
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: flooded, capacity: 80 Ah, rest: 12.6 V, resistance: 5 mΩ, settled-resistance: 5 mΩ, fault-resistance: 5 mΩ }
  main: { kind: breaker, at: bay, rating: 60 A, reset: manual, interrupts: 5 kA, resistance: 2 mΩ, curve: [{ at: 135 %, opens: never..3600 s }, { at: 200 %, opens: 4..40 s }, { at: 400 %, opens: 0.6..5 s }, { at: 1000 %, opens: 0.12..0.4 s }] }
${tapFuse ? '  tap-fuse: { kind: fuse, at: bay, family: blade-f, rating: 15 A, interrupts: 1 kA, clearing: 500 A²s, cold-resistance: 0.1 mΩ }\n' : ''}  body: { kind: body-section, medium: steel }
  ground: { kind: chassis-point, at: bay, section: body, joint: 2 mΩ }
  lamp: { kind: load, at: rear, current: 5 A, return: chassis, section: body }
wires:
  lead: { from: battery.+, to: main.line, size: 16 mm2, insulation: pvc-70, length: 1 mm, ${BARE} }
${tapFuse ? `  start: { from: main.load, to: tap-fuse.line, size: 2.5 mm2, insulation: pvc-70, length: 10 cm, ${BARE} }\n` : ''}  tap: { from: ${tapFuse ? 'tap-fuse.load' : 'main.load'}, to: lamp.+, size: 2.5 mm2, insulation: pvc-70, length: 9 m, ${BARE} }
  earth: { from: battery.-, to: ground.stud, size: 35 mm2, insulation: pvc-70, length: 1 mm, ${BARE} }
`;

describe('a short at the end of a long thin wire', () => {
  it('is cleared too late by the breaker: 145 A, 22.6 s against 3.9 s', () => {
    const { finding, operations } = judgeText(longTap(false), only('clearing', 'rating'));
    const found = finding('clearing/tap');
    expect(found.verdict).toBe('danger');
    const governing = found.working.find((s) => s.what.startsWith('Governing'));
    // By hand: 12.6 V / (71.8 + 5 + 2 + 5 + 3) mΩ.
    expect(governing?.value).toBeGreaterThan(143);
    expect(governing?.value).toBeLessThan(147);
    const opens = found.working.find((s) => s.what.startsWith('time by which main has surely opened'));
    // Straight in log-log from 200 % 40 s to 400 % 5 s, at 242 %: 40 x (2.42 / 2)^-3.
    expect(opens?.value).toBeGreaterThan(21.5);
    expect(opens?.value).toBeLessThan(24);
    const withstand = found.working.find((s) => s.what.startsWith('time that tap withstands'));
    // IEC 60364-5-54: (115 x 2.5 / 145)².
    expect(withstand?.value).toBeGreaterThan(3.8);
    expect(withstand?.value).toBeLessThan(4.1);
    expect(finding('rating/tap').verdict).toBe('danger');
    expect(operations.nominal.wires.size).toBe(3);
  });

  it('is worse with hot copper: a smaller current, later', () => {
    const cold = judgeText(longTap(false), only('clearing')).finding('clearing/tap');
    const hot = judgeText(longTap(false, '109 °C'), only('clearing')).finding('clearing/tap');
    expect(hot.verdict).toBe('danger');
    expect(currentIn(hot)).toBeLessThan(currentIn(cold));
  });

  it('is no danger behind its own 15 A fuse within reach of the breaker', () => {
    const { findings, finding } = judgeText(longTap(true), only('clearing', 'rating', 'protected'));
    expect(bad(findings)).toEqual([]);
    expect(finding('protected/start/main').verdict).toBe('met');
    expect(finding('clearing/tap').verdict).toBe('met');
  });
});

/** The sound van with something wrong. */
const changed = (changes: Parameters<typeof van>[1], ...ids: readonly string[]) =>
  judgeText(van('Wrong', changes), ids.length === 0 ? own : only(...ids));

const thin = (from: string, to: string): string =>
  `{ from: ${from}, to: ${to}, size: 4 mm2, insulation: pvc-105, length: 4 m }`;

const breaker = (reset: string): Record<string, string> => ({
  'feed-fuse': `{ kind: breaker, at: bonnet, rating: 60 A, interrupts: 5 kA${reset} }`,
});

const house = (more: string): Record<string, string> => ({
  'house-fuse': `{ kind: fuse, at: locker, rating: 60 A, clearing: 12000 A²s, ${more} }`,
});

const verdictOf = (reset: string) =>
  changed({ parts: breaker(reset) }, 'automatic-reset').finding('automatic-reset/feed-fuse').verdict;

const interruptingOf = (more: string) =>
  changed({ parts: house(more) }, 'interrupting').finding('interrupting/house-fuse');

describe('a reference van', () => {
  const sound = van('Reference', {
    places: { bonnet: '{ label: Under the bonnet, hottest: 60 °C, engine-space: yes }' },
    parts: {
      'feed-fuse':
        '{ kind: breaker, at: bonnet, rating: 60 A, reset: manual, interrupts: 5 kA, dc-rating: 32 V, curve: [{ at: 135 %, opens: never..3600 s }, { at: 200 %, opens: 4..40 s }, { at: 400 %, opens: 0.6..5 s }, { at: 600 %, opens: 0.3..1.8 s }, { at: 1000 %, opens: 0.12..0.4 s }] }',
    },
    wires: {
      feed: '{ from: vehicle-battery.+, to: feed-fuse.line, size: 50 mm2, insulation: pvc-105, length: 15 cm }',
      'feed-2': '{ from: feed-fuse.load, to: charger.in+, size: 50 mm2, insulation: pvc-105, length: 4 m }',
      return: '{ from: charger.in-, to: vehicle-battery.-, size: 50 mm2, insulation: pvc-105, length: 4 m }',
      out: '{ from: charger.out+, to: house-fuse.load, size: 25 mm2, insulation: pvc-105, length: 50 cm }',
      bank: '{ from: house-fuse.line, to: house-battery.+, size: 25 mm2, insulation: pvc-105, length: 15 cm }',
      'out-neg': '{ from: charger.out-, to: shunt.system, size: 25 mm2, insulation: pvc-105, length: 50 cm }',
      'bank-neg':
        '{ from: shunt.battery, to: house-battery.-, size: 25 mm2, insulation: pvc-105, length: 20 cm }',
    },
  });

  it('has nothing wrong and nothing open in its protection', () => {
    expect(bad(judgeText(sound, own).findings)).toEqual([]);
  });

  it('sizes the breaker by the greatest power at the stop voltage in heat', () => {
    const found = judgeText(sound, only('nuisance')).finding('nuisance/feed-fuse');
    // 30 A x 14.4 V / 0.88 / 12.0 V / 0.8
    expect(found.value.value).toBeCloseTo((30 * 14.4) / 0.88 / 12 / 0.8, 0);
  });

  it('no device at the vehicle battery', () => {
    const { finding } = changed(
      {
        wires: {
          'feed-2':
            '{ from: vehicle-battery.+, to: charger.in+, size: 35 mm2, insulation: pvc-105, length: 4 m }',
        },
        without: ['feed', 'feed-fuse'],
      },
      'protected',
      'clearing',
    );
    const found = finding('protected/feed-2/vehicle-battery');
    expect(found.verdict).toBe('danger');
    expect(found.value.value).toBeCloseTo(4, 9);
    expect(finding('clearing/feed-2').verdict).toBe('danger');
    expect(finding('clearing/feed-2').value.words).toBe('never cleared');
  });

  it('no device at the house battery: the charger is no protection', () => {
    const { finding } = changed(
      {
        wires: {
          out: '{ from: charger.out+, to: house-battery.+, size: 16 mm2, insulation: pvc-105, length: 1 m }',
        },
        without: ['bank', 'house-fuse'],
      },
      'protected',
      'interrupting',
    );
    expect(finding('protected/out/house-battery').verdict).toBe('danger');
    // From its own output the charger limits itself to 30 A.
    expect(finding('protected/out/charger').verdict).toBe('met');
  });

  it('the device at the wrong end', () => {
    const { finding } = changed(
      {
        wires: {
          feed: '{ from: vehicle-battery.+, to: feed-fuse.line, size: 35 mm2, insulation: pvc-105, length: 4.8 m }',
          'feed-2':
            '{ from: feed-fuse.load, to: charger.in+, size: 35 mm2, insulation: pvc-105, length: 20 cm }',
        },
      },
      'protected',
    );
    const found = finding('protected/feed/vehicle-battery');
    expect(found.verdict).toBe('danger');
    expect(found.value.value).toBeCloseTo(4.8, 9);
  });

  it.each([
    ['17.8 cm', 'met'],
    ['19 cm', 'open'],
    ['21 cm', 'danger'],
  ])('a device %s from the battery in Europe: %s', (length, verdict) => {
    const wires = {
      feed: `{ from: vehicle-battery.+, to: feed-fuse.line, size: 35 mm2, insulation: pvc-105, length: ${length} }`,
    };
    expect(changed({ wires }, 'protected').finding('protected/feed/vehicle-battery').verdict).toBe(verdict);
  });

  it.each([
    ['yes', '100 cm', 'met'],
    ['yes', '102 cm', 'danger'],
    ['no', '19 cm', 'danger'],
  ])('in North America sheathed %s, %s: %s', (sheathed, length, verdict) => {
    const wires = {
      feed: `{ from: vehicle-battery.+, to: feed-fuse.line, size: 2 AWG, insulation: pvc-105, length: ${length}, sheathed: ${sheathed} }`,
    };
    const found = changed({ top: { practice: 'north-america' }, wires }, 'protected').finding(
      'protected/feed/vehicle-battery',
    );
    expect(found.verdict).toBe(verdict);
  });

  it('a device larger than the cable: 100 A on 8 AWG in an engine space (68 A)', () => {
    const { finding } = changed(
      {
        top: { practice: 'north-america' },
        places: { bonnet: '{ label: Under the bonnet, hottest: 50 °C, engine-space: yes }' },
        parts: {
          'feed-fuse': '{ kind: fuse, at: bonnet, family: bolt-down, rating: 100 A, interrupts: 6 kA }',
        },
        wires: {
          'feed-2':
            '{ from: feed-fuse.load, to: charger.in+, size: 8 AWG, insulation: pvc-105, length: 4 m }',
        },
      },
      'rating',
    );
    const found = finding('rating/feed-2');
    expect(found.verdict).toBe('danger');
    expect(found.value.value).toBe(100);
    // 33 CFR 183.425 table 5 and note 1: 80 A x 0.85.
    expect(found.limit.value).toBeCloseTo(68, 6);
    // 150 % of 68 A is 102 A: the older rule would allow it, and the working says so.
    expect(found.working.some((s) => s.how.includes('would allow it'))).toBe(true);
  });

  it('a rating chosen from the output current opens for nothing', () => {
    const parts = {
      'feed-fuse': '{ kind: fuse, at: bonnet, family: bolt-down, rating: 35 A, interrupts: 6 kA }',
    };
    expect(changed({ parts }, 'nuisance').finding('nuisance/feed-fuse').verdict).toBe('fault');
  });

  it('thin cable leaves no rating between the charger and the wire', () => {
    const wires = { 'feed-2': thin('feed-fuse.load', 'charger.in+') };
    const found = changed({ wires }, 'rating-window').finding('rating-window/feed-fuse');
    expect(found.verdict).toBe('fault');
    expect(found.says).toMatch(/No rating exists.*opens it/);
  });

  it('a breaker that resets itself is no main protection; an unknown one is open', () => {
    expect(verdictOf(', reset: automatic')).toBe('danger');
    expect(verdictOf(', reset: manual')).toBe('met');
    expect(verdictOf('')).toBe('open');
  });

  it('a small fuse at a lithium bank cannot break its short; an unknown one is open', () => {
    expect(interruptingOf('family: strip-30, interrupts: 2 kA').verdict).toBe('danger');
    expect(interruptingOf('family: class-t').verdict).toBe('open');
    expect(interruptingOf('family: class-t, interrupts: 20 kA').verdict).toBe('met');
    expect(interruptingOf('family: class-t, interrupts: 20 kA').value.value).toBeGreaterThan(3000);
  });

  it('two equal devices in series: the hidden one may open first', () => {
    const { finding } = changed(
      {
        parts: {
          link: '{ kind: fuse, at: bonnet, family: strip-30, rating: 60 A, interrupts: 2 kA }',
          'feed-fuse': '{ kind: breaker, at: bonnet, rating: 60 A, reset: manual, interrupts: 5 kA }',
        },
        wires: {
          feed: '{ from: vehicle-battery.+, to: link.line, size: 35 mm2, insulation: pvc-105, length: 10 cm }',
          'feed-1':
            '{ from: link.load, to: feed-fuse.line, size: 35 mm2, insulation: pvc-105, length: 50 cm }',
        },
      },
      'selectivity',
    );
    expect(finding('selectivity/feed-fuse/link').verdict).toBe('advice');
  });

  it('a part of 16 V on a net of 24 V', () => {
    const { finding } = changed(
      {
        top: { systems: '{ vehicle: 24 V, house: 12 V }' },
        parts: {
          'feed-fuse':
            '{ kind: breaker, at: bonnet, rating: 60 A, reset: manual, interrupts: 5 kA, dc-rating: 16 V }',
        },
        survey: {
          idling: '{ posts: { min: 27.2 V, typical: 27.8 V, max: 28.6 V }, output: 95 A, load: 28 A }',
          driving: '{ posts: { min: 27.6 V, typical: 28.4 V, max: 28.8 V } }',
        },
      },
      'voltage-rating',
    );
    const found = finding('voltage-rating/feed-fuse');
    expect(found.verdict).toBe('danger');
    expect(found.value.value).toBe(32);
  });

  it('a blade fuse on 41 A for long', () => {
    const parts = { 'feed-fuse': '{ kind: fuse, at: bonnet, family: blade-e, rating: 60 A }' };
    expect(changed({ parts }, 'blade-holder').finding('blade-holder/feed-fuse').verdict).toBe('fault');
  });

  it('a supply point that nobody knows to be fused leaves its wire open', () => {
    const parts = {
      'run-signal':
        '{ kind: supply-point, at: bonnet, live: [idling, driving], dead: others, measured: yes, limit: 5 A }',
    };
    const found = changed({ parts }, 'protected').finding('protected/run/run-signal');
    expect(found.verdict).toBe('open');
    expect(found.open).toBe('missing');
  });
});
