/**
 * Threshold devices that hunt, followed in time by ngspice (comparators, timers on capacitors, switches with hysteresis) to compare with the event
 * loop: period and mean current.
 */
import { runEvents, type EventRule } from '../../packages/engine/src/network/events.ts';
import { planCircuit } from '../../packages/engine/src/network/plan.ts';
import type { Point } from '../../packages/engine/src/network/point.ts';
import type { Element } from './generate.ts';
import { Random } from './random.ts';
import { elementLines, type Spice } from './spice.ts';

/** A load that starts when its input has stood at `start` volts for a while and stops when it has been under `stop`. */
interface Threshold {
  readonly a: number;
  readonly watts: number;
  readonly start: number;
  readonly stop: number;
  readonly startMs: number;
  readonly stopMs: number;
}

export interface TransientCase {
  readonly nodeCount: number;
  readonly fixed: readonly Element[];
  readonly devices: readonly Threshold[];
  /** Element whose current is compared. */
  readonly feed: number;
}

/** What the event loop says, with a device that takes part in the cycle and how often it starts in one. */
export interface Loop extends Hunting {
  readonly device: number;
  readonly starts: number;
}

export interface Hunting {
  readonly periodS: number;
  readonly meanAmps: number;
}

const KNEE = 6;

/** Draws a source behind a loop with one or two threshold devices, by turns with a battery and a limited alternator. */
export function drawTransient(seed: number): TransientCase {
  const random = new Random(seed);
  const volts = random.between(13.4, 14);
  const ohms = random.between(0.03, 0.08);
  const alternator = seed % 2 === 0;
  const two = seed % 4 >= 2;
  // an alternator that falls by 5 mV per ampere and gives no more than its limit, or an ideal source
  const limit = random.between(20, 30);
  const source: Element = alternator
    ? {
        type: 'pieces',
        a: 1,
        b: 0,
        points: [
          [volts - limit / 200, -limit],
          [volts, 0],
        ],
        below: 0,
        above: 0,
      }
    : { type: 'hold', a: 1, b: 0, senseA: 1, senseB: 0, volts, least: -Infinity, greatest: Infinity };
  const fixed: Element[] = [
    source,
    { type: 'resistor', a: 1, b: 2, ohms },
    { type: 'resistor', a: 2, b: 0, ohms: random.between(5, 20) },
    { type: 'resistor', a: 2, b: 3, ohms: random.between(2e-3, 1e-2) },
  ];
  if (alternator) {
    fixed.push({
      type: 'pieces',
      a: 1,
      b: 0,
      points: [[random.between(12.3, 12.6), 0]],
      below: 30,
      above: 8,
    });
  }
  const device = (a: number): Threshold => ({
    a,
    watts: random.between(150, 400),
    start: random.between(13, 13.3),
    stop: random.between(12.6, 12.9),
    startMs: 100 * random.whole(10, 40),
    stopMs: 100 * random.whole(5, 20),
  });
  return { nodeCount: 4, fixed, devices: two ? [device(3), device(2)] : [device(3)], feed: 1 };
}

/** What the event loop says; null when it does not end in a cycle. */
export function huntByEvents(c: TransientCase): Loop | null {
  const elements = (memory: readonly number[]): Element[] => [
    ...c.fixed,
    ...c.devices.map((d, k): Element => ({
      type: 'power',
      a: d.a,
      b: 0,
      watts: memory[k] === 1 ? d.watts : 0,
      knee: KNEE,
      limit: Infinity,
    })),
  ];
  const off = c.devices.map(() => 0);
  const plan = planCircuit(c.nodeCount, 0, elements(off));
  const rules = c.devices.flatMap((d, device): EventRule<Point>[] => [
    { device, from: 0, to: 1, delayMs: d.startMs, holds: (p) => (p.volts[d.a] ?? 0) >= d.start },
    { device, from: 1, to: 0, delayMs: d.stopMs, holds: (p) => (p.volts[d.a] ?? 0) < d.stop },
  ]);
  const outcomes = runEvents({
    initial: off,
    rules,
    solve: (m) => plan.solve(elements(m)),
    lastsMs: 3_600_000,
  });
  const [outcome] = outcomes;
  if (outcomes.length !== 1 || outcome === undefined || outcome.type !== 'cycle') return null;
  const device = outcome.cycleEvents[0]?.device ?? 0;
  return {
    periodS: outcome.periodMs / 1000,
    meanAmps: outcome.mean((p) => p.current(c.feed)),
    device,
    starts: outcome.cycleEvents.filter((e) => e.device === device && e.to === 1).length,
  };
}

