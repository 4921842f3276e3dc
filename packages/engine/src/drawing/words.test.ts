import { describe, expect, it } from 'vitest';
import { colourCode, colourWords } from './colours.ts';
import { designations } from './numbers.ts';
import { escaped, idOf } from './svg.ts';

describe('colours of insulation', () => {
  // Letter codes of IEC 60757.
  it.each([
    ['red', 'RD'],
    ['Black', 'BK'],
    ['RD', 'RD'],
    ['rd', 'RD'],
    ['green-yellow', 'GNYE'],
    ['green-and-yellow', 'GNYE'],
    ['gray', 'GY'],
    ['purple', 'VT'],
    ['constructor', 'constru…'],
    ['GNYE', 'GNYE'],
    ['grey/pink', 'GYPK'],
    ['GYPK', 'GYPK'],
    ['violet', 'VT'],
    ['', ''],
    ['two-tone flex', 'two-ton…'],
    ['XX', 'XX'],
  ])('%s is %s', (typed, code) => expect(colourCode(typed)).toBe(code));

  it.each([
    ['RD', 'red'],
    ['GNYE', 'green and yellow'],
    ['two-ton…', 'two-ton…'],
    ['XX', 'XX'],
    ['', ''],
  ])('%s is spoken as %s', (code, words) => expect(colourWords(code)).toBe(words));

  it('are left out when nobody gave them', () => expect(colourCode(undefined)).toBe(''));
});

describe('designations', () => {
  it('count within their letter in the order of the document, without a minus', () => {
    const parts = ['F', 'G', 'F', 'X'].map((letter, i) => ({ id: `p${i}`, letter }));
    const made = designations(parts, 9);
    expect(parts.map((part) => made.get(part.id)?.text)).toEqual(['F1', 'G1', 'F2', 'X1']);
  });

  it('of letter W go on behind the wires', () => {
    expect(designations([{ id: 'a', letter: 'W' }], 12).get('a')?.text).toBe('W13');
  });
});

describe('SVG', () => {
  it('escapes what a person wrote, and drops what XML forbids', () => {
    expect(escaped(`<a href="x">&'\u0000\u0007`)).toBe('&lt;a href=&quot;x&quot;&gt;&amp;&#39;');
    expect(escaped('Wagen süd \u{1F690}')).toBe('Wagen süd \u{1F690}');
  });

  it('makes ids of any name, different ones of different names', () => {
    const names = ['W12', '1 a', 'a b', 'a"b', 'ä', '_'];
    const ids = names.map((name) => idOf('', name));
    for (const id of ids) expect(id).toMatch(/^[A-Za-z_][A-Za-z0-9._-]*$/);
    expect(new Set(ids).size).toBe(names.length);
    expect(idOf('', 'W12')).toBe('W12');
  });
});
