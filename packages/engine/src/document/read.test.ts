/** What a document becomes. */
import { describe, expect, it } from 'vitest';
import type { Build } from '../contracts/index.ts';
import { makeRegistry } from '../kinds/registry.ts';
import { readDocument } from './index.ts';
import { testRegistry } from './testing/kinds.ts';
import { SMALL, VAN } from './testing/van.ts';

function build(text: string | Uint8Array): Build {
  const result = readDocument(text, testRegistry);
  expect(result.diagnostics.filter((d) => d.severity === 'error')).toEqual([]);
  if (result.build === null) throw new Error('no build');
  return result.build;
}

const flagged = (word: string) =>
  build(`loomwright: 1\nparts: { s: { kind: switch, momentary: ${word}, label: ${word} } }\n`).parts.get('s')
    ?.fields;

const efficiency = (text: string) =>
  build(`loomwright: 1\nparts: { c: { kind: charger, efficiency: ${text} } }\n`).parts.get('c')?.fields[
    'efficiency'
  ];

const poles = (poles: number) =>
  `loomwright: 1\nparts: { s: { kind: switch, poles: ${poles} }, b: { kind: busbar } }\nwires: { w: { from: s.in.2, to: b.17, length: 1 m } }\n`;

describe('a whole vehicle', () => {
  const result = readDocument(VAN, makeRegistry());
  const van = result.build;

  it('reads without anything to say', () => {
    expect(result.diagnostics).toEqual([]);
    expect(van).not.toBeNull();
  });

  it('keeps order and values', () => {
    expect([...(van?.parts.keys() ?? [])].slice(0, 4)).toEqual([
      'vehicle-battery',
      'alternator',
      'feed-fuse',
      'isolator',
    ]);
    expect(van?.wires.size).toBe(15);
    expect(van?.wires.get('feed')).toMatchObject({
      from: 'vehicle-battery.+',
      to: 'feed-fuse.line',
      insulation: 'pvc-105',
      material: 'copper',
      sheathed: false,
      size: { areaMm2: 50, family: 'metric' },
    });
    expect(van?.wires.get('feed')?.length).toMatchObject({ value: 0.12, text: '12 cm' });
    expect(van?.wires.get('feed-2')).toMatchObject({ size: 'auto', via: ['bonnet', 'bulkhead'] });
    expect(van?.parts.get('charger')).toMatchObject({ kind: 'dc-charger', at: 'locker' });
    expect(van?.parts.get('vehicle-battery')?.fields['cranking']).toBe('unknown');
    expect(van?.survey.get('idling')?.posts?.max).toMatchObject({ value: 14.3 });
    expect(van?.stock.sizes.map((size) => size.areaMm2)).toEqual([16, 25, 35, 50]);
    expect(van?.requires).toEqual(['charges only while the engine runs', 'the owner can stop charging']);
  });

  it('fills in what a document may leave out', () => {
    expect(van?.places.get('footwell')).toEqual({
      id: 'footwell',
      label: 'Passenger footwell',
      station: { value: 1.5, text: '1.5 m' },
      engineSpace: false,
      enclosed: false,
      wet: false,
      gasOrFuel: false,
      living: false,
      crashZone: false,
    });
    expect(van?.places.get('bonnet')?.engineSpace).toBe(true);
    expect(van?.settings).toEqual({
      resistanceAt: 'predicted',
      faultContact: null,
      meter: null,
      allowance: null,
    });
    expect(van?.units).toBe('metric');
    expect(van?.vehicle).toMatchObject({
      supply: 'alternator',
      variableVoltage: false,
      automaticStop: false,
    });
    expect(van?.vehicle.engine).toBeUndefined();
  });

  it('is frozen all the way down', () => {
    expect(Object.isFrozen(van)).toBe(true);
    expect(Object.isFrozen(van?.parts.get('feed-fuse')?.fields['curve'])).toBe(true);
    expect(Object.isFrozen(van?.survey.get('idling')?.posts?.min)).toBe(true);
    expect(Object.isFrozen(van?.routes[0])).toBe(true);
  });
});

