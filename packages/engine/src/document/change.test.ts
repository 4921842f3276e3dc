/** Changes written into the text: what they do, what they leave alone, and that they can be taken back. */
import { describe, expect, it } from 'vitest';
import { seeded, type Chance } from '../../../../tests/documents/mutate.ts';
import type { Change } from '../contracts/index.ts';
import { applyChanges, editText, readDocument } from './index.ts';
import { testRegistry } from './testing/kinds.ts';
import { SMALL } from './testing/van.ts';

const open = (text: string) => readDocument(text, testRegistry);

/** The text after changes that must be possible; taken back, it must be the old one to the byte. */
function edit(text: string, ...changes: Change[]): string {
  const edited = editText(open(text).source, changes);
  if (!edited.ok) throw new Error(edited.diagnostics[0]?.message);
  const back = editText(open(edited.text).source, JSON.parse(JSON.stringify(edited.inverse)) as Change[]);
  expect(back.ok && back.text).toBe(text);
  return edited.text;
}

const refused = (text: string, ...changes: Change[]): string => {
  const edited = editText(open(text).source, changes);
  return edited.ok ? '' : (edited.diagnostics[0]?.message ?? '');
};

describe('setting a value', () => {
  it('changes that value and nothing else', () => {
    const after = edit(SMALL, { set: ['parts', 'charger', 'current'], to: '40 A' });
    expect(after).toBe(SMALL.replace('current: 30 A', 'current: 40 A'));
  });

  it('in braces, in lists, at the top', () => {
    expect(edit('a: { b: 1, c: 2 } # x\n', { set: ['a', 'c'], to: '3 V' })).toBe('a: { b: 1, c: 3 V } # x\n');
    expect(edit('a: [x, y] # z\n', { set: ['a', 1], to: 'w' })).toBe('a: [x, w] # z\n');
    expect(edit('a:\n  - x # one\n  - y\n', { set: ['a', 0], to: 'w' })).toBe('a:\n  - w # one\n  - y\n');
    expect(edit('a: "1,3 V" # z\n', { set: ['a'], to: '1.3 V' })).toBe('a: 1.3 V # z\n');
  });

  it('where nothing was written', () => {
    expect(edit('a: # c\nb: 1\n', { set: ['a'], to: '4 AWG' })).toBe('a: 4 AWG # c\nb: 1\n');
    expect(edit('a:\nb: 1\n', { set: ['a'], to: 'x' })).toBe('a: x\nb: 1\n');
    expect(edit('a: { b: , c }\n', { set: ['a', 'b'], to: 'x' })).toBe('a: { b: x , c }\n');
    expect(edit('a: { b: , c }\n', { set: ['a', 'c'], to: 'x' })).toBe('a: { b: , c: x }\n');
    expect(edit('a: ~\n', { set: ['a'], to: 'x' })).toBe('a: x\n');
    expect(edit('a:\n  -\n  - x\n', { set: ['a', 0], to: 'y' })).toBe('a:\n  - y\n  - x\n');
  });

  it('of another form', () => {
    expect(edit('a: 1\n', { set: ['a'], to: { b: '1 V', c: ['x', 'y z'], d: true, e: 4 } })).toBe(
      'a: { b: 1 V, c: [x, y z], d: yes, e: 4 }\n',
    );
    expect(edit('a:\n  b: 1 # one\n  c: 2\nd: 3\n', { set: ['a'], to: 'x' })).toBe('a:\n  x\nd: 3\n');
    expect(edit('a: |\n  one\n  two\nb: 1\n', { set: ['a'], to: 'x' })).toBe('a: x\nb: 1\n');
  });

  it('a map over a map changes entry by entry, so that comments stay', () => {
    const text = 'p:\n  # first\n  a: 1 # one\n  b: 2 # two\n  c: 3\n';
    expect(edit(text, { set: ['p'], to: { a: '1', b: '5', d: '6' } })).toBe(
      'p:\n  # first\n  a: 1 # one\n  b: 5 # two\n  d: 6\n',
    );
    expect(edit('a: [x, y, z] # l\n', { set: ['a'], to: ['x', 'w'] })).toBe('a: [x, w] # l\n');
  });

  it('texts that need quotes get them', () => {
    for (const value of [
      '13,2 V',
      'a: b',
      '# no',
      'it\'s "so"',
      '',
      '~',
      'null',
      '- x',
      '{',
      '*a',
      ' x ',
      'a\nb',
      '@x',
      'tab\there',
      'Ω €',
      '"',
      "'",
      '%',
      'a #b',
      '\u2028',
      '😀',
    ])
      for (const text of ['a: 1 # c\n', 'a: { b: 1 }\n', 'a:\n  - 1\n']) {
        const path = text.includes('b') ? ['a', 'b'] : text.includes('-') ? ['a', 0] : ['a'];
        expect(open(edit(text, { set: path, to: value })).source.notation(path)).toBe(value);
      }
  });

  it('the inverse of a plain value is a plain change', () => {
    const edited = editText(open(SMALL).source, [{ set: ['parts', 'charger', 'current'], to: '40 A' }]);
    expect(edited.ok && edited.inverse).toEqual([{ set: ['parts', 'charger', 'current'], to: '30 A' }]);
  });
});

