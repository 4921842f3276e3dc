/** What every check promises: its statements exist, its twins read, the failing one fails and the passing one is met. */
import { describe, expect, it } from 'vitest';
import { practices } from '../practices/index.ts';
import { checks } from './registry.ts';
import { judgeText } from './testing/judge-text.ts';

describe('checks', () => {
  it('have ids of their own', () => {
    const ids = checks.map((check) => check.id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('have a failing twin each, but the one that judges the program', () => {
    expect(checks.filter((check) => check.failing === '').map((check) => check.id)).toEqual(['solved']);
  });

  it.each(checks.map((check) => [check.id, check] as const))(
    '%s cites statements that some practice has',
    (_id, check) => {
      const known = new Set(Object.values(practices).flatMap((practice) => [...practice.statements.keys()]));
      expect(check.statements.length).toBeGreaterThan(0);
      expect(check.statements.filter((id) => !known.has(id))).toEqual([]);
      for (const practice of Object.values(practices))
        expect(check.statements.filter((id) => practice.statements.has(id)).length).toBeGreaterThan(0);
    },
  );
});

describe.each(checks.map((check) => [check.id, check] as const))('%s', (id, check) => {
  it.skipIf(check.failing === '')('fails its failing twin', () => {
    const found = judgeText(check.failing, [check]).findings;
    expect(found.length).toBeGreaterThan(0);
    expect(found.every((f) => f.id.startsWith(`${id}/`))).toBe(true);
    const bad = found.filter(
      (f) => f.verdict === 'danger' || f.verdict === 'fault' || f.verdict === 'advice',
    );
    expect(bad.map((f) => f.id)).not.toEqual([]);
    for (const f of bad) expect(f.says.length).toBeGreaterThan(20);
  });

  it('meets its passing twin', () => {
    const found = judgeText(check.passing, [check]).findings;
    expect(found.length).toBeGreaterThan(0);
    expect(found.filter((f) => f.verdict !== 'met').map((f) => `${f.id}: ${f.verdict} ${f.says}`)).toEqual(
      [],
    );
  });

  it('works out every finding that has a number', () => {
    for (const text of [check.failing, check.passing].filter((t) => t !== '')) {
      for (const f of judgeText(text, [check]).findings) {
        if (f.value.value !== null && f.verdict !== 'met') expect(f.working.length, f.id).toBeGreaterThan(0);
        for (const n of [f.value.value, f.limit.value, f.margin])
          expect(n === null || Number.isFinite(n), f.id).toBe(true);
      }
    }
  });
});
