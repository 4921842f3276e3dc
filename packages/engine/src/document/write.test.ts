/** Documents written from plain values. */
import { describe, expect, it } from 'vitest';
import { makeRegistry } from '../kinds/registry.ts';
import { commented, readDocument, writeDocument } from './index.ts';
import { testRegistry } from './testing/kinds.ts';
import { SMALL, VAN } from './testing/van.ts';

describe('writing a document', () => {
  it('short values on a line, long sections a line for each entry, comments where they are given', () => {
    const text = writeDocument({
      loomwright: 1,
      title: commented('Job: 7', 'as on the order'),
      systems: { vehicle: '12 V', house: '12 V' },
      places: commented(
        { nose: { station: '1 m' }, tail: commented({}, 'measured by hand') },
        'nose to tail',
        'above',
      ),
      requires: ['the owner can stop charging'],
      routes: [{ from: 'nose', to: 'tail', length: '3 m' }],
      parts: {
        a: { kind: 'busbar', at: 'nose' },
        b: commented({ kind: 'busbar', at: 'tail' }, 'first\nsecond', 'above'),
      },
      wires: commented({ w: { from: 'a.1', to: 'b.1', size: '25 mm2' } }, 'all of them'),
    });
    expect(text).toBe(`loomwright: 1
title: "Job: 7"  # as on the order
systems: { vehicle: 12 V, house: 12 V }
# nose to tail
places:
  nose: { station: 1 m }
  tail: {}  # measured by hand
requires: [the owner can stop charging]
routes:
  - { from: nose, to: tail, length: 3 m }
parts:
  a: { kind: busbar, at: nose }
  # first
  # second
  b: { kind: busbar, at: tail }
wires:  # all of them
  w: { from: a.1, to: b.1, size: 25 mm2 }
`);
    expect(readDocument(text, testRegistry).diagnostics).toEqual([]);
  });

  it('a comment cannot break out of its line', () => {
    const text = writeDocument({
      loomwright: 1,
      title: commented('x', 'a\nparts: 1'),
      notes: commented('y', 'a\r\nb: 2', 'above'),
    });
    expect(readDocument(text, testRegistry).build).toMatchObject({ title: 'x', notes: 'y' });
    expect(text).toContain('# a parts: 1\n# a\n# b: 2\nnotes: y\n');
  });

  it('what cannot be written is a fault of the program', () => {
    expect(() => writeDocument({ title: null })).toThrow(/null/);
    expect(() => writeDocument({ a: { b: { c: { $value: 1 } } } })).toThrow(/\$value/);
  });

  it.each([
    ['small', SMALL, testRegistry],
    ['vehicle', VAN, makeRegistry()],
  ])('read, written, read: the same build (%s)', (_name, text, registry) => {
    const first = readDocument(text, registry);
    const plain = first.source.notation([]) as Record<string, unknown>;
    const second = readDocument(writeDocument(plain), registry);
    expect(second.diagnostics).toEqual([]);
    expect(second.build).toEqual(first.build);
  });
});
