import { describe, expect, it } from 'vitest';
import { checks } from '../registry.ts';
import { findingsOf } from './judged.ts';

describe.each(checks.map((check) => [check.id, check] as const))('%s', (id, check) => {
  it('is not met by its failing example', () => {
    const verdicts = findingsOf(check.failing, [check]).map((f) => f.verdict);
    expect(verdicts.some((v) => v !== 'met')).toBe(true);
  });

  it('is met by its passing example', () => {
    const findings = findingsOf(check.passing, [check]);
    expect(findings.map((f) => [f.id, f.verdict, f.says]).filter(([, v]) => v !== 'met')).toEqual([]);
    expect(findings.length).toBeGreaterThan(0);
  });
});
