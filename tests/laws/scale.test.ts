/** Builds in which everything is stated, taken larger and smaller: what must follow in proportion. */
import { describe, expect, it } from 'vitest';
import type { Condition, Operation } from '../../packages/engine/src/contracts/index.ts';
import { seeded } from '../documents/mutate.ts';
import { plainOf } from '../documents/plain.ts';
import { nominal } from './builds.ts';
import { expectSame, near } from './same.ts';

interface Factors {
  readonly volts: number;
  readonly ohms: number;
  readonly amps: number;
}

const AS_IS: Factors = { volts: 1, ohms: 1, amps: 1 };

/** A van with a charger, loads of all three forms, a relay on a run signal; every voltage, resistance, current and power stated. */
function van({ volts: v, ohms: r, amps: i }: Factors, feedMm2 = 16): string {
  const p = v * i;
  const posts = (min: number, typical: number, max: number): string =>
    `posts: { min: ${min * v} V, typical: ${typical * v} V, max: ${max * v} V }`;
  const joints = `joints: { from: ${0.2 * r} mΩ, to: ${0.3 * r} mΩ }`;
  const wire = (from: string, to: string, mm2: number, metres: number): string =>
    `{ from: ${from}, to: ${to}, size: ${mm2} mm2, insulation: pvc-105, length: ${metres * r} m, ${joints} }`;
  return `loomwright: 1
title: Everything stated
practice: europe
systems: { vehicle: ${12 * v} V, house: ${12 * v} V }
vehicle: { supply: alternator, variable-voltage: no, automatic-stop: no }
climate: { coldest: -10 °C, hottest: 40 °C }
settings: { resistance-at: 20 °C }
survey:
  idling:  { ${posts(13.4, 13.9, 14.3)}, output: ${60 * i} A, load: ${25 * i} A }
  driving: { ${posts(13.6, 14.2, 14.4)}, output: ${120 * i} A, load: ${25 * i} A }
places: { bay: { label: Bay, hottest: 40 °C, coldest: 5 °C }, rear: { label: Rear, hottest: 40 °C, coldest: 5 °C } }
parts:
  start-battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: ${80 * i} Ah, rest: ${12.7 * v} V, resistance: ${5 * r} mΩ, settled-resistance: ${60 * r} mΩ }
  feed-breaker:  { kind: breaker, at: bay, rating: ${60 * i} A, reset: manual, interrupts: 5 kA, curve: generic-thermal, resistance: ${2 * r} mΩ }
  charger:       { kind: dc-charger, at: rear, current: ${30 * i} A, voltage: { absorption: ${14.4 * v} V, float: ${13.5 * v} V }, efficiency: 0.88, standby: ${0.02 * i} A, low-input: stops, enable: signal, starts: ${12.3 * v} V after 15 s, stops: ${11.9 * v} V after 3 s, minimum: ${10.5 * v} V, input-limit: ${60 * i} A, negative: isolated, enable-on: ${8 * v} V, enable-resistance: ${10 * r} kΩ, derates: 60 °C }
  house-battery: { kind: battery, at: rear, role: house, chemistry: lifepo4, capacity: ${200 * i} Ah, charge-limit: ${100 * i} A, rest: ${13.2 * v} V, resistance: ${3 * r} mΩ, settled-resistance: ${10 * r} mΩ }
  run-signal:    { kind: supply-point, at: bay, live: [idling, driving], dead: others, measured: yes, limit: ${1 * i} A, resistance: ${0.1 * r} Ω }
  run-relay:     { kind: relay, at: bay, coil: ${85 * r} Ω, pulls: ${8 * v} V, drops: ${3 * v} V, contacts: make, rating: 20 A, contact: ${0.5 * r} mΩ, suppressed: yes }
  fridge:        { kind: load, at: rear, power: ${60 * p} W, on: always }
  lamp:          { kind: load, at: rear, current: ${4 * i} A, on: schedule }
  heater:        { kind: load, at: rear, resistance: ${1.2 * r} Ω, on: [driving] }
wires:
  feed:    ${wire('start-battery.+', 'feed-breaker.line', feedMm2, 0.2)}
  feed-2:  ${wire('feed-breaker.load', 'charger.in+', feedMm2, 4)}
  return:  ${wire('charger.in-', 'start-battery.-', 16, 5)}
  run:     ${wire('run-signal.out', 'run-relay.86', 1, 0.4)}
  run-neg: ${wire('run-relay.85', 'start-battery.-', 1, 0.5)}
  tap:     ${wire('feed-breaker.load', 'run-relay.30', 1, 0.4)}
  enable:  ${wire('run-relay.87', 'charger.enable', 1, 4)}
  out:     ${wire('charger.out+', 'house-battery.+', 16, 0.8)}
  out-neg: ${wire('charger.out-', 'house-battery.-', 16, 0.8)}
  cold:    ${wire('house-battery.+', 'fridge.+', 4, 2)}
  cold-2:  ${wire('fridge.-', 'house-battery.-', 4, 2)}
  light:   ${wire('house-battery.+', 'lamp.+', 2.5, 3)}
  light-2: ${wire('lamp.-', 'house-battery.-', 2.5, 3)}
  warm:    ${wire('feed-breaker.load', 'heater.+', 6, 3)}
  warm-2:  ${wire('heater.-', 'start-battery.-', 6, 3)}
`;
}