describe('values', () => {
  it('the least document', () => {
    expect(build('loomwright: 1\n')).toMatchObject({
      format: 1,
      title: '',
      requires: { length: 2 },
      units: 'metric',
    });
  });

  it('headings with nothing below them', () => {
    expect(build('loomwright: 1\nparts:\nwires: # none yet\nrequires:\nclimate:\n').parts.size).toBe(0);
  });

  it('bands, unknown and never', () => {
    const { parts } = build(
      'loomwright: 1\nparts:\n  b: { kind: battery, resistance: 3..8 mΩ, capacity: unknown, role: unknown }\n' +
        '  f: { kind: fuse, curve: [{ at: 135 %, opens: never..3600 s }, { at: 200 %, opens: never }] }\n  s: { kind: switch, momentary: unknown }\n',
    );
    expect(parts.get('b')?.fields).toEqual({
      resistance: { value: 0.0055, band: [0.003, 0.008], text: '3..8 mΩ' },
      capacity: 'unknown',
      role: 'unknown',
    });
    expect(parts.get('f')?.fields['curve']).toEqual([
      {
        at: { value: 1.35, text: '135 %' },
        opens: { value: 3600, band: [Infinity, 3600], text: 'never..3600 s' },
      },
      { at: { value: 2, text: '200 %' }, opens: { value: Infinity, text: 'never' } },
    ]);
    expect(parts.get('s')?.fields['momentary']).toBe('unknown');
  });

  it('unknown for a whole structure or phrase is not given', () => {
    const { parts, wires, places } = build(
      'loomwright: 1\nplaces: { p: { wet: unknown, level: unknown } }\nparts:\n  c: { kind: charger, at: unknown, voltage: unknown, starts: unknown, efficiency: unknown }\n  d: { kind: charger }\n' +
        'wires: { w: { from: c.in+, to: d.in+, size: unknown, insulation: unknown, length: unknown, via: unknown } }\n',
    );
    expect(parts.get('c')?.fields).toEqual({ efficiency: 'unknown' });
    expect(parts.get('c')).not.toHaveProperty('at');
    expect(wires.get('w')).toMatchObject({ size: 'unknown', insulation: 'unknown', length: 'unknown' });
    expect(wires.get('w')).not.toHaveProperty('via');
    expect(places.get('p')).toMatchObject({ wet: false });
    expect(places.get('p')).not.toHaveProperty('level');
  });

  it('yes, no, true and false; words of programs are texts', () => {
    expect(flagged('yes')).toEqual({ momentary: true, label: 'yes' });
    expect(flagged('no')?.['momentary']).toBe(false);
    expect(flagged('true')?.['momentary']).toBe(true);
    expect(flagged('"false"')?.['momentary']).toBe(false);
  });

  it('alternatives: one value or rows', () => {
    expect(efficiency('88 %')).toEqual({ value: 0.88, text: '88 %' });
    expect(efficiency('0.88')).toEqual({ value: 0.88, text: '0.88' });
    expect(efficiency('[[0.5, 0.9], [1, 0.88]]')).toEqual([
      [0.5, 0.9],
      [1, 0.88],
    ]);
  });

  it('terminals that depend on the part, and numbered ones', () => {
    expect(build(poles(2)).wires.size).toBe(1);
    expect(readDocument(poles(1), testRegistry).diagnostics).toHaveLength(1);
  });

  it('two wires may share a terminal; a route may have an unknown length', () => {
    const text =
      'loomwright: 1\nplaces: { a: {}, b: {} }\nroutes: [{ from: a, to: b, length: unknown }]\nparts: { s: { kind: busbar, at: a }, t: { kind: busbar, at: b } }\n' +
      'wires: { w: { from: s.1, to: t.1 }, v: { from: s.1, to: t.1 } }\n';
    expect(build(text).wires.size).toBe(2);
    expect(build(text).routes).toEqual([{ from: 'a', to: 'b', in: 'loom', length: 'unknown' }]);
  });

  it('settings, measurements, confirmations, findings set aside', () => {
    const read = build(
      'loomwright: 1\nsettings: { resistance-at: 20 °C, fault-contact: 2 mΩ }\nparts: { a: { kind: battery }, b: { kind: battery } }\n' +
        'measured:\n  - { from: a.+, to: b.+, resistance: 3 mΩ, by: NN, date: 2026-03-01 }\nconfirmed: [{ figure: x, edition: 3 }]\naside: [{ finding: f, reason: "because: so" }]\nrequires: []\nnotes: |\n  one\n  two\n',
    );
    expect(read.settings).toMatchObject({ resistanceAt: 20, faultContact: { value: 0.002 } });
    expect(read.measured[0]).toMatchObject({ from: 'a.+', resistance: { value: 0.003 }, date: '2026-03-01' });
    expect(read.confirmed).toEqual([{ table: 'x', edition: '3' }]);
    expect(read.aside).toEqual([{ finding: 'f', reason: 'because: so' }]);
    expect(read.requires).toEqual([]);
    expect(read.notes).toBe('one\ntwo\n');
    expect(build('loomwright: 1\nsettings: { resistance-at: ambient }\n').settings.resistanceAt).toBe(
      'ambient',
    );
  });
});

