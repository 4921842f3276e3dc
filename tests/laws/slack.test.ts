/**
 * Every band names its slack end: the one with which less voltage is left at the charger; of its thresholds the one with which
 * its window is wider. Each banded value is pushed alone, and what the charger finds at its input is compared: an end that is
 * named the wrong way round is seen here whether or not a verdict hangs on it.
 */
import { describe, expect, it } from 'vitest';
import type { Build, Operation, Push } from '../../packages/engine/src/contracts/index.ts';
import { makeRegistry } from '../../packages/engine/src/kinds/registry.ts';
import { makeOperation, valuesFor } from '../../packages/engine/src/operate/index.ts';
import { buildOf, practiceOf } from './builds.ts';
import { plainOf } from '../documents/plain.ts';

/** A unit that gives way smoothly: it never stops, so that every value shows in its volts. */
const SMOOTH = 'low-input: reduces from 13.5 V to 9 V, starts: 9.4 V after 5 s, stops: 9.2 V after 5 s';

/** A van of which almost nothing is given: all of it rests on bands. */
const vague = (charger: string, output: string): string => `loomwright: 1
title: Almost nothing is given
practice: europe
systems: { vehicle: 12 V, house: 12 V }
vehicle: { supply: alternator, variable-voltage: no, automatic-stop: no }
survey:
  idling: { posts: { min: 13.2..13.8 V, typical: 13.6..14.2 V, max: 14.4 V }${output} }
places:
  bonnet: { label: Under the bonnet, engine-space: yes }
  locker: { label: Locker }
routes: [ { from: bonnet, to: locker, length: 3..5 m, in: conduit } ]
parts:
  battery: { kind: battery, at: bonnet, role: vehicle }
  feed-fuse: { kind: fuse, at: bonnet, family: bolt-down, rating: 60 A }
  breaker: { kind: breaker, at: bonnet, rating: 60 A, reset: manual }
  splice: { kind: joint, at: bonnet, resistance: 0.2..0.6 mΩ }
  cut: { kind: isolator, at: bonnet, rating: 100 A }
  charger: { kind: dc-charger, at: locker, current: 28..32 A, enable: voltage, negative: common, ${charger} }
  house-fuse: { kind: fuse, at: locker, family: class-t, rating: 60 A }
  bank: { kind: battery, at: locker, role: house, chemistry: lifepo4 }
  body: { kind: body-section, medium: steel }
  front: { kind: chassis-point, at: bonnet, section: body }
  rear: { kind: chassis-point, at: locker, section: body }
  lamp: { kind: load, at: bonnet, current: 3..6 A, on: always }
wires:
  a: { from: battery.+, to: feed-fuse.line, size: 16 mm2, length: 10..20 cm }
  b: { from: feed-fuse.load, to: breaker.line, size: 16 mm2, length: 30 cm }
  c: { from: breaker.load, to: splice.a, size: 16 mm2, length: 30 cm }
  d: { from: splice.b, to: cut.in, size: 16 mm2, length: 30 cm }
  e: { from: cut.out, to: charger.in+, size: 16 mm2, via: [bonnet, locker] }
  f: { from: charger.in-, to: rear.stud, size: 16 mm2, length: 40 cm }
  g: { from: battery.-, to: front.stud, size: 35 mm2, length: 30 cm }
  h: { from: charger.out+, to: house-fuse.load, size: 16 mm2, length: 50 cm }
  i: { from: house-fuse.line, to: bank.+, size: 16 mm2, length: 15 cm }
  j: { from: charger.out-, to: bank.-, size: 16 mm2, length: 50 cm }
  k: { from: breaker.line, to: lamp.+, size: 2.5 mm2, length: 1 m }
  l: { from: lamp.-, to: front.stud, size: 2.5 mm2, length: 1 m }
`;

function pushed(build: Build, push: Push, only?: string): Operation {
  const assumption = { push, pinned: new Set<string>(), ...(only === undefined ? {} : { only }) };
  return makeOperation(build, makeRegistry(), {
    assumption,
    practice: practiceOf(build),
    values: valuesFor(build, assumption),
  });
}

