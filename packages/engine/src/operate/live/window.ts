/** The volts of the source at which a converter hunts, as things are laid on now, and what becomes of it in other states. */
import type { Id, StateId } from '../../contracts/index.ts';
import type { Envelope } from '../../conditions/index.ts';
import type { CircuitPart } from '../circuit.ts';
import type { Frame } from '../frame.ts';
import type { Run } from '../run.ts';
import { sweep } from '../windows.ts';
import { inputOf, REPEATING } from './forecast.ts';
import type { Ready } from './live.ts';
import type { LiveWindow } from './types.ts';

export interface WindowAsked {
  readonly ready: Ready;
  readonly memory: readonly number[];
  readonly envelope: Envelope | null;
  /** 12 V blocks of the vehicle's net. */
  readonly blocks: number;
  /** The setting with its source held at `volts`. */
  at(volts: number, like: Frame | null): Frame;
  readonly elsewhere: readonly { readonly state: StateId; readonly volts: number }[];
  inState(state: StateId): Ready;
}

/** Where the source does not feed, the battery's rest is swept instead, V for each 12 V. */
const RESTING = [11.5, 12.6, 13] as const;

export function windowOf(asked: WindowAsked, id: Id): LiveWindow | null {
  const { ready, memory, envelope, blocks } = asked;
  const part = ready.machine.circuit.byId.get(id);
  const converts = part?.placed.ability.converts;
  if (part === undefined || part.device < 0 || converts === undefined) return null;
  const [least, typical, greatest] =
    envelope === null
      ? RESTING.map((volts) => volts * blocks)
      : [envelope.least, envelope.typical, envelope.greatest].map((each) => each.sourced.value);
  let like: Frame | null = null;
  const swept = sweep(ready.machine, {
    device: part,
    charging: converts.charging,
    entries: [{ memory, cameFrom: [] }],
    envelope: [least ?? 0, greatest ?? 0],
    typical: typical ?? 0,
    blocks,
    frameAt: (volts) => {
      const frame = asked.at(volts, like);
      like ??= frame;
      return frame;
    },
  });
  return {
    part: id,
    spans: swept.spans,
    envelope: envelope === null ? null : [least ?? 0, greatest ?? 0],
    elsewhere: asked.elsewhere.flatMap(({ state, volts }) => {
      const other = asked.inState(state);
      const run = other.runs(memory)[0];
      return run === undefined ? [] : [{ state, volts, ...becomes(other, run, part) }];
    }),
  };
}

function becomes(
  ready: Ready,
  run: Run,
  part: CircuitPart,
): Omit<LiveWindow['elsewhere'][number], 'state' | 'volts'> {
  const { converts } = part.placed.ability;
  const on = run.outcome.segments.filter(
    (g) => converts?.charging.includes(g.memory[part.device] ?? 0) === true,
  );
  const both = on.length > 0 && on.length < run.outcome.segments.length;
  const cycles = REPEATING.has(run.outcome.type);
  const point = on.at(-1)?.point ?? run.outcome.segments.at(-1)?.point;
  return {
    outcome: cycles && both ? 'cycle' : on.length > 0 ? 'on' : 'off',
    input: point === undefined || converts === undefined ? 0 : inputOf(ready.machine, part, converts, point),
    amps: point === undefined ? 0 : point.current(part.converter),
  };
}
