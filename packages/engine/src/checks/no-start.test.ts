/** One missing figure is one finding. */
import { describe, expect, it } from 'vitest';
import { noStart } from './no-start.ts';
import { checks } from './registry.ts';
import { van } from './support/examples.ts';
import { judgeText } from './testing/judge-text.ts';

const without = van('A battery of which nobody read the capacity', {
  parts: { 'vehicle-battery': '{ kind: battery, at: bonnet, role: vehicle, chemistry: flooded }' },
});

describe('time to no-start', () => {
  it('without the capacity is one open finding, and asks for it once', () => {
    const { findings } = judgeText(without, [noStart]);
    expect(findings.map((f) => [f.id, f.verdict, f.open, f.ifNot])).toEqual([
      ['no-start/vehicle-battery', 'open', 'missing', 'danger'],
    ]);
    expect(findings[0]?.needs.map((n) => n.basis.path)).toEqual(['parts.vehicle-battery.capacity']);
  });

  it('with a reserve that was given is judged state by state', () => {
    const given = without.replace('chemistry: flooded', 'chemistry: flooded, no-start-reserve: 20 Ah');
    const { findings } = judgeText(given, [noStart]);
    expect(findings.length).toBeGreaterThan(4);
    expect(findings.every((f) => f.id.startsWith('no-start/vehicle-battery/'))).toBe(true);
    expect(findings.some((f) => f.open === 'missing')).toBe(false);
  });
});

describe("the vehicle's own load", () => {
  it('is no assumption where a part states it', () => {
    const doc = van('A van whose own load a part states', {
      parts: { own: '{ kind: base-load, at: bonnet, current: 30 A }' },
      survey: { idling: '{ posts: { min: 13.6 V, typical: 13.9 V, max: 14.3 V }, output: 95 A }' },
    });
    const assumed = judgeText(doc, checks)
      .operations.nominal.assumed()
      .map((basis) => basis.path);
    expect(assumed.length).toBeGreaterThan(10);
    expect(assumed.filter((path) => /^survey\..*\.load$/u.test(path))).toEqual([]);
  });
});

const load = (volts: number): number | undefined =>
  judgeText(
    van('A vehicle that nobody surveyed', { top: { systems: `{ vehicle: ${volts} V, house: 12 V }` } }),
    [noStart],
  ).operations.nominal.stateFacts('driving')?.ownLoad.sourced.value;

describe('the default load of a vehicle', () => {
  it('is the same power at 24 V', () => {
    expect(load(12)).toBe(30);
    expect(load(24)).toBe(15);
  });
});
