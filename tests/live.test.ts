import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Operation, Practice, StateId } from '../packages/engine/src/contracts/index.ts';
import { readDocument } from '../packages/engine/src/document/index.ts';
import { makeRegistry } from '../packages/engine/src/kinds/registry.ts';
import { practices } from '../packages/engine/src/practices/index.ts';
import { makeOperation, valuesFor } from '../packages/engine/src/operate/index.ts';
import { changeAt, makeLive, momentAt } from '../packages/engine/src/operate/live/index.ts';
import type { LiveMoment, LiveSetting, Trouble } from '../packages/engine/src/operate/live/index.ts';

function operationOf(file: string, size = '25 mm2'): Operation {
  const text = readFileSync(file, 'utf8').replaceAll('size: auto', `size: ${size}`);
  const registry = makeRegistry();
  const { build } = readDocument(text, registry);
  if (build === null) throw new Error(`${file} does not read`);
  const assumption = { push: 'nominal', pinned: new Set<string>() } as const;
  const practice: Practice = practices[build.practice ?? 'europe'];
  return makeOperation(build, registry, { assumption, practice, values: valuesFor(build, assumption) });
}

const EXAMPLES = [
  'beekeepers-van',
  'beekeepers-van-hunts',
  'delivery-van',
  'faulty-camper',
  'river-survey-van',
  'piano-tuners-electric-van',
];
const LONG = 20 * 60_000;

/** The states on the way to one, nearest last. */
function walk(op: Operation, chain: readonly StateId[], more: Partial<LiveSetting> = {}) {
  const live = makeLive(op);
  let moment: LiveMoment = live.start;
  let setting = live.resting;
  for (const state of chain) {
    setting = { ...live.resting, ...more, state };
    const facts = op.stateFacts(state);
    const lasts = Math.round((facts?.lasts.sourced.value ?? 0) * 1000);
    const course = live.course(setting, moment, lasts);
    moment = { memory: course.changes.at(-1)?.moment.memory ?? {}, left: {} };
  }
  return { live, setting, moment };
}

const cycles = (spans: readonly { outcome: string; from: number; to: number }[] | undefined) =>
  (spans ?? []).filter((s) => s.outcome === 'cycle').map((s) => [s.from.toFixed(3), s.to.toFixed(3)]);
const input = (volts: Readonly<Record<string, number>> | undefined): number =>
  (volts?.['charger.in+'] ?? 0) - (volts?.['charger.in-'] ?? 0);
const lug = (ohms: number): Trouble => ({ type: 'joint', wire: 'feed-3', end: 'to', ohms });

