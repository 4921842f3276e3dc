/** One scene from one memory: the event loop around operating points, with the copper's temperature settled. */
import type { Memory } from '../contracts/index.ts';
import { runEvents, type Outcome, type Plan, type Point, type Steps } from '../network/index.ts';
import type { Circuit, CircuitContext, Scene } from './circuit.ts';
import type { Desk } from './desk.ts';
import type { Frame } from './frame.ts';

export type { Steps };

export interface Machine {
  readonly ctx: CircuitContext;
  readonly circuit: Circuit;
  readonly plan: Plan;
  readonly steps: Steps;
  readonly desk: Desk;
  /** 'predicted': settled in each run; 'ambient'; or °C. */
  readonly resistanceAt: 'predicted' | 'ambient' | number;
  /** Room for the amperes of each wire: the greatest, those of one outcome, those of one point. */
  readonly amps: Float64Array;
  readonly room: Float64Array;
  readonly one: Float64Array;
  /**
   * Temperature of each wire's copper from its amperes (root mean square), in the scene's air; written over by the next
   * asking.
   */
  heated(amps: Float64Array, scene: Scene): Float64Array;
  /** Copper without current: one array per weather. */
  cool(scene: Scene): Float64Array;
}

export interface Run {
  readonly scene: Scene;
  /** What each device with memory remembers in this scene. */
  readonly memories: readonly (Memory | null)[];
  readonly outcome: Outcome<Point>;
  readonly temperatures: Float64Array;
}

const ROUNDS = 20;
const SETTLED_K = 0.1;
/** A state shorter than this does not heat copper noticeably. */
const SHORT_STATE_S = 60;

/** All outcomes of a scene entered with `initial` memory (one value per device with memory). */
export function runScene(
  m: Machine,
  frame: Frame,
  initial: readonly number[],
  temperatures?: Float64Array,
): readonly Run[] {
  const { scene } = frame;
  const memories = frame.memories.map((entry) => entry.made);
  const settled =
    temperatures === undefined
      ? settle(m, frame, initial)
      : { temperatures, outcomes: eventsAt(frame, initial, temperatures) };
  return settled.outcomes.map((outcome) => ({
    scene,
    memories,
    outcome,
    temperatures: settled.temperatures,
  }));
}

/** Outcomes with the temperature of the copper that belongs to them. */
export interface Settled {
  readonly temperatures: Float64Array;
  readonly outcomes: readonly Outcome<Point>[];
}

const lastsMs = (scene: Scene): number => Math.round(scene.state.lasts.sourced.value * 1000);

function settle(m: Machine, frame: Frame, initial: readonly number[]): Settled {
  const { scene } = frame;
  let temperatures = m.cool(scene);
  let outcomes = eventsAt(frame, initial, temperatures);
  if (m.resistanceAt === 'predicted' && scene.state.lasts.sourced.value >= SHORT_STATE_S) {
    for (let round = 0; round < ROUNDS; round++) {
      const next = m.heated(greatestRms(m, outcomes), scene);
      if (greatestChange(temperatures, next) <= SETTLED_K) break;
      temperatures = next.slice();
      outcomes = eventsAt(frame, initial, temperatures);
    }
  }
  return { temperatures, outcomes };
}

/** Greatest effective current of each wire over the outcomes, A; written over by the next asking. */
function greatestRms(m: Machine, outcomes: readonly Outcome<Point>[]): Float64Array {
  const { amps: most, room } = m;
  const [only] = outcomes;
  if (outcomes.length === 1 && only?.segments.length === 1) {
    only.segments[0]?.point.magnitudes(m.circuit.wireOffset, most);
    return most;
  }
  most.fill(0);
  for (const o of outcomes) {
    effective(m, o, room);
    for (let i = 0; i < most.length; i++) if ((room[i] ?? 0) > (most[i] ?? 0)) most[i] = room[i] ?? 0;
  }
  return most;
}

/** Root of the time-weighted mean square of the current in each wire, A; of a timeless outcome its last. */
function effective(m: Machine, { segments }: Outcome<Point>, into: Float64Array): void {
  const { one } = m;
  const { wireOffset } = m.circuit;
  let time = 0;
  for (const { durationMs } of segments) time += durationMs;
  if (segments.length === 1 || !(time > 0)) {
    segments.at(-1)?.point.magnitudes(wireOffset, into);
    return;
  }
  into.fill(0);
  for (const { point, durationMs } of segments) {
    point.magnitudes(wireOffset, one);
    for (let i = 0; i < into.length; i++) {
      const amps = one[i] ?? 0;
      into[i] = (into[i] ?? 0) + durationMs * (amps * amps);
    }
  }
  for (let i = 0; i < into.length; i++) into[i] = Math.sqrt((into[i] ?? 0) / time);
}

function greatestChange(a: Float64Array, b: Float64Array): number {
  let most = 0;
  for (let i = 0; i < a.length; i++) {
    const change = Math.abs(a[i]! - b[i]!);
    if (change > most) most = change;
  }
  return most;
}

function eventsAt(frame: Frame, initial: readonly number[], temps: Float64Array): readonly Outcome<Point>[] {
  return runEvents<Point>({
    initial,
    rules: frame.rules,
    solve: (memory) => frame.point(memory, temps),
    lastsMs: lastsMs(frame.scene),
  });
}
