import { describe, expect, it } from 'vitest';
import type { Finding } from '@loomwright/engine';
import { Heard } from './heard.ts';
import type { JudgedPart, JudgedWhole } from './plain.ts';
import type { StartedDesk } from './start-desk.ts';
import { Told } from './told.ts';

const finding = (id: string, value: number): Finding =>
  ({ id, verdict: 'met', value: { value, unit: 'A' }, about: [] }) as unknown as Finding;

/** A desk whose telling is written down. */
function deskOf(): { readonly desk: StartedDesk; readonly tell: (part: JudgedPart) => void } {
  const listeners: ((part: JudgedPart) => void)[] = [];
  const desk = {
    hear: (listener: (part: JudgedPart) => void) => listeners.push(listener),
  } as unknown as StartedDesk;
  return {
    desk,
    tell: (part) => {
      for (const listener of listeners) listener(part);
    },
  };
}

const whole = (text: string, findings: readonly Finding[], changed: readonly Finding[]): JudgedWhole =>
  ({ text, order: findings.map(({ id }) => id), changed }) as unknown as JudgedWhole;

describe('findings between the engine and the window', () => {
  it('are told again only where they differ', () => {
    const told = new Told();
    const first = [finding('a', 1), finding('b', 2)];
    expect(told.news(first)).toEqual(first);
    const next = [finding('a', 1), finding('b', 3)];
    expect(told.news(next)).toEqual([next[1]]);
    told.keepOnly(new Set(['a']));
    expect(told.news(next)).toEqual([next[1]]);
    told.forget();
    expect(told.news(next)).toEqual(next);
  });

  it('turn where their verdict is another one than was told, not where a value is', () => {
    const told = new Told();
    expect(told.turns(finding('a', 1))).toBe(false);
    told.news([finding('a', 1)]);
    expect(told.turns(finding('a', 2))).toBe(false);
    expect(told.turns({ ...finding('a', 2), verdict: 'fault' })).toBe(true);
  });

  it('stay the same objects where nothing differs, through edits that were overtaken and desks that were ended', () => {
    const parts: [string, readonly Finding[]][] = [];
    const heard = new Heard((text, findings) => parts.push([text, findings]));
    const [a, b, c] = [finding('a', 1), finding('b', 2), finding('b', 3)];
    const one = deskOf();
    heard.begin(one.desk);
    expect(heard.afresh).toBe(true);
    one.tell({ text: 'x', changed: [a], same: [] });
    expect(heard.whole(whole('x', [a, b], [b])).findings).toEqual([a, b]);
    // Overtaken: its end never comes, what it told was heard all the same.
    one.tell({ text: 'y', changed: [c], same: ['a'] });
    expect(parts.at(-1)).toEqual(['y', [c, a]]);
    const { findings } = heard.whole(whole('z', [b, a], [b]));
    expect(findings[0]).toBe(b);
    expect(findings[1]).toBe(a);
    heard.begin(deskOf().desk);
    expect(heard.afresh).toBe(true);
    expect(() => heard.whole(whole('z', [a], []))).toThrow(/nothing was told/);
  });
});
