/** A circuit that has no operating point is said to have none: two currents in series that cannot be equal. */
import { describe, expect, it } from 'vitest';
import type { Kind, PiecesElement, Registry } from '../contracts/index.ts';
import { readDocument } from '../document/index.ts';
import { makeRegistry } from '../kinds/registry.ts';
import { load } from '../kinds/load.ts';
import { makeOperation, valuesFor } from '../operate/index.ts';
import { europe } from '../practices/index.ts';
import { judgeAll } from './judge.ts';
import { solved } from './solved.ts';
import { settledExample } from './support/examples.ts';
import { judgeText } from './testing/judge-text.ts';

const always = (amperes: number, a: string, b: string): PiecesElement<string> => ({
  type: 'pieces',
  a,
  b,
  points: [[0, amperes]],
  below: 0,
  above: 0,
});

/** 1 A in and 2 A out of a node inside, whatever the voltage. */
const impossible: Kind = { ...load, elements: () => [always(1, '+', '.x'), always(2, '.x', '-')] };

function registry(): Registry {
  const known = makeRegistry();
  return { ...known, kinds: new Map([...known.kinds, [load.name, impossible]]) };
}

const TEXT = `loomwright: 1
title: A part that cannot be
practice: europe
systems: { house: 12 V }
places: { bay: { hottest: 40 °C } }
parts:
  bank: { kind: battery, at: bay, role: house, chemistry: agm, capacity: 100 Ah }
  fuse: { kind: fuse, at: bay, family: blade-f, rating: 10 A }
  riddle: { kind: load, at: bay, current: 5 A }
wires:
  lead: { from: bank.+, to: fuse.line, size: 2.5 mm2, insulation: pvc-105, length: 10 cm }
  feed: { from: fuse.load, to: riddle.+, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
  back: { from: riddle.-, to: bank.-, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
`;

describe('solved', () => {
  it('a condition without an operating point is open in a danger family, with the place named', () => {
    const { build, diagnostics } = readDocument(TEXT, registry());
    if (build === null) throw new Error(diagnostics.map((d) => d.message).join('; '));
    const assumption = { push: 'nominal' as const, pinned: new Set<string>() };
    const op = makeOperation(build, registry(), {
      assumption,
      practice: europe,
      values: valuesFor(build, assumption),
    });
    const [found, ...rest] = judgeAll(
      [solved],
      { nominal: op, slack: op, stiff: op },
      { nominal: europe, slack: europe, stiff: europe },
    );
    expect(rest).toEqual([]);
    expect(found?.id).toBe('solved/network');
    expect([found?.verdict, found?.open, found?.ifNot]).toEqual(['open', 'missing', 'danger']);
    expect(found?.dangerFamily).toBe(true);
    expect(found?.says).toContain('defect of the program');
    expect(found?.says).toMatch(/the currents at .*riddle do not add up/);
    expect(found?.about).toContain('riddle');
    expect(found?.worst).toBe(op.judged[0] === undefined ? '' : op.conditionId(op.judged[0]));
    expect(found?.others).toBe(op.judged.length - 1);
  });

  it('is one met line for a sound build, and nothing where there is no circuit', () => {
    expect(judgeText(settledExample, [solved]).findings.map((f) => [f.id, f.verdict])).toEqual([
      ['solved/network', 'met'],
    ]);
    const empty = 'loomwright: 1\ntitle: Nothing yet\npractice: europe\nsystems: { house: 12 V }\n';
    expect(judgeText(empty, [solved]).findings).toEqual([]);
  });
});
