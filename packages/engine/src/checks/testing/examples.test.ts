import { describe, expect, it } from 'vitest';
import { checks } from '../registry.ts';
import { judgeText } from './judge-text.ts';

describe.each(checks.map((check) => [check.id, check] as const))('%s', (id, check) => {
  it('is not met by its failing example', () => {
    const verdicts = judgeText(check.failing, [check]).findings.map((f) => f.verdict);
    expect(verdicts.some((v) => v !== 'met')).toBe(true);
  });

  it('is met by its passing example', () => {
    const findings = judgeText(check.passing, [check]).findings;
    expect(findings.map((f) => [f.id, f.verdict, f.says]).filter(([, v]) => v !== 'met')).toEqual([]);
    expect(findings.length).toBeGreaterThan(0);
  });
});
