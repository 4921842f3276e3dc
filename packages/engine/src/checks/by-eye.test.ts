/** What is stated and not judged is said; a confirmation under any of a table's names counts. */
import { describe, expect, it } from 'vitest';
import { checks } from './registry.ts';
import { van } from './support/examples.ts';
import { judgeText } from './testing/judge-text.ts';

const confirmed = (name: string): string =>
  van('A van with a confirmation').concat(
    `\nconfirmed:\n  - { table: "${name}", edition: "2021", by: the workshop }\n`,
  );

const remarks = (text: string) =>
  judgeText(text, checks).findings.filter((f) => f.check === 'by-eye' || f.open === 'unconfirmed');

describe('what is confirmed', () => {
  it('closes what hangs on the table, however its name is written', () => {
    const before = remarks(van('A van without a confirmation')).map((f) => f.id);
    expect(before).toContain('rating/out');
    for (const name of ['table:ampacity/iso-13297', 'ampacity-iso13297', 'ISO 13297']) {
      const after = remarks(confirmed(name));
      expect(after.map((f) => f.id)).not.toContain('rating/out');
      expect(after.find((f) => f.check === 'by-eye')?.verdict).toBe('met');
    }
  });

  it('is said where nothing rests on it, and an open finding names what it wants', () => {
    const found = remarks(confirmed('ISO 13279'));
    expect(found.find((f) => f.check === 'by-eye')?.says).toMatch(/Nothing here rests on .* "ISO 13279"/u);
    expect(found.find((f) => f.id === 'rating/out')?.needs.map((n) => n.why)).toContain(
      'from memory: confirm it as table "ampacity/iso-13297"',
    );
  });
});

describe('a wire whose end nobody knows', () => {
  it('leads nowhere, and that is said', () => {
    const text = van('A van with a wire into the dark').replace(
      /^wires:$/mu,
      'wires:\n  dark: { from: charger.out+, to: unknown, size: 6 mm2, length: 1 m }',
    );
    const found = remarks(text).find((f) => f.id === 'by-eye/dark');
    expect(found?.verdict).toBe('advice');
    expect(found?.says).toContain('leads nowhere');
  });

  it('at both ends is in no computation', () => {
    const text = van('A van with two loose ends').replace(
      /^wires:$/mu,
      'wires:\n  dark: { from: unknown, to: unknown, size: 6 mm2 }',
    );
    expect(remarks(text).find((f) => f.id === 'by-eye/dark')?.says).toContain('in no computation');
  });
});

/** A feed of a typed length along a way of 3.5 m. */
const along = (length: string) =>
  judgeText(
    van('A van with a way', {
      top: { routes: '[{ from: bonnet, to: locker, length: 3.5 m, in: free }]' },
      wires: {
        'feed-2': `{ from: feed-fuse.load, to: charger.in+, size: 25 mm2, insulation: pvc-105, length: ${length}, via: [bonnet, locker] }`,
      },
    }),
    checks,
  ).findings.find((f) => f.id === 'by-eye/feed-2');

describe('a typed length that is less than the way', () => {
  it('is said: a decimal was lost in one of them', () => {
    expect(along('38 cm')?.verdict).toBe('advice');
    expect(along('38 cm')?.says).toMatch(/0\.38.m long, and its way along the routes 3\.50.m/u);
    expect(along('3.4 m')).toBeUndefined();
  });
});
