/** Polarised breakers: turned round, between two batteries, and where only the load hangs behind them. */
import { describe, expect, it } from 'vitest';
import { polarity } from './polarity.ts';
import { van } from './support/examples.ts';
import { judgeText } from './testing/judge-text.ts';

const BREAKER = (polarised: string) =>
  `{ kind: breaker, at: locker, rating: 60 A, reset: manual, interrupts: 10 kA${polarised} }`;

describe('polarity', () => {
  it('says how much passes a breaker that is turned round, and is a fault, not a danger', () => {
    const f = judgeText(polarity.failing, [polarity]).finding('polarity/pump-breaker');
    expect(f.verdict).toBe('fault');
    expect(f.dangerFamily).toBe(false);
    // 60 W at 12 V is 5 A; a resistance takes more of it where the net stands higher: at 15.5 V at the most
    expect(f.value.value).toBeGreaterThan(5);
    expect(f.value.value).toBeLessThan((5 * 15.5) / 12);
    expect(f.statements.map((s) => s.id)).toEqual(['GEN-34']);
  });

  it('turning it round is offered first and clears it', () => {
    const { operations, practice, finding } = judgeText(polarity.failing, [polarity]);
    const f = finding('polarity/pump-breaker');
    const offered = polarity.remedies?.(
      { id: 'pump-breaker', label: '' },
      operations.nominal,
      { ...f, holds: false, limits: [], missing: [] },
      practice,
    );
    expect(offered?.[0]?.changes).toEqual([
      { set: ['wires', 'pump-feed', 'from'], to: 'pump-breaker.load' },
      { set: ['wires', 'feed', 'to'], to: 'pump-breaker.line' },
    ]);
  });

  it('a breaker between charger and bank is right one way and fed from behind the other', () => {
    const charging = van('A polarised breaker at the bank', {
      parts: { 'house-fuse': BREAKER(', polarised: yes') },
    });
    // line at the bank: the charge current of 30 A passes it backwards
    const back = judgeText(charging, [polarity]).finding('polarity/house-fuse');
    expect(back.verdict).toBe('fault');
    expect(back.value.value).toBeGreaterThan(20);
    const turned = charging
      .replace('to: house-fuse.load', 'to: house-fuse.LINE')
      .replace('from: house-fuse.line', 'from: house-fuse.load')
      .replace('house-fuse.LINE', 'house-fuse.line');
    const fed = judgeText(turned, [polarity]).finding('polarity/house-fuse');
    expect(fed.verdict).toBe('fault');
    expect(fed.says).toContain('house-battery');
    expect(fed.value.value).toBeNull();
  });

  it('sees a feed through a diode, which is no plain conductor', () => {
    const behindDiode = polarity.passing
      .replace(
        '  pump: {',
        '  second: { kind: battery, at: bay, role: house, chemistry: agm, capacity: 80 Ah }\n  block: { kind: diode, at: bay, rating: 20 A }\n  pump: {',
      )
      .replace('systems: { vehicle: 12 V }', 'systems: { vehicle: 12 V, house: 12 V }')
      .concat(
        '  second-feed: { from: second.+, to: block.anode, size: 2.5 mm2, insulation: pvc-105, length: 15 cm }\n',
        '  second-out: { from: block.cathode, to: pump.+, size: 2.5 mm2, insulation: pvc-105, length: 15 cm }\n',
        '  second-return: { from: second.-, to: battery.-, size: 2.5 mm2, insulation: pvc-105, length: 15 cm }\n',
      );
    const f = judgeText(behindDiode, [polarity]).finding('polarity/pump-breaker');
    expect(f.verdict).toBe('fault');
  });

  it('asks nothing of a breaker that is not polarised', () => {
    const plain = van('A breaker at the bank', { parts: { 'house-fuse': BREAKER('') } });
    expect(judgeText(plain, [polarity]).findings).toEqual([]);
  });
});
