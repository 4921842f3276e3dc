/** The windows of all chargers, in every state with a running supply and with every combination of the owner's switches. */
import type { Condition, StateFacts, StateId, Window } from '../contracts/index.ts';
import { conditionId, makeCondition, type Envelope, type Hands } from '../conditions/index.ts';
import type { CircuitPart, Scene } from './circuit.ts';
import { Frame } from './frame.ts';
import type { InSteps } from './in-steps.ts';
import type { Machine } from './run.ts';
import { SolvedRun } from './solved.ts';
import type { Entry } from './tracks.ts';
import { sweep, type Hints } from './windows.ts';

/** What sweeps need to know of an operation. */
export interface SweepContext {
  readonly states: readonly StateFacts[];
  readonly handSets: readonly Hands[];
  /** 12 V blocks of the vehicle's net. */
  readonly blocks: number;
  envelopeOf(state: StateId): Envelope | null;
  /** Memories with which a condition's state is entered. */
  entriesOf(c: Condition): readonly Entry[];
  sceneOf(c: Condition): Scene;
  /** Any frame of the machine. */
  like(): Frame | null;
}

/** In steps of one window. */
export function* sweepInSteps(m: Machine, s: SweepContext): InSteps<readonly Window[]> {
  const list: Window[] = [];
  const chargers = m.circuit.devices.filter((d) => d.placed.ability.converts !== undefined);
  // What changed in one state tells where to look first in the next.
  const hints = new Map<CircuitPart, Hints>(chargers.map((d) => [d, new Map()]));
  for (const state of s.states) {
    const envelope = s.envelopeOf(state.id);
    if (envelope === null) continue;
    for (const hands of s.handSets)
      for (const d of chargers) {
        list.push(sweepOne(m, s, { state, hands, envelope }, d, hints.get(d)));
        yield;
      }
  }
  return list;
}

interface Place {
  readonly state: StateFacts;
  readonly hands: Hands;
  readonly envelope: Envelope;
}

function sweepOne(
  m: Machine,
  s: SweepContext,
  { state, hands, envelope }: Place,
  device: CircuitPart,
  hints: Hints | undefined,
): Window {
  const c = makeCondition(state.id, 'weak', hands);
  const limits = [envelope.least.sourced.value, envelope.greatest.sourced.value] as const;
  let like: Frame | null = null;
  const frameAt = (volts: number): Frame => {
    const scene = { ...s.sceneOf({ ...c, setPoint: volts }), leastSetPoint: null, vehicleRest: volts };
    const frame = new Frame(m, scene, like ?? s.like());
    like ??= frame;
    return frame;
  };
  const swept = sweep(
    m,
    {
      device,
      charging: device.placed.ability.converts?.charging ?? [],
      entries: s.entriesOf(c),
      envelope: limits,
      typical: envelope.typical.sourced.value,
      blocks: s.blocks,
      frameAt,
    },
    hints,
  );
  const at = { ...c, setPoint: swept.sample?.scene.setPoint?.sourced.value ?? null };
  return {
    part: device.placed.id,
    state: state.id,
    hands,
    envelope: limits,
    typical: envelope.typical.sourced.value,
    spans: swept.spans,
    sample: swept.sample === null ? null : new SolvedRun(m, swept.sample, at, conditionId(at), []),
  };
}