describe('a build tried out live', () => {
  it.each(EXAMPLES)('%s settles where its conditions do, to the last digit', (name) => {
    const op = operationOf(`examples/${name}.yaml`, /river/.test(name) ? '4 AWG' : '35 mm2');
    let compared = 0;
    for (const state of op.states) {
      for (const corner of op.corners.slice(0, 5)) {
        for (const solved of op.solve(op.condition(state.id, corner.id))) {
          if (solved.outcome !== 'settled') continue;
          const live = makeLive(op);
          // Entered as the condition was left, it stays; entered as it was entered, it arrives there.
          const memory = Object.fromEntries(solved.memory);
          const setting: LiveSetting = { ...live.resting, state: state.id, corner: corner.id };
          const course = live.course(setting, { memory, left: {} }, LONG);
          const last = course.changes.at(-1);
          expect(course.changes).toHaveLength(1);
          expect(course.untilMs).toBe(Infinity);
          for (const wire of op.wires.keys())
            expect(last?.reading.wires[wire]?.amps).toBeCloseTo(solved.wireAmps(wire), 9);
          if (op.posts !== null) {
            const { plus, minus } = op.posts;
            const posts = (last?.reading.volts[plus] ?? NaN) - (last?.reading.volts[minus] ?? NaN);
            expect(posts).toBeCloseTo(solved.volts(op.posts.plus, op.posts.minus) ?? NaN, 9);
          }
          compared += 1;
        }
      }
    }
    expect(compared).toBeGreaterThan(20);
  });

  it('goes through the events of the engine in the same order and time', () => {
    const op = operationOf('examples/beekeepers-van.yaml', '50 mm2');
    const { live, setting, moment } = walk(op, ['parked', 'ignition-on', 'cranking', 'idling']);
    const parked = walk(op, ['parked', 'ignition-on', 'cranking']);
    const course = live.course({ ...setting, state: 'idling' }, parked.moment, LONG);
    const solved = op.solve(op.condition('idling', 'typical-quiet')).find((s) => s.isOn('charger'));
    const seen = course.changes.flatMap((c) => c.events.map((e) => [c.atMs, e.part, e.to, e.says]));
    expect(seen).toEqual(solved?.events.map((e) => [e.atMs, e.part, e.to, e.says]));
    expect(moment.memory['charger']).toBe(solved?.memory.get('charger'));
  });

  it('hunts as the window says: period, duty and mean', () => {
    const op = operationOf('tests/scenarios/e1-hunting.yaml');
    const window = op
      .windows()
      .find((w) => w.part === 'charger' && w.state === 'idling' && w.sample !== null);
    const { sample } = window ?? { sample: null };
    if (sample === null || sample.cycle === null) throw new Error('this one hunts');
    const live = makeLive(op);
    const setting: LiveSetting = {
      ...live.resting,
      state: 'idling',
      corner: 'weak',
      source: sample.condition.setPoint,
    };
    const forecast = live.forecast(setting, live.start);
    const charger = forecast.cycling.find((each) => each.part === 'charger');
    expect(forecast.outcome).toBe('cycle');
    expect(forecast.periodMs).toBe(sample.cycle.periodMs);
    expect(charger?.duty).toBeCloseTo(sample.cycle.duty.get('charger') ?? 0, 12);
    expect(charger?.meanOut).toBeCloseTo(sample.outAmps('charger'), 6);
    expect(charger?.inputOn).toBeLessThan(charger?.stops ?? 0);
    expect(charger?.inputOff).toBeGreaterThan(charger?.starts ?? 0);
    // Followed in time it does the same: on for so long, off for so long.
    const course = live.course(setting, live.start, 10 * forecast.periodMs);
    const times = course.changes.filter((c) => c.events.some((e) => e.part === 'charger')).map((c) => c.atMs);
    const [a = 0, b = 0, c = 0] = times.slice(-3);
    expect(c - a).toBe(forecast.periodMs);
    expect([b - a, c - b].toSorted((x, y) => x - y)).toEqual(
      [charger?.onMs ?? 0, charger?.offMs ?? 0].toSorted((x, y) => x - y),
    );
  });

  it('finds the same window as the engine when nothing is laid on', () => {
    const op = operationOf('tests/scenarios/e1-hunting.yaml');
    const window = op.windows().find((w) => w.part === 'charger' && w.state === 'idling');
    const live = makeLive(op);
    const own = live.window({ ...live.resting, state: 'idling', corner: 'weak' }, live.start, 'charger');
    expect(cycles(own?.spans)).toEqual(cycles(window?.spans));
    expect(cycles(own?.spans).length).toBeGreaterThan(0);
  });
});

