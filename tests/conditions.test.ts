/** Which states a vehicle has, and the set points that it holds there. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openSession } from '../packages/engine/src/session/index.ts';

const TEXT = readFileSync(new URL('catalogue/sensor-passed.yaml', import.meta.url), 'utf8');

const statesOf = (text: string): readonly string[] => {
  const session = openSession(text);
  expect(session.diagnostics).toEqual([]);
  return session.judge().operation.states.map((s) => s.id);
};

describe('a supply of variable voltage', () => {
  const unsaid = TEXT.replace('variable-voltage: no, ', '');
  it('is not assumed where nothing points to it', () => {
    // A sensor on the negative post alone is such a sign, so it is taken out here.
    const plain = readFileSync(new URL('catalogue/stop-start.yaml', import.meta.url), 'utf8');
    expect(statesOf(plain.replace('variable-voltage: no, ', ''))).not.toContain('overrun');
  });

  it('shows in a sensor on the negative post', () => {
    expect(statesOf(unsaid)).toContain('overrun');
  });

  it('shows in what was measured on overrun alone', () => {
    const plain = readFileSync(new URL('catalogue/stop-start.yaml', import.meta.url), 'utf8').replace(
      'variable-voltage: no, ',
      '',
    );
    const surveyed = plain.replace(
      'survey:\n',
      'survey:\n  overrun: { posts: { min: 14.9 V, typical: 15.0 V, max: 15.2 V } }\n',
    );
    expect(statesOf(surveyed)).toContain('overrun');
  });
});