describe('adding', () => {
  it('a part on a line of its own, behind the last', () => {
    const after = edit(SMALL, {
      add: ['parts', 'tap-fuse'],
      value: { kind: 'fuse', at: 'nose', rating: '3 A' },
    });
    expect(after).toContain(
      '  bar: { kind: busbar, at: tail }\n  tap-fuse: { kind: fuse, at: nose, rating: 3 A }\nwires:\n',
    );
  });

  it('behind a comment at the end of the line, and behind a value over several lines', () => {
    expect(edit('a:\n  b: 1 # x\nc: 1\n', { add: ['a', 'd'], value: '2' })).toBe(
      'a:\n  b: 1 # x\n  d: 2\nc: 1\n',
    );
    expect(edit('a:\n  b: { x: 1,\n    y: 2 } # x\nc: 1\n', { add: ['a', 'd'], value: '2' })).toBe(
      'a:\n  b: { x: 1,\n    y: 2 } # x\n  d: 2\nc: 1\n',
    );
    expect(edit('a:\n  b: |\n    x\nc: 1\n', { add: ['a', 'd'], value: '2' })).toBe(
      'a:\n  b: |\n    x\n  d: 2\nc: 1\n',
    );
    expect(edit('a:\n  b: 1', { add: ['a', 'd'], value: '2' })).toBe('a:\n  b: 1\n  d: 2');
  });

  it('into braces and lists', () => {
    expect(edit('a: { b: 1 } # x\n', { add: ['a', 'c'], value: '2' })).toBe('a: { b: 1, c: 2 } # x\n');
    expect(edit('a: {} # x\n', { add: ['a', 'c'], value: '2' })).toBe('a: { c: 2 } # x\n');
    expect(edit('a: []\n', { add: ['a', 0], value: '2' })).toBe('a: [2]\n');
    expect(edit('a: [x, y]\n', { add: ['a', 2], value: 'z' }, { add: ['a', 0], value: 'w' })).toBe(
      'a: [w, x, y, z]\n',
    );
    expect(
      edit('a:\n  - x # one\nb: 1\n', { add: ['a', 1], value: 'z' }, { add: ['a', 0], value: 'w' }),
    ).toBe('a:\n  - w\n  - x # one\n  - z\nb: 1\n');
    expect(edit('a:\n- x\nb: 1\n', { add: ['a', 1], value: 'z' })).toBe('a:\n- x\n- z\nb: 1\n');
    expect(edit('a:\n  - b: 1\n    c: 2\n', { add: ['a', 0, 'd'], value: '3' })).toBe(
      'a:\n  - b: 1\n    c: 2\n    d: 3\n',
    );
  });

  it('sections of the top in their order', () => {
    const text = 'loomwright: 1 # f\n# about places\nplaces:\n  a: {}\nwires: {}\n';
    expect(edit(text, { set: ['practice'], to: 'europe' })).toBe(
      'loomwright: 1 # f\npractice: europe\n# about places\nplaces:\n  a: {}\nwires: {}\n',
    );
    expect(edit(text, { add: ['parts', 'b'], value: { kind: 'battery' } })).toBe(
      'loomwright: 1 # f\n# about places\nplaces:\n  a: {}\nparts:\n  b: { kind: battery }\nwires: {}\n',
    );
    expect(edit(text, { set: ['settings', 'meter'], to: '1 MΩ' })).toContain('\nsettings: { meter: 1 MΩ }\n');
    expect(edit(text, { add: ['aside', 0], value: { finding: 'x', reason: 'y' } })).toContain(
      '\naside:\n  - { finding: x, reason: y }\n',
    );
    expect(edit('wires: {}\n', { set: ['loomwright'], to: 1 })).toBe('loomwright: 1\nwires: {}\n');
  });

  it('below an empty heading, and into an empty document', () => {
    expect(edit('parts: # none\nwires: {}\n', { add: ['parts', 'b'], value: { kind: 'fuse' } })).toBe(
      'parts: # none\n  b: { kind: fuse }\nwires: {}\n',
    );
    expect(edit('', { set: ['title'], to: 'x' })).toBe('title: x\n');
    expect(edit('# c\n', { set: ['title'], to: 'x' })).toBe('# c\ntitle: x\n');
  });

  it('a line of JSON to JSON, a line end of Windows to Windows', () => {
    expect(edit('{"a": {"b": "1"}}', { add: ['a', 'c'], value: { d: true, e: 'x' } })).toBe(
      '{"a": {"b": "1", "c": { "d": true, "e": "x" }}}',
    );
    expect(edit('a:\r\n  b: 1 # c\r\nd: 1\r\n', { add: ['a', 'e'], value: '2' })).toBe(
      'a:\r\n  b: 1 # c\r\n  e: 2\r\nd: 1\r\n',
    );
    expect(edit('\uFEFFa: 1\n', { set: ['a'], to: '2' })).toBe('\uFEFFa: 2\n');
  });
});

