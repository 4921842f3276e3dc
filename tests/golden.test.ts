/**
 * Golden reports of every example: what `check`, `check --json` and `states` print. `npm run golden` writes them anew; the diff is
 * to be read before it is committed.
 */
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { engine, goldenReports } from '../packages/cli/src/index.ts';

const EXAMPLES = new URL('../examples/', import.meta.url);
const GOLDEN = new URL('golden/', EXAMPLES);
const WRITING = process.env['GOLDEN'] === 'write';

const names = readdirSync(EXAMPLES)
  .filter((name) => name.endsWith('.yaml'))
  .toSorted();

const reportsOf = (name: string) =>
  goldenReports(`examples/${name}`, readFileSync(new URL(name, EXAMPLES)), engine);

describe.runIf(WRITING)('golden reports are written', () => {
  it('anew', async () => {
    const all: Record<string, string> = {};
    for (const name of names) {
      // oxlint-disable-next-line no-await-in-loop -- one after the other
      Object.assign(all, await reportsOf(name));
    }
    // The folder is never empty on the way: a report that is still right stays where it is.
    mkdirSync(GOLDEN, { recursive: true });
    for (const file of readdirSync(GOLDEN)) if (!(file in all)) rmSync(new URL(file, GOLDEN));
    for (const [file, text] of Object.entries(all)) writeFileSync(new URL(file, GOLDEN), text);
    expect(readdirSync(GOLDEN)).toHaveLength(names.length * 3);
  });
});

describe.skipIf(WRITING)('golden reports', () => {
  it.each(names)('%s', async (name) => {
    for (const [file, text] of Object.entries(await reportsOf(name))) {
      expect(text, file).toBe(readFileSync(new URL(file, GOLDEN), 'utf8'));
    }
  });

  it('keeps none of an example that is gone', () => {
    const kept = new Set(names.map((name) => name.replace('.yaml', '')));
    for (const file of readdirSync(GOLDEN)) expect(kept).toContain(file.split('.')[0]);
  });
});
