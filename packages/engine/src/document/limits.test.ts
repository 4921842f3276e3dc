/** Documents that are refused before they are parsed, and documents that mean harm. */
import { describe, expect, it } from 'vitest';
import { readDocument } from './index.ts';
import { testRegistry } from './testing/kinds.ts';
import { decodeUtf8, MOST_BYTES, utf8Size } from './text.ts';

const read = (input: string | Uint8Array) => readDocument(input, testRegistry);
const said = (input: string | Uint8Array) =>
  read(input).diagnostics.map((d) => `${d.line}:${d.column} ${d.message}`);
const HEAD = 'loomwright: 1\n';

const flow = (levels: number) => `${HEAD}notes: ${'['.repeat(levels)}${']'.repeat(levels)}\n`;

const bytes = (...codes: number[]) => new Uint8Array([...new TextEncoder().encode(HEAD), ...codes]);

const chain = (count: number) =>
  `${HEAD}parts:\n${Array.from({ length: count }, (_, i) => `  p${i}: { kind: battery, capacity: 80 Ah }\n`).join('')}wires:\n${Array.from({ length: count - 1 }, (_, i) => `  w${i}: { from: p${i}.+, to: p${i + 1}.+, length: 1 m }\n`).join('')}`;

describe('size', () => {
  it('1 MiB is read, one byte more is refused', () => {
    const title = (length: number) => `${HEAD}title: ${'a'.repeat(length - HEAD.length - 8)}\n`;
    expect(title(MOST_BYTES)).toHaveLength(1_048_576);
    expect(read(title(MOST_BYTES)).build?.title).toHaveLength(MOST_BYTES - HEAD.length - 8);
    expect(said(title(MOST_BYTES + 1))).toEqual([expect.stringContaining('more than 1 MiB')]);
    expect(said(new Uint8Array(MOST_BYTES + 1))).toEqual([expect.stringContaining('more than 1 MiB')]);
  });

  it('counts bytes, not characters', () => {
    expect(said(`${HEAD}title: ${'Ω'.repeat(MOST_BYTES / 2)}`)).toEqual([
      expect.stringContaining('more than 1 MiB'),
    ]);
  });
});

describe('nesting', () => {
  it('60 levels are looked at, 61 refused', () => {
    expect(said(flow(59)).join()).not.toContain('levels of nesting');
    expect(said(flow(60))).toEqual([
      '2:67 found more than 60 levels of nesting; a build needs no more than 8',
    ]);
  });

  it.each([
    ['brackets', '['.repeat(100_000)],
    ['braces', '{a: '.repeat(100_000)],
    ['dashes', '- '.repeat(100_000)],
    ['questions', '? '.repeat(100_000)],
    ['indented lines', Array.from({ length: 200 }, (_, i) => `${' '.repeat(i)}a:`).join('\n')],
    ['indented dashes', Array.from({ length: 200 }, (_, i) => `${' '.repeat(i)}-`).join('\n')],
  ])('%s', (_name, text) => {
    expect(said(text)).toEqual([expect.stringContaining('more than 60 levels')]);
  });

  it('a long flat list is not deep', () => {
    const items = Array.from({ length: 500 }, (_, i) => `  - { a: [${i}] }\n`).join('');
    expect(said(`${HEAD}routes:\n${items}`).join()).not.toContain('levels of nesting');
  });
});