describe('removing', () => {
  it('takes the line and what stands behind it; comments above stay', () => {
    expect(edit(SMALL, { remove: ['wires', 'return'] })).toBe(
      SMALL.replace('  return: { from: charger.in-, to: ground.stud, size: 4 AWG }\n', ''),
    );
    expect(edit(SMALL, { remove: ['parts', 'charger', 'at'] })).toBe(SMALL.replace('    at: tail\n', ''));
    expect(edit('a: 1\nb: 2', { remove: ['b'] })).toBe('a: 1');
    expect(edit('a: 1\r\nb: 2 # x\r\nc: 3\r\n', { remove: ['b'] })).toBe('a: 1\r\nc: 3\r\n');
  });

  it('from braces and brackets', () => {
    const text = 'a: { b: 1, c: 2, d: 3 } # x\n';
    expect(edit(text, { remove: ['a', 'b'] })).toBe('a: { c: 2, d: 3 } # x\n');
    expect(edit(text, { remove: ['a', 'c'] })).toBe('a: { b: 1, d: 3 } # x\n');
    expect(edit(text, { remove: ['a', 'd'] })).toBe('a: { b: 1, c: 2 } # x\n');
    expect(edit('a: { b: 1 }\n', { remove: ['a', 'b'] })).toBe('a: {}\n');
    expect(edit('a: [x, y]\n', { remove: ['a', 0] })).toBe('a: [y]\n');
    expect(edit('a: {\n  b: 1, # one\n  c: 2 # two\n}\n', { remove: ['a', 'b'] })).toBe(
      'a: {\n   # one\n  c: 2 # two\n}\n',
    );
  });

  it('from lists in lines', () => {
    const text = 'a:\n  - x # one\n  - b: 1\n    c: 2\n  - y\n';
    expect(edit(text, { remove: ['a', 0] })).toBe('a:\n  - b: 1\n    c: 2\n  - y\n');
    expect(edit(text, { remove: ['a', 1] })).toBe('a:\n  - x # one\n  - y\n');
    expect(edit(text, { remove: ['a', 2] })).toBe('a:\n  - x # one\n  - b: 1\n    c: 2\n');
    expect(edit(text, { remove: ['a', 1, 'b'] })).toBe('a:\n  - x # one\n  - c: 2\n  - y\n');
    expect(edit('a:\n  - x\nb: 1\n', { remove: ['a', 0] })).toBe('a:\n  []\nb: 1\n');
  });
});

describe('changes that cannot be made', () => {
  it('say why, and leave everything as it was', () => {
    expect(refused(SMALL, { remove: ['parts', 'nobody'] })).toContain('there is nothing at parts.nobody');
    expect(refused(SMALL, { add: ['parts', 'charger'], value: {} })).toContain(
      'already something at parts.charger',
    );
    expect(refused(SMALL, { set: ['title', 'x'], to: '1' })).toContain('title is a single value');
    expect(refused(SMALL, { set: ['title'], to: null })).toContain('null cannot be written');
    expect(refused(SMALL, { set: ['title'], to: Number.NaN })).toContain('NaN');
    expect(refused(SMALL, { add: ['routes', 7], value: {} })).toContain('no place 7');
    expect(refused(SMALL, { set: ['title'], to: { $x: 1 } })).toContain('$x');
    let deep: unknown = 'x';
    for (let i = 0; i < 100_000; i++) deep = [deep];
    expect(refused(SMALL, { set: ['title'], to: deep })).toContain('levels');
  });

  it('all or nothing', () => {
    const result = editText(open(SMALL).source, [{ set: ['title'], to: 'y' }, { remove: ['zzz'] }]);
    expect(result.ok).toBe(false);
  });

  it('an inverse from another time', () => {
    const edited = editText(open(SMALL).source, [{ remove: ['wires', 'return'] }]);
    expect(edited.ok && refused('loomwright: 1\n', ...edited.inverse)).toContain(
      'the text has changed there since',
    );
  });
});