describe('forms of the same document', () => {
  const plain = build(SMALL);

  it('Windows line ends', () => {
    expect(build(SMALL.replaceAll('\n', '\r\n'))).toEqual(plain);
  });

  it('a byte-order mark, as text and as bytes', () => {
    expect(build(`\uFEFF${SMALL}`)).toEqual(plain);
    expect(build(new Uint8Array([0xef, 0xbb, 0xbf, ...bytes(SMALL)]))).toEqual(plain);
    const { diagnostics } = readDocument('\uFEFFloomwright: x\n', testRegistry);
    expect(diagnostics[0]).toMatchObject({ line: 1, column: 13 });
  });

  it('JSON', () => {
    const { source } = readDocument(SMALL, testRegistry);
    expect(build(JSON.stringify(source.notation([]), null, 2))).toEqual(plain);
  });

  it('nothing but what is written changes the order of parts', () => {
    expect([...plain.parts.keys()]).toEqual(['starter', 'charger', 'body', 'ground', 'bar']);
  });
});

describe('spans', () => {
  const { source } = readDocument(SMALL, testRegistry);
  const lines = SMALL.split('\n');

  it('of values and keys', () => {
    const span = source.span(['parts', 'charger', 'current']);
    expect(span).not.toBeNull();
    expect(lines[(span?.line ?? 0) - 1]?.slice((span?.column ?? 0) - 1, (span?.endColumn ?? 0) - 1)).toBe(
      '30 A',
    );
    const key = source.keySpan(['parts', 'charger', 'current']);
    expect(lines[(key?.line ?? 0) - 1]?.slice((key?.column ?? 0) - 1, (key?.endColumn ?? 0) - 1)).toBe(
      'current',
    );
  });

  it('of list items and whole parts', () => {
    expect(source.span(['wires', 'feed', 'via', 1])).toMatchObject({
      line: source.span(['wires', 'feed'])?.line,
    });
    const charger = source.span(['parts', 'charger']);
    expect(charger?.endLine).toBe((charger?.line ?? 0) + 4);
  });

  it('none for what is not there', () => {
    expect(source.span(['parts', 'nobody'])).toBeNull();
    expect(source.span(['parts', '__proto__'])).toBeNull();
    expect(source.span(['routes', 9])).toBeNull();
    expect(source.keySpan([])).toBeNull();
  });
});

function bytes(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}
