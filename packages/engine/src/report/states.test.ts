import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { settledExample, van } from '../checks/support/examples.ts';
import { operationsOf, readText } from '../checks/testing/judge-text.ts';
import { practices } from '../practices/index.ts';
import { stateTable } from './states.ts';

describe('predicted readings', () => {
  const table = stateTable(operationsOf(readText(settledExample), practices.europe).nominal, true);
  const cells = table.columns.flatMap((column) =>
    column.cells.flatMap((cell, i) => (cell === null ? [] : [{ cell, point: table.points[i], column }])),
  );

  it('between terminals that share no path are 0 V through the meter, and say that they float', () => {
    const floating = cells.filter(({ cell }) => cell.note === 'floating');
    // behind the owner's switch, with the run signal's line open
    expect(floating.length).toBeGreaterThan(0);
    for (const { cell } of floating)
      expect(cell).toEqual({ value: 0, unit: 'V', range: null, note: 'floating', floating: true });
  });

  it('are volts without more elsewhere', () => {
    const rest = cells.filter(({ cell }) => !cell.floating);
    expect(rest.length).toBeGreaterThan(0);
    expect(rest.every(({ cell }) => cell.note !== 'floating' && cell.value !== null)).toBe(true);
  });

  it('leave the lines of the state table as they are: what floats there has no volts', () => {
    const signals = table.lines.flatMap((line) => line.signals);
    expect(signals.some((s) => s.volts === null)).toBe(true);
  });
});

describe('a build without a vehicle', () => {
  const text = `loomwright: 1
title: A bank and a lamp
practice: europe
systems: { house: 12 V }
parts:
  bank: { kind: battery, role: house, chemistry: agm, capacity: 80 Ah }
  lamp: { kind: load, current: 4 A }
wires:
  feed: { from: bank.+, to: lamp.+, size: 2.5 mm2, length: 1 m }
  back: { from: lamp.-, to: bank.-, size: 2.5 mm2, length: 1 m }
`;

  it('is read in the states it has', () => {
    const table = stateTable(operationsOf(readText(text), practices.europe).nominal);
    expect(table.columns.map((c) => c.state)).toEqual(['parked', 'stored']);
  });
});

describe('a charger before a stack of batteries', () => {
  it('has its output lead read to the plus that it meets, not to the lower battery', () => {
    const text = readFileSync(
      new URL('../../../../tests/workshop/series-bank-at-cruise.yaml', import.meta.url),
      'utf8',
    );
    const table = stateTable(operationsOf(readText(text), practices.europe).nominal);
    const output = table.points.find((point) => point.id === 'dcdc/output-drop');
    expect([output?.red, output?.black]).toEqual(['dcdc.out+', 'h2.+']);
  });
});

const lampBehind = (lamp: string) =>
  van('A lamp behind a bar and its own fuse', {
    parts: {
      main: '{ kind: fuse, at: locker, family: class-t, rating: 30 A, interrupts: 20 kA }',
      bar: '{ kind: busbar, at: locker }',
      small: '{ kind: fuse, at: locker, family: blade-f, rating: 10 A }',
      lamp: `{ kind: load, at: locker, ${lamp} }`,
    },
    wires: {
      a: '{ from: house-battery.+, to: main.line, size: 6 mm2, length: 10 cm }',
      b: '{ from: main.load, to: bar.1, size: 6 mm2, length: 20 cm }',
      c: '{ from: bar.2, to: small.line, size: 2.5 mm2, length: 10 cm }',
      d: '{ from: small.load, to: lamp.+, size: 2.5 mm2, length: 1 m }',
      e: '{ from: lamp.-, to: house-battery.-, size: 2.5 mm2, length: 1 m }',
    },
  });

const readings = (lamp: string) => {
  const { points, columns } = stateTable(operationsOf(readText(lampBehind(lamp)), practices.europe).nominal);
  const column = columns.find((c) => c.open === 'small');
  return (id: string) => column?.cells[points.findIndex((p) => p.id === id)];
};

describe('an open fuse', () => {
  it('has the whole voltage across it through the load behind, whatever the load is stated by', () => {
    for (const lamp of ['current: 4 A', 'power: 48 W', 'resistance: 3 Ω', 'current: 4 A, inrush: lamp']) {
      const at = readings(`${lamp}, on: always`);
      const posts = at('house-battery/posts')?.value ?? 0;
      expect(posts).toBeGreaterThan(13);
      expect(at('small/across')?.value, lamp).toBeCloseTo(posts, 2);
      expect(at('small/across')?.note, lamp).toBe(null);
    }
  });

  it('has nothing across it where the load is switched off', () => {
    expect(readings('current: 4 A, on: schedule')('small/across')).toMatchObject({
      value: 0,
      note: 'floating',
    });
  });

  it('is fed on its line side as it should be: that is not called still live', () => {
    expect(readings('current: 4 A, on: always')('small/open-line')).toMatchObject({ note: null });
  });
});
