import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { EXAMPLES } from './examples.ts';

const folder = new URL('../../../../examples/', import.meta.url);

describe('builds to look at', () => {
  it('are all that come with the program, under their own titles', () => {
    const files = readdirSync(folder).filter((name) => name.endsWith('.yaml'));
    expect(EXAMPLES.map(({ name }) => `${name}.yaml`).toSorted()).toEqual(files.toSorted());
    for (const { name, title } of EXAMPLES) {
      const text = readFileSync(new URL(`${name}.yaml`, folder), 'utf8');
      expect(/^title: (.*)$/m.exec(text)?.[1]?.replaceAll("'", '’')).toBe(title);
    }
  });
});