const vanOf = (f: Factors, feedMm2?: number): Operation => nominal(plainOf(van(f, feedMm2)));

/** States in which the charger runs: one that is off loads its input with a bleeder that no document states. */
const running = (op: Operation) => (c: Condition) =>
  op.stateFacts(c.state)?.running === true && op.solve(c).every((s) => s.isOn('charger')) && c.open === null;

/** At the weak corner the bank is held behind the least resistance of anything (10 µΩ), which no document states. */
const isHeld = (c: Condition): boolean => c.corner === 'weak';
const SHARE_HELD = 3e-5;

function inProportion(
  op: Operation,
  other: Operation,
  factors: { readonly volts?: number; readonly amps: number },
): number {
  const runs = running(op);
  return (
    expectSame(op, other, { ...factors, share: SHARE, only: (c) => runs(c) && !isHeld(c) }) +
    expectSame(op, other, { ...factors, share: SHARE_HELD, only: (c) => runs(c) && isHeld(c) })
  );
}

/** What a full battery takes beyond its acceptance (0.1 mA for each volt) is stated by no document either. */
const SHARE = 1e-7;

describe('everything in proportion', () => {
  it.each([0.5, 2, 3])('resistances x %d with powers and currents in inverse leave all voltages', (a) => {
    const op = vanOf(AS_IS);
    const other = vanOf({ volts: 1, ohms: a, amps: 1 / a });
    const points = inProportion(op, other, { amps: 1 / a });
    expect(points).toBeGreaterThan(10);
  });

  it.each([16, 4])(
    'doubling voltages and thresholds, four times the resistances at the same powers: volts double, amperes halve (feed of %d mm²)',
    (mm2) => {
      const op = vanOf(AS_IS, mm2);
      const other = vanOf({ volts: 2, ohms: 4, amps: 0.5 }, mm2);
      const points = inProportion(op, other, { volts: 2, amps: 0.5 });
      expect(points).toBeGreaterThan(5);
    },
  );
});

/** A charger on two wires alone. */
function loop(there: string, back: string): Operation {
  const text = van(AS_IS)
    .replace(/^ {2}(warm|warm-2|tap|run|run-neg|enable): .*\n/gm, '')
    .replace(/^ {2}(heater|run-relay|run-signal): .*\n/gm, '')
    .replace('enable: signal, starts: 12.3 V', 'enable: voltage, starts: 13.0 V')
    .replace(/feed-2:.*\n/, `feed-2:  { from: feed-breaker.load, to: charger.in+, ${there} }\n`)
    .replace(/return:.*\n/, `return:  { from: charger.in-, to: start-battery.-, ${back} }\n`);
  return nominal(plainOf(text));
}

describe("the positive's and the negative's resistance exchanged", () => {
  it('leaves the drop of a two-wire loop, and what flows in it', () => {
    const chance = seeded(11);
    let points = 0;
    for (let i = 0; i < 10; i++) {
      const [there, back] = [0, 1].map(() => {
        const metres = 1 + chance.below(60) / 10;
        const joint = (1 + chance.below(30)) / 10;
        return `size: ${chance.pick([6, 10, 16, 25])} mm2, insulation: pvc-105, length: ${metres} m, joints: { from: ${joint} mΩ, to: 0.1 mΩ }`;
      }) as [string, string];
      const op = loop(there, back);
      const other = loop(back, there);
      for (const c of op.judged) {
        if (c.setPoint !== null) continue;
        const [one, two] = [op.solve(c), other.solve(c)];
        expect(two.map((s) => s.outcome)).toEqual(one.map((s) => s.outcome));
        one.forEach((s, k) => {
          const twin = two[k];
          const [before, after] = [s, twin].map((x) => x?.volts('charger.in+', 'charger.in-') ?? NaN);
          near(after ?? NaN, before ?? NaN, 1e-9, 1, `${c.state} ${c.corner}: V at the input`);
          near(twin?.wireAmps('feed-2') ?? NaN, s.wireAmps('feed-2'), 1e-9, 1, `${c.state}: A`);
          if (s.isOn('charger')) points += 1;
        });
      }
    }
    expect(points).toBeGreaterThan(50);
  });
});