describe('encoding', () => {
  it.each([
    ['Latin-1', bytes(0x23, 0xfc, 0x0a), 16],
    ['an overlong form', bytes(0xc0, 0xaf), 15],
    ['half of a pair', bytes(0xed, 0xa0, 0x80), 15],
    ['above U+10FFFF', bytes(0xf4, 0x90, 0x80, 0x80), 15],
    ['a character cut off', bytes(0x23, 0xe2, 0x84), 16],
    ['a lone continuation', bytes(0x80), 15],
  ])('%s', (_name, input, at) => {
    expect(said(input)).toEqual([`1:1 not UTF-8 at byte ${at}; save the document as UTF-8`]);
  });

  it('UTF-16 is named', () => {
    expect(said(new Uint8Array([0xff, 0xfe, 0x6c, 0]))).toEqual([
      '1:1 not UTF-8 at byte 1 (it looks like UTF-16); save the document as UTF-8',
    ]);
  });

  it('NUL, and half a pair in a text', () => {
    expect(said(`${HEAD}title: a\u0000b`)).toEqual([
      '2:9 found the control character U+0000 (NUL); take it out',
    ]);
    expect(said(`${HEAD}title: \uD800`)[0]).toContain('half of a character');
  });

  it('decodes what the platform decodes', () => {
    const text = 'aΩ€😀\u07FF\uFFFD\u{10FFFF}\uFEFF'.repeat(3000);
    expect(decodeUtf8(new TextEncoder().encode(text))).toEqual({ ok: true, text });
    expect(utf8Size(text).bytes).toBe(new TextEncoder().encode(text).length);
  });
});

describe('harm', () => {
  it('an alias bomb is refused before it grows', () => {
    const lines = [
      'a: &a [x, x]',
      ...'bcdefghij'.split('').map((c, i) => `${c}: &${c} [${`*${'abcdefghij'[i]}, `.repeat(9)}]`),
    ];
    const messages = said(lines.join('\n'));
    expect(messages.length).toBeGreaterThan(10);
    expect(messages.every((m) => /an anchor|an alias/.test(m))).toBe(true);
  });

  it('names of object members are only names', () => {
    const { build, source } = read(
      `${HEAD}parts:\n  constructor: { kind: battery }\n  toString: { kind: battery }\n`,
    );
    expect([...(build?.parts.keys() ?? [])]).toEqual(['constructor', 'toString']);
    expect(source.notation(['parts', 'constructor', 'kind'])).toBe('battery');
    for (const key of ['__proto__', 'constructor', 'hasOwnProperty', 'prototype'])
      expect(said(`${HEAD}${key}: { polluted: yes }\n`)).toHaveLength(1);
    for (const key of ['__proto__', 'constructor', 'valueOf'])
      expect(said(`${HEAD}parts: { b: { kind: battery, ${key}: 1 } }\n`)).toHaveLength(1);
    expect(said(`${HEAD}parts: { b: { kind: constructor } }\n`)).toHaveLength(1);
    expect(said(`${HEAD}parts: { b: { kind: base-load, current: { __proto__: 1 A } } }\n`)).toHaveLength(1);
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  it('a system of such a name has no inherited voltage', () => {
    const { build } = read(`${HEAD}systems: { house: 12 V }\n`);
    expect(build?.systems['constructor']).toBeUndefined();
    expect(read(`${HEAD}systems: { __proto__: 12 V }\n`).build).toBeNull();
  });

  it('says at most 200 things, then how many more', () => {
    const parts = Array.from({ length: 5000 }, (_, i) => `  p${i}: { kind: batery }\n`).join('');
    const messages = said(`${HEAD}parts:\n${parts}`);
    expect(messages).toHaveLength(201);
    expect(messages.at(-1)).toContain('and 4800 more');
  });

  it.each([
    ['commas', `a: [${','.repeat(50_000)}`],
    ['quotes', '"\n'.repeat(50_000)],
    ['closing brackets', ']'.repeat(50_000)],
    ['documents', '---\n'.repeat(50_000)],
    ['empty keys', '?\n'.repeat(50_000)],
  ])('many faults of notation come to an end: %s', (_name, text) => {
    const { diagnostics, build } = read(HEAD + text);
    expect(build).toBeNull();
    expect(diagnostics.length).toBeGreaterThan(0);
    expect(diagnostics.length).toBeLessThanOrEqual(201);
  });

  it('work grows in proportion to the document', () => {
    const nodes = [100, 200, 400].map((count) => {
      const steps = { nodes: 0 };
      expect(readDocument(chain(count), testRegistry, { steps }).build).not.toBeNull();
      return steps.nodes;
    });
    expect((nodes[2] ?? 0) / (nodes[1] ?? 1)).toBeLessThan(2.1);
    expect((nodes[1] ?? 0) / (nodes[0] ?? 1)).toBeLessThan(2.1);
  });
});