/** A difference of the solver's rounding is none, V. */
const NOTHING = 1e-6;

/** Least volts at the charger's input while it idles at its weakest, V. */
function inputVolts(op: Operation): number {
  const [solved] = op.solve(op.condition('idling', 'weak'));
  if (solved === undefined || !solved.isOn('charger')) throw new Error('it is not on');
  return solved.voltsRange('charger.in+', 'charger.in-')?.[0] ?? Number.NaN;
}

/** Width of the window in which it hunts while idling, V. */
const windowWidth = (op: Operation): number =>
  op
    .windows()
    .filter((w) => w.state === 'idling')
    .flatMap((w) => w.spans.filter((p) => p.outcome === 'cycle'))
    .reduce((sum, p) => sum + p.to - p.from, 0);

/** What each banded value changes for the worse when it alone is pushed to either end. */
function movedBy(
  text: string,
  worse: (pushed: Operation, nominal: Operation) => number,
  stated: readonly string[],
): ReadonlyMap<string, readonly [slack: number, stiff: number]> {
  const build = buildOf(plainOf(text));
  const nominal = pushed(build, 'nominal');
  worse(nominal, nominal);
  const assumed = nominal.assumed().filter((b) => b.sourced.band !== undefined);
  const moved = new Map<string, readonly [number, number]>();
  for (const path of new Set([...assumed.map((b) => b.path), ...stated])) {
    const slack = worse(pushed(build, 'slack', path), nominal);
    const stiff = worse(pushed(build, 'stiff', path), nominal);
    if (Math.abs(slack) > NOTHING || Math.abs(stiff) > NOTHING) moved.set(path, [slack, stiff]);
  }
  return moved;
}

const fewerVolts = (a: Operation, b: Operation): number => inputVolts(b) - inputVolts(a);
const widerWindow = (a: Operation, b: Operation): number => windowWidth(a) - windowWidth(b);

const wrong = (moved: ReturnType<typeof movedBy>): readonly string[] =>
  [...moved]
    .filter(([, [slack, stiff]]) => slack < -NOTHING || stiff > NOTHING)
    .map(([path, ends]) => `${path}: ${ends.join(' and ')}`);

describe('the slack end of a band', () => {
  const stated = [
    'parts.splice.resistance',
    'parts.charger.current',
    'survey.idling.posts.min',
    'wires.a.length',
    'routes.0.length',
  ];

  it('leaves the charger no more volts behind a supply that has enough', () => {
    const moved = movedBy(vague(SMOOTH, ', output: 200 A'), fewerVolts, stated);
    expect(wrong(moved)).toEqual([]);
    for (const path of [
      'parts.charger.efficiency',
      'parts.charger.voltage.absorption',
      'parts.feed-fuse.cold-resistance',
      'parts.breaker.resistance',
      'parts.cut.contact',
      'parts.body.spread',
      'wires.e.joints.from',
      ...stated.filter((p) => !p.startsWith('routes')),
    ])
      expect([...moved.keys()]).toContain(path);
  });

  it('leaves it no more volts behind a supply at its limit', () => {
    const moved = movedBy(vague(SMOOTH, ', output: 40..50 A, load: 25..35 A'), fewerVolts, [
      'survey.idling.output',
      'survey.idling.load',
      'parts.lamp.current',
    ]);
    expect(wrong(moved)).toEqual([]);
    for (const path of ['survey.idling.output', 'survey.idling.load', 'parts.lamp.current'])
      expect([...moved.keys()]).toContain(path);
  });

  it('makes the window of a charger with thresholds no narrower', () => {
    const thresholds = 'starts: 13.2..13.4 V after 5 s, stops: 12.7..12.9 V after 5 s';
    const moved = movedBy(vague(thresholds, ', output: 200 A'), widerWindow, [
      'parts.charger.starts',
      'parts.charger.stops',
    ]);
    expect(wrong(moved)).toEqual([]);
    expect([...moved.keys()]).toEqual(
      expect.arrayContaining(['parts.charger.starts', 'parts.charger.stops', 'parts.charger.efficiency']),
    );
  });
});
