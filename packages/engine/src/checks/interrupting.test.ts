import { describe, expect, it } from 'vitest';
import { interrupting } from './interrupting.ts';
import { judgeText } from './testing/judge-text.ts';

/** 5 A at a bank of 400 Ah: 0.3 mΩ of cells, 15 cm of 1.5 mm² and two joints (2.0 and 0.1 mΩ), the fuse 20 mΩ. */
const text = (fuse: string) => `loomwright: 1
title: A small fuse at a large bank
practice: europe
systems: { house: 12 V }
settings: { resistance-at: 20 °C }
places: { locker: { label: Locker, hottest: 40 °C } }
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 400 Ah, rest: 13.3 V, fault-resistance: 0.3 mΩ }
  small: { kind: fuse, at: locker, ${fuse} }
  lamp: { kind: load, at: locker, current: 3 A }
wires:
  lead: { from: bank.+, to: small.line, size: 1.5 mm2, insulation: pvc-70, length: 15 cm }
  feed: { from: small.load, to: lamp.+, size: 1.5 mm2, insulation: pvc-70, length: 1 m }
  back: { from: lamp.-, to: bank.-, size: 1.5 mm2, insulation: pvc-70, length: 1 m }
`;

const found = (fuse: string) => {
  const finding = judgeText(text(fuse), [interrupting]).finding('interrupting/small');
  const bare = finding.working.find((s) => s.what.startsWith('Prospective'))?.value ?? 0;
  return { verdict: finding.verdict, says: finding.says, bare };
};

describe('interrupting', () => {
  it('tells that a small fuse holds back by itself what it would have to break once it has melted', () => {
    const { verdict, says, bare } = found('family: blade-f, rating: 5 A');
    // 13.4 V full over 0.3 + 2.0 + 0.1 mΩ: 5.6 kA, 13.38 V over 22.4 mΩ with the fuse: 597 A.
    expect(bare).toBeGreaterThan(5400);
    expect(bare).toBeLessThan(5700);
    expect(verdict).toBe('advice');
    expect(says).toMatch(/lets 597.A through and can break 1000.A.*without the device, here 5\d{3}.A/u);
  });

  it('is met where the fuse breaks the prospective current too', () => {
    expect(found('family: class-t, rating: 5 A, interrupts: 20 kA').verdict).toBe('met');
  });
});
