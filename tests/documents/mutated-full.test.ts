/** Damaged builds judged by the whole program: never a throw, always a place in the text, work in proportion. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Session } from '../../packages/engine/src/index.ts';
import { COUNTS, expectPlaces, LONG, MOST, open, pick, SEED, without, type Opened } from './damaged.ts';
import { generate } from './generate.ts';
import { mutate } from './mutate.ts';

const text = (path: string): string => readFileSync(new URL(path, import.meta.url), 'utf8');

/** Whole builds: surveys, switches, chargers, every supply, both practices. */
const FULL = [
  text('../catalogue/truck-enable.yaml'),
  text('../scenarios/e1-hunting.yaml'),
  generate(4, { parts: 12, owners: 1 }),
  generate(7, { parts: 8, owners: 0 }),
  generate(6, { parts: 14, owners: 1, supply: 'converter' }),
];

/** Everything that a reader of findings asks of a build. */
function judged(session: Session): void {
  const { findings } = session.judge();
  if ((session.build?.wires.size ?? 0) > 0) expect(findings.length).toBeGreaterThan(0);
  for (const finding of findings) expect(finding.says).not.toMatch(/undefined|\[object|NaN/);
  session.subject();
  session.schedule();
  for (const id of session.build?.parts.keys() ?? []) session.slip(id);
}

/** The work that the sound document costs. */
function sound(document: string): Opened {
  const opened = open(document);
  expect(opened.session.diagnostics.filter((d) => d.severity === 'error')).toEqual([]);
  judged(opened.session);
  expect(opened.work.solves).toBeGreaterThan(0);
  return opened;
}

describe('damaged documents, judged', () => {
  it(
    `${COUNTS.full} full ones are judged with at most ${MOST} times the work of the sound document`,
    () => {
      const bases = FULL.map((document) => sound(document));
      let [done, refused, worst] = [0, 0, 0];
      for (let i = 0; done < COUNTS.full; i++) {
        const base = pick(bases, i);
        const extent = i % 10 === 0 ? 'full' : 'small';
        const document = mutate(pick(FULL, i), SEED * 7_000_003 + i, extent);
        const { session, read, work } = without(document, () => open(document));
        expectPlaces(session, document);
        expect(read, document).toBeLessThanOrEqual(MOST * base.read);
        if (session.build === null) {
          refused += 1;
          continue;
        }
        without(document, () => judged(session));
        done += 1;
        worst = Math.max(worst, work.solves / base.work.solves);
        expect(work.solves, document).toBeLessThanOrEqual(MOST * base.work.solves);
      }
      console.log(`full: ${done} judged, ${refused} refused, at most ${worst.toFixed(1)} times the work`);
      expect(refused).toBeGreaterThan(0);
    },
    LONG,
  );
});
