/** The windows of chargers: the adaptive sweep finds what a plain one at every 50 mV finds, and simple loops the closed form. */
import { describe, expect, it } from 'vitest';
import { makeCondition } from '../../packages/engine/src/conditions/index.ts';
import type { Operation, Window, WindowOutcome } from '../../packages/engine/src/contracts/index.ts';
import { huntingWindow } from '../../packages/engine/src/network/closed-form.ts';
import { Frame } from '../../packages/engine/src/operate/frame.ts';
import { insidesOf } from '../../packages/engine/src/operate/insides.ts';
import { runScene, type Run } from '../../packages/engine/src/operate/run.ts';
import { followTrack } from '../../packages/engine/src/operate/tracks.ts';
import { seeded } from '../documents/mutate.ts';
import { ALL, changed, named, nominal, SCENARIOS } from './builds.ts';

const STEP_V = 0.05;
/** An edge is known to 1 mV. */
const EDGE_V = 0.0011;

/** The outcome at one set point after another, each from nothing but the scene itself. */
function plainSweep(op: Operation, w: Window): (volts: number) => WindowOutcome {
  const insides = insidesOf(op);
  const { machine } = insides;
  const device = machine.circuit.byId.get(w.part);
  const charging = device?.placed.ability.converts?.charging ?? [];
  const index = device?.device ?? -1;
  const weak = makeCondition(w.state, 'weak', w.hands);
  const track = followTrack(
    machine,
    (state) => new Frame(machine, insides.sceneOf(makeCondition(state, 'weak', w.hands))),
    op.states,
  );
  const entries = (track.entries.get(w.state) ?? []).map((e) => e.memory);
  const frameAt = (volts: number): Frame =>
    new Frame(machine, {
      ...insides.sceneOf({ ...weak, setPoint: volts }),
      leastSetPoint: null,
      vehicleRest: volts,
    });
  const put = (memory: readonly number[], value: number): readonly number[] =>
    memory.map((v, i) => (i === index ? value : v));
  const on = charging[0] ?? 0;
  const starts = entries.flatMap((memory) => [memory, put(memory, 0), put(memory, on)]);
  const warm = runScene(machine, frameAt(w.envelope[1] + 1), put(entries[0] ?? [], on))[0]?.temperatures;
  const outcomeOf = (run: Run): WindowOutcome => {
    const seen = run.outcome.segments.map((g) => charging.includes(g.memory[index] ?? 0));
    const repeats = run.outcome.type === 'cycle' || run.outcome.type === 'irregular';
    if (repeats && new Set(seen).size === 2) return 'cycle';
    return seen.at(-1) === true ? 'on' : 'off';
  };
  return (volts) => {
    const frame = frameAt(volts);
    const all = new Set(starts.flatMap((memory) => runScene(machine, frame, memory, warm).map(outcomeOf)));
    const [only] = all;
    if (all.size === 1 && only !== undefined) return only;
    return all.has('cycle') ? 'cycle' : 'depends';
  };
}

describe('the adaptive sweep', () => {
  const outcomes = new Set<WindowOutcome>();

  it.each(named(ALL))('%s: finds what a plain one finds', (_, doc) => {
    const op = nominal(doc);
    let looked = 0;
    for (const w of op.windows()) {
      const plain = plainSweep(op, w);
      const from = w.spans[0]?.from ?? 0;
      const to = w.spans.at(-1)?.to ?? 0;
      expect(from).toBeLessThanOrEqual(w.envelope[0] - 1 + 1e-9);
      expect(to).toBeGreaterThanOrEqual(w.envelope[1] + 1 - 1e-9);
      for (let i = 0; from + i * STEP_V < to - EDGE_V; i++) {
        const volts = from + i * STEP_V;
        const edge = w.spans.find((p) => Math.abs(p.from - volts) < EDGE_V && p.from > from);
        const span = w.spans.find((p) => volts >= p.from && volts < p.to);
        if (edge !== undefined || span === undefined) continue;
        const about = `${w.part} ${w.state} ${JSON.stringify(w.hands)} at ${volts.toFixed(3)} V`;
        expect(`${about}: ${span.outcome}`).toBe(`${about}: ${plain(volts)}`);
        outcomes.add(span.outcome);
        looked += 1;
      }
      // Each edge lies where it is said to, to 1 mV.
      w.spans.slice(1).forEach((p, i) => {
        expect(plain(p.from - EDGE_V), `${w.state} edge ${p.from}`).toBe(w.spans[i]?.outcome);
        expect(plain(p.from + EDGE_V), `${w.state} edge ${p.from}`).toBe(p.outcome);
      });
    }
    if (op.windows().length > 0) expect(looked).toBeGreaterThan(40);
  });

  it('met every outcome on the way', () => {
    expect([...outcomes].toSorted()).toEqual(['cycle', 'depends', 'off', 'on']);
  });
});

describe('the window of a simple loop', () => {
  const e1 = SCENARIOS.find((s) => s.name === 'e1-hunting');

  it('is the closed form within 2 mV: Von to Voff + P R / Voff', () => {
    const chance = seeded(3);
    let hunting = 0;
    let quiet = 0;
    for (let i = 0; i < 14; i++) {
      const mm2 = chance.pick([6, 10, 16, 25]);
      const metres = (mm2 * (5 + chance.below(16))) / 60;
      if (e1 === undefined) throw new Error('the scenario is gone');
      const doc = changed(e1.doc, (copy) => {
        for (const id of ['feed-2', 'return'])
          copy.wires[id] = { ...copy.wires[id], size: `${mm2} mm2`, length: `${metres} m` };
      });
      const op = nominal(doc);
      const [s] = op.solve({ ...op.condition('idling', 'weak'), setPoint: 15.5 });
      if (s === undefined || !s.isOn('charger')) throw new Error('it is on at 15.5 V');
      const watts = (s.volts('charger.in+', 'charger.in-') ?? 0) * s.wireAmps('feed-2');
      const ohms = ['feed', 'feed-2', 'return'].reduce((sum, id) => sum + s.wireOhms(id), 0.002);
      const expected = huntingWindow(13.3, 12.8, watts, ohms);
      // Too narrow for edges that are known to 1 mV.
      if (Math.abs(expected.to - expected.from) < 0.003) continue;
      const window = op.windows().find((w) => w.state === 'idling');
      const cycle = window?.spans.find((p) => p.outcome === 'cycle');
      const both = window?.spans.find((p) => p.outcome === 'depends');
      if (expected.hunts) {
        expect(Math.abs((cycle?.from ?? 0) - expected.from), `${mm2} mm² ${metres} m`).toBeLessThan(0.002);
        expect(Math.abs((cycle?.to ?? 0) - expected.to)).toBeLessThan(0.002);
        expect(both).toBeUndefined();
        hunting += 1;
      } else {
        expect(cycle).toBeUndefined();
        // Between the two it stays as it was, on or off.
        expect(Math.abs((both?.from ?? 0) - expected.to)).toBeLessThan(0.002);
        expect(Math.abs((both?.to ?? 0) - expected.from)).toBeLessThan(0.002);
        quiet += 1;
      }
    }
    expect(hunting).toBeGreaterThan(2);
    expect(quiet).toBeGreaterThan(2);
  });
});
