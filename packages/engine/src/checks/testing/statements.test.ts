import { describe, expect, it } from 'vitest';
import { practices } from '../../practices/index.ts';
import { checks } from '../registry.ts';

describe('statements', () => {
  const known = new Set(Object.values(practices).flatMap((p) => [...p.statements.keys()]));

  it.each(checks.map((c) => [c.id, c] as const))('%s cites statements that exist', (_id, check) => {
    expect(check.statements.filter((id) => !known.has(id))).toEqual([]);
    expect(check.statements.length).toBeGreaterThan(0);
  });

  it('no two checks have one id', () => {
    expect(new Set(checks.map((c) => c.id)).size).toBe(checks.length);
  });
});
