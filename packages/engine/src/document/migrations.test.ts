/** Documents of other versions of the format. */
import { describe, expect, it } from 'vitest';
import { applyChanges, formatDiagnostic, migrations, readDocument } from './index.ts';
import { testRegistry } from './testing/kinds.ts';
import { FORMAT } from './version.ts';

const OLD = `# an early draft
loomwright: 0 # the format
standard: europe
parts:
  a: { kind: busbar }
  b: { kind: busbar }
cables: # all of them
  w: { from: a.1, to: b.1, cross-section: 25 mm2, length: 1 m } # thick
  v:
    from: a.2
    to: b.2
    cross-section: 4 AWG
    length: 2 m
`;

describe('an earlier format', () => {
  const { build, diagnostics, source } = readDocument(OLD, testRegistry, { file: 'old.yaml' });

  it('reads as the present one, and says so', () => {
    expect(diagnostics.map((d) => formatDiagnostic(d, source.file))).toEqual([
      'old.yaml:1:1: note: format 0 read as format 1: cables are now wires, their cross-section is now size, standard is now practice',
    ]);
    expect(build?.practice).toBe('europe');
    expect(build?.wires.get('w')?.size).toMatchObject({ areaMm2: 25 });
    expect(build?.wires.get('v')?.size).toMatchObject({ family: 'awg' });
  });

  it('keeps comments, order and lines; the text is the new one', () => {
    expect(source.text).toBe(
      OLD.replace('loomwright: 0', 'loomwright: 1')
        .replace('standard', 'practice')
        .replace('cables', 'wires')
        .replaceAll('cross-section', 'size'),
    );
    expect(source.span(['wires', 'v', 'size'])?.line).toBe(12);
    const again = readDocument(source.text, testRegistry);
    expect(again.diagnostics).toEqual([]);
    expect(again.build).toEqual(build);
  });

  it('faults in it are reported with the lines of the text', () => {
    const bad = readDocument(OLD.replace('25 mm2', '25'), testRegistry);
    expect(bad.build).toBeNull();
    expect(bad.diagnostics.map(({ line, severity }) => [line, severity])).toEqual([
      [1, 'info'],
      [8, 'error'],
    ]);
  });

  it('a name that is there in both spellings is not lost', () => {
    const both = readDocument(`${OLD}wires: {}\n`, testRegistry);
    expect(both.build).toBeNull();
    expect(both.diagnostics.at(-1)?.message).toContain('"cables"');
  });

  it('steps lead from every earlier format to the present one', () => {
    for (let version = 0; version < FORMAT; version++)
      expect(migrations.filter(({ from, to }) => from === version && to === version + 1)).toHaveLength(1);
  });
});

describe('a newer format', () => {
  const text = `loomwright: 2
colour: red # new
parts:
  a: { kind: busbar, glow: 3 }
wires: {}
`;
  const read = readDocument(text, testRegistry);

  it('is read as far as it is known; what is not is reported', () => {
    expect(read.build?.parts.get('a')).toEqual({ id: 'a', kind: 'busbar', fields: {} });
    expect(read.diagnostics.map((d) => formatDiagnostic(d, 'f'))).toEqual([
      'f:1:13: warning: found format 2, written by a newer version; this one reads format 1 and keeps what it does not know',
      'f:2:1: warning: found "colour", which this version does not know; it is kept in the document and left out of account',
      'f:4:22: warning: found "glow", which this version does not know; it is kept in the document and left out of account',
    ]);
  });

  it('loses nothing when it is changed', () => {
    const applied = applyChanges(
      read,
      [
        { set: ['title'], to: 'x' },
        { add: ['parts', 'b'], value: { kind: 'busbar' } },
      ],
      testRegistry,
    );
    expect(applied.ok && applied.source.text).toBe(
      text
        .replace('loomwright: 2\n', 'loomwright: 2\ntitle: x\n')
        .replace('glow: 3 }\n', 'glow: 3 }\n  b: { kind: busbar }\n'),
    );
    expect(applied.ok && applied.diagnostics).toHaveLength(3);
  });
});