describe('builds after a change', () => {
  const now = open(SMALL);

  it('share what is equal', () => {
    const applied = applyChanges(now, [{ set: ['parts', 'charger', 'current'], to: '40 A' }], testRegistry);
    if (!applied.ok || now.build === null) throw new Error('refused');
    expect(applied.build).not.toBe(now.build);
    expect(applied.build.parts.get('charger')?.fields['current']).toEqual({ value: 40, text: '40 A' });
    expect(now.build.parts.get('charger')?.fields['current']).toEqual({ value: 30, text: '30 A' });
    for (const id of ['starter', 'body', 'ground', 'bar'])
      expect(applied.build.parts.get(id)).toBe(now.build.parts.get(id));
    expect(applied.build.parts.get('charger')?.fields['starts']).toBe(
      now.build.parts.get('charger')?.fields['starts'],
    );
    expect(applied.build.wires).toBe(now.build.wires);
    expect(applied.build.places).toBe(now.build.places);
    expect(Object.isFrozen(applied.build)).toBe(true);
    const back = applyChanges(applied, applied.inverse, testRegistry);
    expect(back.ok && back.build).toEqual(now.build);
    expect(back.ok && back.source.text).toBe(SMALL);
  });

  it('a comment changed is no change of the build', () => {
    const applied = applyChanges(now, [{ set: ['title'], to: 'Small' }], testRegistry);
    expect(applied.ok && applied.build).toBe(now.build);
  });

  it('a change that makes an error is refused with line and path', () => {
    const applied = applyChanges(now, [{ set: ['parts', 'charger', 'current'], to: '40' }], testRegistry);
    expect(applied.ok).toBe(false);
    expect(!applied.ok && applied.diagnostics[0]).toMatchObject({
      line: 21,
      column: 14,
      path: ['parts', 'charger', 'current'],
    });
    const gone = applyChanges(now, [{ remove: ['parts', 'ground'] }], testRegistry);
    expect(!gone.ok && gone.diagnostics[0]?.message).toContain('no part of the name "ground"');
  });
});

type Plain = string | Plain[] | { [key: string]: Plain };

/** All paths into a plain value. */
function paths(value: Plain, at: (string | number)[] = []): (string | number)[][] {
  if (typeof value === 'string') return [at];
  const inner = Array.isArray(value) ? value.entries() : Object.entries(value);
  return [at, ...[...inner].flatMap(([key, item]) => paths(item, [...at, key]))];
}

const VALUES: Plain[] = [
  '40 A',
  '13,2 V',
  '',
  'a: b',
  { x: '1 V' },
  ['p', 'q'],
  { y: { z: ['1'] } },
  "it's #1",
  '~',
];

/** A change that can be made, and what must come of it. */
function randomChange(plain: Plain, chance: Chance): { readonly change: Change; readonly expected: Plain } {
  const copy = structuredClone(plain);
  const path = chance.pick(paths(plain).slice(1));
  const holder = path
    .slice(0, -1)
    .reduce<Plain>((value, step) => (value as Record<string, Plain>)[step] ?? '', copy);
  const last = path.at(-1) ?? '';
  const value = chance.pick(VALUES);
  const way = chance.below(3);
  if (way === 0) {
    (holder as Record<string, Plain>)[last] = value;
    return { change: { set: path, to: value }, expected: copy };
  }
  if (way === 1 && Array.isArray(holder)) {
    holder.splice(Number(last), 0, value);
    return { change: { add: path, value }, expected: copy };
  }
  if (way === 1) {
    (holder as Record<string, Plain>)['new-one'] = value;
    return { change: { set: [...path.slice(0, -1), 'new-one'], to: value }, expected: copy };
  }
  if (Array.isArray(holder)) holder.splice(Number(last), 1);
  else delete (holder as Record<string, Plain>)[last];
  return { change: { remove: path }, expected: copy };
}

describe('any change to any document', () => {
  it('does what it says, nothing else, keeps comments elsewhere, and can be taken back', () => {
    const chance = seeded(7);
    for (let round = 0; round < 30; round++) {
      let text = chance.below(2) === 0 ? SMALL : SMALL.replaceAll('\n', '\r\n');
      for (let step = 0; step < 8; step++) {
        const plain = JSON.parse(JSON.stringify(open(text).source.notation([]))) as Plain;
        const { change, expected } = randomChange(plain, chance);
        const about = JSON.stringify({ text, change });
        const edited = editText(open(text).source, [change]);
        if (!edited.ok) throw new Error(`${edited.diagnostics[0]?.message}: ${about}`);
        const after = open(edited.text);
        expect(JSON.parse(JSON.stringify(after.source.notation([]))), about).toEqual(expected);
        const back = editText(after.source, edited.inverse);
        expect(back.ok && back.text, about).toBe(text);
        expect(edited.text, about).toContain('# A small build');
        text = edited.text;
      }
    }
  });
});
