/**
 * Conditions between the corners: any set point within a state's envelope, any air between coldest and hottest, any mix of
 * charges and loads. They judge nothing; they are how it is shown that no condition is worse than the judged ones.
 */
import type { CornerFacts, Id, Operation, Solved, StateId } from '../contracts/index.ts';
import { conditionId, makeCondition, type Hands } from '../conditions/index.ts';
import type { CircuitContext, Scene } from './circuit.ts';
import { Desk } from './desk.ts';
import { Frame } from './frame.ts';
import { insidesOf, type Insides } from './insides.ts';
import type { Machine } from './run.ts';
import { SolvedRun } from './solved.ts';
import { followTrack } from './tracks.ts';

/** A corner that is none of the named ones. */
export interface FreeCorner {
  /** Set point of each state within its envelope: 0 = least, 1 = greatest. */
  readonly source: number;
  /** Air of each place: 0 = its coldest, 1 = its hottest. At 1 sources give what they give when hottest. */
  readonly air: number;
  readonly vehicleBattery: CornerFacts['vehicleBattery'];
  readonly houseBattery: CornerFacts['houseBattery'];
  readonly busy: boolean;
  readonly ratedOutput: boolean;
  /** Sun on panels; shore power is never added. */
  readonly sun: boolean;
  /** Supply points in neither list taken as live. */
  readonly unknownLive: boolean;
}

/**
 * Every outcome of every state under a free corner with these hands, each state entered as the one before left it.
 *
 * @throws Error for an operation that was not made in this room
 */
export function solveFree(
  op: Operation,
  hands: Hands,
  corner: FreeCorner,
): ReadonlyMap<StateId, readonly Solved[]> {
  const insides = insidesOf(op);
  const facts: CornerFacts = {
    id: 'typical-quiet',
    source: 'typical',
    air: corner.air >= 1 ? 'hottest' : 'typical',
    vehicleBattery: corner.vehicleBattery,
    houseBattery: corner.houseBattery,
    busy: corner.busy,
    ratedOutput: corner.ratedOutput,
  };
  const machine = inAir(insides.machine, corner.air);
  const conditionOf = (state: StateId) => ({
    ...makeCondition(state, facts.id, hands),
    sun: corner.sun,
    unknownLive: corner.unknownLive,
  });
  let like: Frame | null = null;
  const frames = new Map<StateId, Frame>();
  const frameOf = (state: StateId): Frame => {
    const known = frames.get(state);
    if (known !== undefined) return known;
    const scene = sceneOf(insides, state, { ...insides.sceneOf(conditionOf(state)), corner: facts }, corner);
    const frame = new Frame(machine, scene, like);
    like ??= frame;
    frames.set(state, frame);
    return frame;
  };
  const track = followTrack(machine, frameOf, op.states);
  const solved = new Map<StateId, readonly Solved[]>();
  for (const [state, arrived] of track.arrived) {
    const condition = {
      ...conditionOf(state),
      setPoint: frameOf(state).scene.setPoint?.sourced.value ?? null,
    };
    const id = `${conditionId(condition)}/free`;
    solved.set(
      state,
      arrived.map((a) => new SolvedRun(machine, a.run, condition, id, a.cameFrom)),
    );
  }
  return solved;
}

function sceneOf(insides: Insides, state: StateId, scene: Scene, corner: FreeCorner): Scene {
  const envelope = insides.envelopeOf(state);
  const { setPoint } = scene;
  if (envelope === null || setPoint === null) return scene;
  const value = between(envelope.least.sourced.value, envelope.greatest.sourced.value, corner.source);
  return { ...scene, setPoint: { ...setPoint, sourced: { ...setPoint.sourced, value } } };
}

/**
 * The same machine in air between coldest and hottest. A conductor's rise over its air is the same in any air (its ampacity
 * falls as the root of what is left to its rating), so its temperature lies between those two as the air does.
 */
function inAir(m: Machine, share: number): Machine {
  const cooled = new Map<Id | null, number>();
  const coldest: CornerFacts = { ...m.ctx.sample.corner, air: 'coldest' };
  const hottest: CornerFacts = { ...m.ctx.sample.corner, air: 'hottest' };
  const ctx: CircuitContext = {
    ...m.ctx,
    air: (place) => {
      const known = cooled.get(place);
      if (known !== undefined) return known;
      const air = between(m.ctx.air(place, coldest), m.ctx.air(place, hottest), share);
      cooled.set(place, air);
      return air;
    },
  };
  const mixed = (at: (scene: Scene) => Float64Array, scene: Scene): Float64Array => {
    // The second asking writes over the answer of the first.
    const low = at({ ...scene, corner: { ...scene.corner, air: 'coldest' } }).slice();
    const high = at({ ...scene, corner: { ...scene.corner, air: 'hottest' } });
    return low.map((celsius, i) => between(celsius, high[i] ?? celsius, share));
  };
  let cool: Float64Array | null = null;
  return {
    ...m,
    ctx,
    desk: new Desk(m.circuit),
    cool: (scene) => (cool ??= mixed((at) => m.cool(at), scene)),
    heated: (amps, scene) => mixed((at) => m.heated(amps, at), scene),
  };
}

const between = (low: number, high: number, share: number): number => low + (high - low) * share;
