/** What short circuits of an operation are solved in: the scenes of the greatest and of the least fault current. */
import type { Condition, CornerId, Operation, StateFacts } from '../contracts/index.ts';
import { makeCondition, type Hands } from '../conditions/index.ts';
import type { Scene } from './circuit.ts';
import { sectionsNear } from './nearest-section.ts';
import { faultPlansOf } from './plans.ts';
import type { Machine } from './run.ts';
import type { ShortContext } from './short.ts';

/** @throws Error for a vehicle that can never be parked */
export function shortContextOf(
  op: Pick<Operation, 'build' | 'parts' | 'states' | 'ownerSwitches'>,
  machine: Machine,
  sceneOf: (c: Condition) => Scene,
): ShortContext {
  const running = op.states.find((s) => s.id === 'driving') ?? op.states.find((s) => s.id === 'ready');
  const resting = op.states.find((s) => s.id === 'parked');
  const base = running ?? resting;
  if (base === undefined || resting === undefined) throw new Error('every vehicle can be parked');
  const allClosed: Hands = Object.fromEntries(op.ownerSwitches.map((id) => [id, true]));
  const faulted = (state: StateFacts, mode: Scene['mode'], corner: CornerId): Scene => ({
    ...sceneOf(makeCondition(state.id, corner, allClosed)),
    mode,
  });
  return {
    machine,
    scenes: {
      greatest: faulted(base, 'fault-greatest', 'strong'),
      least: faulted(resting, 'fault-least', 'typical-quiet'),
    },
    batteries: [...op.parts.values()].filter((p) => p.ability.stores !== undefined).map((p) => p.id),
    nearestSection: sectionsNear(op.build, op.parts, (node) => machine.circuit.nodes.find(node)),
    plans: faultPlansOf(machine.plan),
    sections: new Map(),
    sound: new Map(),
    closed: new Map(),
  };
}