/** The fixed part; an ideal source as such. */
function fixedLines(c: TransientCase): string[] {
  return c.fixed.flatMap((e, k) => {
    if (e.type === 'hold') return [`Vs${k} n${e.a} 0 ${e.volts}`];
    return elementLines(0, [e]).map((line) => line.replace(/^(\w)0/, `$1f${k}`));
  });
}

/** 0 below -half, 1 above half of the width, straight between. */
function edge(x: string, width: number): string {
  return `min(max((${x})*${1 / width} + 0.5, 0), 1)`;
}

/**
 * One device: an integrator from 0 to 1 is its running timer (up while off, down while on, at once back to its end when the
 * condition lapses), and a switch with hysteresis on it remembers the state: V(q) = 1 when on.
 */
function latch(d: Threshold, k: number): string[] {
  const v = `V(n${d.a})`;
  const q = `V(q${k})`;
  const x = `V(x${k})`;
  const up = edge(`${v} - ${d.start}`, 2e-4);
  const down = edge(`${d.stop} - ${v}`, 2e-4);
  const off = `${up}*${998 / d.startMs} - (1 - ${up})*500*${x}`;
  const on = `(1 - ${down})*500*(1 - ${x}) - ${down}*${998 / d.stopMs}`;
  return [
    `Cx${k} x${k} 0 1`,
    `Bx${k} 0 x${k} I=(1 - ${q})*(${off}) + ${q}*(${on})`,
    `Sq${k} one q${k} x${k} 0 memory`,
    `Rq${k} q${k} 0 1k`,
    `Bp${k} n${d.a} 0 I=${q}*min(${d.watts}/max(${v}, ${KNEE}), ${d.watts / KNEE ** 2}*${v})`,
  ];
}

/** What ngspice says over whole cycles of one device; the event loop's period only sets the length of the run. */
export async function huntBySpice(spice: Spice, c: TransientCase, loop: Loop): Promise<Hunting | null> {
  const cycles = 8;
  const stop = loop.periodS * (cycles + 3);
  const lines = [
    'hunting',
    ...fixedLines(c),
    ...c.devices.flatMap((d, k) => latch(d, k)),
    // a little capacitance (under a millisecond with these resistances) lets the steps pass the kinks
    'Ca n1 0 5m',
    'Cb n2 0 5m',
    'Cc n3 0 5m',
    'Vone one 0 1',
    '.model memory sw(vt=0.5 vh=0.499 ron=1u roff=1g)',
    ...c.devices.map((_, k) => `.ic V(x${k})=0`),
    '.nodeset V(n1)=13.4 V(n2)=13.4 V(n3)=13.4',
    '.options reltol=1e-6 abstol=1e-9 vntol=1e-7 itl4=200 method=gear',
    `.tran 0.01 ${stop.toFixed(3)} 0 0.01`,
    '.end',
    '',
  ];
  const vectors = await spice.run(lines.join('\n'));
  const time = vectors?.get('time');
  const q = vectors?.get(`v(q${loop.device})`);
  const from = vectors?.get('v(n1)');
  const to = vectors?.get('v(n2)');
  const feed = c.fixed[c.feed];
  if (!time || !q || !from || !to || feed?.type !== 'resistor' || (time.at(-1) ?? 0) < 0.99 * stop)
    return null;
  const rises: number[] = [];
  for (let i = 1; i < time.length; i += 1) if ((q[i - 1] ?? 0) < 0.5 && (q[i] ?? 0) >= 0.5) rises.push(i);
  const turns = Math.floor((rises.length - 2) / loop.starts);
  const first = rises.at(-1 - turns * loop.starts);
  const last = rises.at(-1);
  if (turns < 2 || first === undefined || last === undefined) return null;
  const span = (time[last] ?? 0) - (time[first] ?? 0);
  let charge = 0;
  for (let i = first; i < last; i += 1) {
    const amps = (k: number): number => ((from[k] ?? 0) - (to[k] ?? 0)) / feed.ohms;
    charge += ((amps(i) + amps(i + 1)) / 2) * ((time[i + 1] ?? 0) - (time[i] ?? 0));
  }
  return { periodS: span / turns, meanAmps: charge / span };
}
