/**
 * A track: one hand set under one corner, followed through the states along "comes from", starting parked with
 * everything off, until no new (state, memory) appears. Devices with memory enter a state as they left the one before.
 */
import type { StateId } from '../contracts/index.ts';
import type { Frame } from './frame.ts';
import { runScene, type Machine, type Run } from './run.ts';

export interface Entry {
  readonly memory: readonly number[];
  readonly cameFrom: readonly StateId[];
}

export interface Arrived {
  readonly run: Run;
  readonly cameFrom: readonly StateId[];
}

export interface Track {
  /** With which memories each state is entered. */
  readonly entries: ReadonlyMap<StateId, readonly Entry[]>;
  /** Distinct outcomes of each state. */
  readonly arrived: ReadonlyMap<StateId, readonly Arrived[]>;
}

/** A chain of states is remembered no longer than this: enough to tell where a memory came from. */
const LONGEST_CHAIN = 6;

export function followTrack(
  m: Machine,
  frameOf: (state: StateId) => Frame,
  states: readonly { readonly id: StateId; readonly comesFrom: readonly StateId[] }[],
): Track {
  const entries = new Map<StateId, Entry[]>();
  const arrived = new Map<StateId, Arrived[]>();
  const seen = new Set<string>();
  const waiting: { state: StateId; entry: Entry }[] = [];
  const enter = (state: StateId, entry: Entry): void => {
    const key = `${state}|${entry.memory.join(',')}`;
    if (seen.has(key)) return;
    seen.add(key);
    put(entries, state, entry);
    waiting.push({ state, entry });
  };
  const first = states[0];
  if (first === undefined) return { entries, arrived };
  enter(first.id, { memory: startMemory(frameOf(first.id)), cameFrom: [] });
  for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
    const { state, entry } = next;
    for (const run of runScene(m, frameOf(state), entry.memory)) {
      addDistinct(arrived, state, { run, cameFrom: entry.cameFrom });
      const chain = [...entry.cameFrom, state].slice(-LONGEST_CHAIN);
      for (const memory of run.outcome.memories) {
        for (const after of states)
          if (after.comesFrom.includes(state)) enter(after.id, { memory, cameFrom: chain });
      }
    }
  }
  return { entries, arrived };
}

/** Everything off: each device at its start. */
const startMemory = (frame: Frame): readonly number[] =>
  frame.memories.map((entry) => entry.made?.start ?? 0);

/** The outcomes of one scene entered with each of several memories. */
export function runFrom(m: Machine, frame: Frame, entries: readonly Entry[]): readonly Arrived[] {
  const arrived = new Map<StateId, Arrived[]>();
  for (const entry of entries) {
    for (const run of runScene(m, frame, entry.memory))
      addDistinct(arrived, frame.scene.state.id, { run, cameFrom: entry.cameFrom });
  }
  return arrived.get(frame.scene.state.id) ?? [];
}

/** Two runs with the same kind of outcome and the same memories are one: the point follows from the memory. */
function addDistinct(map: Map<StateId, Arrived[]>, state: StateId, one: Arrived): void {
  const list = map.get(state) ?? [];
  const key = signature(one);
  if (list.some((other) => signature(other) === key)) return;
  list.push(one);
  map.set(state, list);
}

function signature({ run }: Arrived): string {
  const { outcome } = run;
  const visited = outcome.segments.map((s) => s.memory.join(',')).toSorted();
  return `${outcome.type}|${outcome.type === 'cycle' ? visited.join(';') : (outcome.memories[0] ?? []).join(',')}`;
}

function put<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  else list.push(value);
}