describe('troubles laid on', () => {
  const op = operationOf('examples/beekeepers-van.yaml', '50 mm2');
  const on = (troubles: readonly Trouble[], more: Partial<LiveSetting> = {}) => {
    const { live, moment } = walk(op, ['parked', 'ignition-on', 'cranking']);
    const setting: LiveSetting = { ...live.resting, state: 'driving', troubles, ...more };
    const course = live.course(setting, moment, LONG);
    return { live, setting, moment, course, last: course.changes.at(-1)?.reading };
  };

  it('a bad lug loses its ohms times the amperes, and its wire shows it', () => {
    const good = on([]);
    const bad = on([{ type: 'joint', wire: 'feed-3', end: 'to', ohms: 0.01 }]);
    const amps = bad.last?.wires['feed-3']?.amps ?? 0;
    expect(amps).toBeGreaterThan(good.last?.wires['feed-3']?.amps ?? 0);
    const across = (bad.last?.wires['feed-3']?.to ?? 0) - (bad.last?.volts['charger.in+'] ?? 0);
    const joint = op.wires.get('feed-3')?.joints[1].sourced.value ?? 0;
    expect(across).toBeCloseTo(amps * (joint + 0.01), 9);
    expect(input(bad.last?.volts)).toBeLessThan(input(good.last?.volts));
  });

  it('no ohms more are no trouble at all', () => {
    const good = on([]);
    const none = on([{ type: 'joint', wire: 'feed-3', end: 'to', ohms: 0 }]);
    expect(none.last).toEqual(good.last);
  });

  it('an open feed leaves the charger without input, one end live and one dead', () => {
    const { last } = on([{ type: 'open-wire', wire: 'feed-3' }]);
    expect(last?.wires['feed-3']?.amps).toBe(0);
    expect(last?.wires['feed-3']?.liveFrom).toBe(true);
    expect(last?.wires['feed-3']?.liveTo).toBe(false);
    expect(last?.parts['charger']?.outAmps).toBe(0);
  });

  it('a stuck relay keeps the charger on with the key off, a stuck open one never lets it start', () => {
    const closed = on([{ type: 'stuck', part: 'run-relay', at: 'closed' }], { state: 'parked' });
    expect(closed.last?.parts['run-relay']?.closed).toBe(true);
    expect(closed.last?.parts['run-relay']?.on).toBe(false);
    const open = on([{ type: 'stuck', part: 'run-relay', at: 'open' }]);
    expect(open.last?.parts['run-relay']?.on).toBe(true);
    expect(open.last?.parts['run-relay']?.closed).toBe(false);
    expect(open.last?.parts['charger']?.outAmps).toBe(0);
  });

  it('leaves the operation as it was', () => {
    const before = op.solve(op.condition('driving', 'typical-quiet'))[0]?.wireAmps('feed-3');
    on([{ type: 'joint', wire: 'feed-3', end: 'to', ohms: 0.03 }]);
    const after = operationOf('examples/beekeepers-van.yaml', '50 mm2');
    expect(before).toBe(after.solve(after.condition('driving', 'typical-quiet'))[0]?.wireAmps('feed-3'));
    expect(on([]).last?.wires['feed-3']?.amps).toBeCloseTo(before ?? NaN, 9);
  });

  it('hunts through a lug that is bad enough, up to the volts of the closed form', () => {
    const bad = on([lug(0.04)], { state: 'idling' });
    expect(bad.live.forecast(bad.setting, bad.moment).outcome).toBe('cycle');
    const holds = on([lug(0.03)]);
    expect(holds.live.forecast(holds.setting, holds.moment).outcome).toBe('settled');
    // A constant power P behind a loop R: it holds from stop + P / stop x R upwards.
    const amps = holds.last?.wires['feed-3']?.amps ?? NaN;
    const posts =
      (holds.last?.volts['vehicle-battery.+'] ?? NaN) - (holds.last?.volts['vehicle-battery.-'] ?? NaN);
    const loop = (posts - input(holds.last?.volts)) / amps;
    const power = amps * input(holds.last?.volts);
    const window = holds.live.window(holds.setting, holds.moment, 'charger');
    const hunting = window?.spans.find((span) => span.outcome === 'cycle');
    expect(hunting?.from).toBeCloseTo(12.3, 2);
    expect(Math.abs((hunting?.to ?? 0) - (12 + (power / 12) * loop))).toBeLessThan(0.02);
    expect(window?.elsewhere.find((each) => each.state === 'idling')?.outcome).toBe('on');
  });

  it('the source is where the slider puts it', () => {
    const low = on([lug(0.03)], { source: 13.7 });
    expect(low.live.forecast(low.setting, low.moment).outcome).toBe('cycle');
    const high = on([lug(0.03)], { source: 14 });
    expect(high.live.forecast(high.setting, high.moment).outcome).toBe('settled');
    const posts =
      (high.last?.volts['vehicle-battery.+'] ?? NaN) - (high.last?.volts['vehicle-battery.-'] ?? NaN);
    expect(posts).toBeCloseTo(14, 3);
  });
});

describe('time', () => {
  it('may be cut anywhere: what follows is the same', () => {
    const op = operationOf('tests/scenarios/e1-hunting.yaml');
    const live = makeLive(op);
    const setting: LiveSetting = { ...live.resting, state: 'idling', corner: 'weak', source: 13.6 };
    const whole = live.course(setting, live.start, 300_000);
    const eventsOf = (course: typeof whole, from: number): readonly string[] =>
      course.changes.flatMap((c) => c.events.map((e) => `${c.atMs + from} ${e.part} ${e.to}`));
    for (const cut of [1, 999, 29_999, 30_000, 31_500, 64_321]) {
      const first = live.course(setting, live.start, cut);
      const rest = live.course(setting, momentAt(first, cut), 300_000 - cut);
      expect([...eventsOf(first, 0), ...eventsOf(rest, cut)]).toEqual(eventsOf(whole, 0));
    }
    expect(changeAt(whole, 10)?.atMs).toBe(0);
  });

  it('knows parts by name, so that a moment outlives an edit', () => {
    const op = operationOf('examples/beekeepers-van.yaml', '50 mm2');
    const live = makeLive(op);
    const strange: LiveMoment = {
      memory: { charger: 99, 'no-such-part': 1 },
      left: { 'no-such-part#0': 5 },
    };
    const course = live.course({ ...live.resting, state: 'parked' }, strange, 1000);
    expect(course.changes[0]?.moment.memory['charger']).toBe(0);
  });
});
