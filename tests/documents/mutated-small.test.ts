/** Small damaged documents: never a throw, always a place in the text, work in proportion. */
import { describe, expect, it } from 'vitest';
import { COUNTS, expectPlaces, LONG, MOST, open, pick, SEED, without } from './damaged.ts';
import { generate } from './generate.ts';
import { mutate } from './mutate.ts';

/** Few parts, so that one damage in three still reads. */
const SMALL = [generate(1, { parts: 5, owners: 0 }), generate(2, { parts: 6, owners: 1 })];
describe('damaged documents, read and drawn', () => {
  it(
    `${COUNTS.small} small ones are read, laid out and drawn, or refused with a place`,
    () => {
      const sound = SMALL.map((document) => open(document).read);
      let laid = 0;
      for (let i = 0; i < COUNTS.small; i++) {
        const document = mutate(pick(SMALL, i), SEED * 1_000_003 + i);
        const { session, read } = without(document, () => open(document));
        expectPlaces(session, document);
        expect(read, document).toBeLessThanOrEqual(MOST * pick(sound, i));
        if (session.build === null) continue;
        laid += 1;
        without(document, () => session.subject());
      }
      console.log(`small: ${laid} of ${COUNTS.small} still read and were laid out`);
      expect(laid).toBeGreaterThan(COUNTS.small / 20);
      expect(laid).toBeLessThan(COUNTS.small);
    },
    LONG,
  );
});
