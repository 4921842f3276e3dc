/** Shorts between two solved ones, against the circuit itself. */
import { describe, expect, it } from 'vitest';
import type { Operation, ShortCase, ShortPoint } from '../../contracts/index.ts';
import { practices } from '../../practices/index.ts';
import { operationsOf, readText } from '../testing/judge-text.ts';
import { FaultLine } from './fault-line.ts';
import { greatestCase, type Into } from './shorts.ts';

/** A branch that battery and alternator feed together through a breaker. */
const BRANCH = `loomwright: 1
title: A branch behind a breaker
practice: europe
vehicle: { supply: alternator, variable-voltage: no, automatic-stop: no }
systems: { vehicle: 12 V }
places: { bay: { label: Battery bay, hottest: 30 °C }, rear: { label: Rear, hottest: 30 °C } }
routes: [ { from: bay, to: rear, length: 5 m, in: free } ]
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: flooded, capacity: 80 Ah }
  alternator: { kind: alternator, at: bay, output: 90 A }
  body: { kind: body-section, medium: steel }
  earth: { kind: chassis-point, at: bay, section: body }
  main: { kind: breaker, at: bay, rating: 60 A, reset: manual, interrupts: 5 kA }
  lamp: { kind: load, at: rear, current: 5 A }
wires:
  lead: { from: battery.+, to: main.line, size: 25 mm2, insulation: pvc-70, length: 15 cm }
  ground: { from: battery.-, to: earth.stud, size: 25 mm2, insulation: pvc-70, length: 30 cm }
  branch: { from: main.load, to: lamp.+, size: 6 mm2, insulation: pvc-70 }
  back: { from: lamp.-, to: battery.-, size: 6 mm2, insulation: pvc-70 }
`;

const FAR = 0.125;

const operation = (): Operation => operationsOf(readText(BRANCH), practices.europe).nominal;

const currents = (op: Operation, point: ShortPoint): readonly number[] => [
  point.amps,
  ...point.halves,
  ...[...op.wires.keys()].map((id) => point.wireAmps(id)),
  ...[...op.parts.keys()].map((id) => point.partAmps(id, 0)),
];

function agree(op: Operation, a: ShortPoint, b: ShortPoint): void {
  const all = currents(op, a);
  currents(op, b).forEach((amps, i) =>
    expect(Math.abs((all[i] ?? NaN) - amps)).toBeLessThan(1e-9 * (1 + b.amps)),
  );
}

const INTOS: readonly Into[] = [{ type: 'chassis' }, { type: 'terminal', terminal: 'lamp.-' }];

describe.each(INTOS)('a short at one place over its resistance, into %o', (into) => {
  const op = operation();
  const place = { wire: 'branch', along: 1, into } as const;
  const solved = (contact: number, open: ShortCase['open'] = []): ShortPoint =>
    op.short({ ...greatestCase('branch', 1, into, contact), open });

  it('is what the circuit says at every resistance', () => {
    const line = new FaultLine(op, place, FAR);
    expect(solved(0).pieces).toBe(solved(FAR).pieces);
    expect(solved(0).amps).toBeGreaterThan(2 * solved(FAR).amps);
    for (const contact of [0, 1e-6, 1e-4, 3e-3, 0.02, 0.07, FAR, 0.4])
      agree(op, line.at(contact), solved(contact));
  });

  it('finds the resistance for a current', () => {
    const line = new FaultLine(op, place, FAR);
    for (const share of [0.99, 0.8, 0.6]) {
      const amps = share * Math.abs(solved(0).partAmps('main', 0));
      const contact = line.contactFor('main', amps) ?? NaN;
      expect(Math.abs(solved(contact).partAmps('main', 0))).toBeCloseTo(amps, 6);
    }
    expect(line.contactFor('main', 1.1 * solved(0).amps)).toBeNull();
  });

  it('carries nothing once the only device is open', () => {
    const line = new FaultLine(op, place, FAR);
    expect(line.at(0.01, ['main']).amps).toBe(0);
    expect(Math.abs(line.at(0.01, ['main']).wireAmps('branch'))).toBeLessThan(1e-9);
  });
});
