/** Reading, writing, reading again; asking in another order; opening and closing again. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readText } from '../../packages/engine/src/checks/testing/judge-text.ts';
import { editText, readDocument, writeDocument } from '../../packages/engine/src/document/index.ts';
import type { Operation } from '../../packages/engine/src/contracts/index.ts';
import { makeRegistry } from '../../packages/engine/src/kinds/registry.ts';
import { makeLive, solveFree, type FreeCorner } from '../../packages/engine/src/operate/index.ts';
import { generate } from '../documents/generate.ts';
import { plainOf as docOf } from '../documents/plain.ts';
import { ALL, named, nominal, SEEDS } from './builds.ts';
import { expectSame } from './same.ts';

const files = ['../../examples/', '../scenarios/', '../catalogue/'].flatMap((path) => {
  const at = new URL(path, import.meta.url);
  return readdirSync(at)
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => [name, readFileSync(new URL(name, at), 'utf8')] as const);
});
const TEXTS = [...files, ...SEEDS.map((seed) => [`seed ${seed}`, generate(seed)] as const)];

describe('reading, writing and reading again', () => {
  it.each(TEXTS)('%s: is the same build, and is written the same', (_, text) => {
    const first = readText(text);
    const written = writeDocument(parse(text, { schema: 'core' }) as Record<string, unknown>);
    expect(readText(written)).toEqual(first);
    expect(writeDocument(parse(written, { schema: 'core' }) as Record<string, unknown>)).toBe(written);
  });

  it.each(TEXTS)('%s: a change and its inverse give back every byte', (_, text) => {
    const registry = makeRegistry();
    const { source, build } = readDocument(text, registry);
    const [wire = ''] = build?.wires.keys() ?? [];
    const [part = ''] = build?.parts.keys() ?? [];
    const there = editText(source, [
      { set: ['wires', wire, 'length'], to: '1.5 m' },
      { set: ['parts', part, 'label'], to: 'Another name' },
      { remove: ['wires', wire] },
    ]);
    if (!there.ok) throw new Error(there.diagnostics.map((d) => d.message).join('\n'));
    expect(there.text).not.toBe(text);
    const { source: changed } = readDocument(there.text, registry);
    const back = editText(changed, there.inverse);
    expect(back.ok && back.text).toBe(text);
  });
});

/** Other beginnings: what is asked first is what a careless memory would hand on. */
const BEGINNINGS: readonly ((op: Operation) => unknown)[] = [
  (op) => op.judged.toReversed().map((c) => op.solve(c)),
  ...(['cold', 'weak', 'strong'] as const).map(
    (corner) => (op: Operation) => op.judged.filter((c) => c.corner === corner).map((c) => op.solve(c)),
  ),
  (op) => op.judged.filter((c) => c.state === 'stored').map((c) => op.solve(c)),
  (op) => op.windows(),
  (op) => [...op.wires.keys()].map((wire) => op.ampacity(wire)),
  (op) => solveFree(op, op.normalHands, HALFWAY),
];

/** A condition that no corner is. */
const HALFWAY: FreeCorner = {
  source: 0.5,
  air: 0.7,
  vehicleBattery: 'half',
  houseBattery: 'low',
  busy: true,
  ratedOutput: true,
  sun: false,
  unknownLive: false,
};

describe('asking in another order', () => {
  it.each(named(ALL))('%s: gives the same', (_, doc) => {
    const op = nominal(doc);
    for (const c of op.judged) op.solve(c);
    for (const begin of BEGINNINGS) {
      const other = nominal(doc);
      begin(other);
      // What was solved before must not show in what is solved later; names, order and numbers are equal: nothing may differ.
      expect(expectSame(op, other, { share: 0 })).toBeGreaterThan(20);
    }
  });
});

/** Lamps and a fridge on two batteries in parallel, fed over a breaker and a diode: nothing in it remembers. */
const WITHOUT_MEMORY = `loomwright: 1
title: Nothing remembers
practice: europe
systems: { vehicle: 12 V, house: 12 V }
vehicle: { supply: alternator, variable-voltage: no, automatic-stop: no }
survey:
  driving: { posts: { min: 13.6 V, typical: 14.1 V, max: 14.4 V }, output: 90 A, load: 25 A }
places: { bay: { label: Battery bay, hottest: 40 °C }, rear: { label: Rear, hottest: 40 °C } }
parts:
  start-battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: 80 Ah }
  feed-breaker:  { kind: breaker, at: bay, rating: 60 A, reset: manual, interrupts: 5 kA, curve: generic-thermal }
  split:         { kind: diode, at: bay, rating: 80 A }
  house-battery: { kind: battery, at: rear, role: house, chemistry: agm, capacity: 100 Ah }
  fridge:        { kind: load, at: rear, power: 60 W, on: always }
  lamp:          { kind: load, at: rear, current: 4 A, on: schedule }
wires:
  feed:   { from: start-battery.+, to: feed-breaker.line, size: 16 mm2, insulation: pvc-105, length: 20 cm }
  feed-2: { from: feed-breaker.load, to: split.anode, size: 16 mm2, insulation: pvc-105, length: 1 m }
  feed-3: { from: split.cathode, to: house-battery.+, size: 16 mm2, insulation: pvc-105, length: 4 m }
  cold:   { from: house-battery.+, to: fridge.+, size: 4 mm2, insulation: pvc-105, length: 2 m }
  cold-2: { from: fridge.-, to: house-battery.-, size: 4 mm2, insulation: pvc-105, length: 2 m }
  light:  { from: house-battery.+, to: lamp.+, size: 2.5 mm2, insulation: pvc-105, length: 3 m }
  light-2: { from: lamp.-, to: house-battery.-, size: 2.5 mm2, insulation: pvc-105, length: 3 m }
  back:   { from: house-battery.-, to: start-battery.-, size: 16 mm2, insulation: pvc-105, length: 4 m }
`;

describe('a breaker opened and closed again', () => {
  it('leaves the point of a network without memory as it was, to the byte', () => {
    const live = makeLive(nominal(docOf(WITHOUT_MEMORY)));
    let moved = 0;
    for (const state of ['parked', 'driving'] as const) {
      for (const corner of ['typical-busy', 'weak', 'strong'] as const) {
        const setting = { ...live.resting, state, corner };
        const [before, open, again] = [[], ['feed-breaker'], []].map((opened, i, all) => {
          const moment = i === 0 ? live.start : { memory: {}, left: {} };
          expect(all.length).toBe(3);
          return live.course({ ...setting, opened }, moment, 60_000).changes.at(-1)?.reading;
        });
        expect(again).toEqual(before);
        if (Math.abs((open?.wires['feed-2']?.amps ?? 0) - (before?.wires['feed-2']?.amps ?? 0)) > 1)
          moved += 1;
        expect(open?.wires['feed-2']?.amps).toBe(0);
      }
    }
    expect(moved).toBeGreaterThan(0);
  });
});
