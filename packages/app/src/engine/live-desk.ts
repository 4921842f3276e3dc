/** What trying a build out asks of the engine. Settings and moments go to and fro as plain data; nothing is remembered there. */
import {
  CORNER_IDS,
  cornerWords,
  handChoices,
  type CornerId,
  type HandChoice,
  type Id,
  type LiveCourse,
  type LiveForecast,
  type LiveMoment,
  type LiveReading,
  type LiveSetting,
  type LiveWindow,
  type Operation,
  type Placed,
  type StateId,
} from '@loomwright/engine';
import { sized } from './sized.ts';
import type { Sessions } from './sessions.ts';

/** A build to be tried: its text, and the size found for its `auto` wires. */
export interface Tried {
  readonly text: string;
  readonly auto: string | null;
}

/** A contact that a hand can move: a switch, an isolator, a breaker; or a fuse, which can be pulled. */
export interface HandContact {
  readonly part: Id;
  readonly name: string;
  readonly designation: string;
  readonly type: 'switch' | 'isolator' | 'breaker' | 'fuse';
  /** By the owner; else by the workshop. */
  readonly owner: boolean;
  readonly closed: boolean;
  /** Open while the vehicle is put away. */
  readonly storedOpen: boolean;
}

/** What can be turned, tried and read at a vehicle. */
export interface LiveVehicle {
  readonly states: readonly {
    readonly id: StateId;
    readonly label: string;
    readonly source: number | null;
  }[];
  readonly hands: readonly HandChoice[];
  readonly contacts: readonly HandContact[];
  /** Parts with a contact that may stick. */
  readonly sticking: readonly { readonly part: Id; readonly name: string; readonly designation: string }[];
  readonly corners: readonly { readonly id: CornerId; readonly words: string }[];
  readonly resting: LiveSetting;
  readonly start: LiveMoment;
  /** Vehicle battery's posts; house batteries; converters: what there is to watch. */
  readonly posts: { readonly plus: string; readonly minus: string } | null;
  readonly batteries: readonly {
    readonly part: Id;
    readonly name: string;
    readonly house: boolean;
    readonly plus: string;
    readonly minus: string;
  }[];
  readonly converters: readonly {
    readonly part: Id;
    readonly name: string;
    readonly inPlus: string;
    readonly inMinus: string;
    readonly starts: number;
    readonly stops: number;
  }[];
  readonly nominal: number;
}

/** One way a state comes out, for the drawing that only looks. */
export interface StateLook {
  readonly cameFrom: readonly StateId[];
  readonly reading: LiveReading;
  readonly forecast: LiveForecast;
}

export function liveDesk(sessions: Sessions) {
  const of = (build: Tried) => sized(sessions, build.text, build.auto);
  const live = (build: Tried) => of(build).live();
  return {
    liveVehicle(build: Tried): LiveVehicle {
      const session = of(build);
      const own = session.live();
      return vehicleOf(session.operation(), session.subject(), own.resting, own.start, (state) =>
        own.sourceOf({ ...own.resting, state }),
      );
    },

    course: (build: Tried, setting: LiveSetting, moment: LiveMoment, untilMs: number): LiveCourse =>
      live(build).course(setting, moment, untilMs),

    forecast: (build: Tried, setting: LiveSetting, moment: LiveMoment): LiveForecast =>
      live(build).forecast(setting, moment),

    liveWindow: (build: Tried, setting: LiveSetting, moment: LiveMoment, part: Id): LiveWindow | null =>
      live(build).window(setting, moment, part),

    sourceOf: (build: Tried, setting: LiveSetting): number | null => live(build).sourceOf(setting),

    /** How a state comes out with all hands as the build has them: once for each way it can be come by. */
    look(build: Tried, state: StateId): readonly StateLook[] {
      const session = of(build);
      const own = session.live();
      const operation = session.operation();
      if (operation.stateFacts(state) === null) return [];
      const setting = { ...own.resting, state };
      return operation.solve(operation.condition(state, setting.corner)).map(({ memory, cameFrom }) => {
        const moment = { memory: Object.fromEntries(memory), left: {} };
        const { changes } = own.course(setting, moment, 0);
        const [first] = changes;
        if (first === undefined) throw new Error('a course has a beginning');
        return { cameFrom, reading: first.reading, forecast: own.forecast(setting, moment) };
      });
    },
  };
}

function vehicleOf(
  op: Operation,
  subject: { readonly parts: ReadonlyMap<Id, { readonly designation: string; readonly name: string }> },
  resting: LiveSetting,
  start: LiveMoment,
  sourceOf: (state: StateId) => number | null,
): LiveVehicle {
  const parts = [...op.parts.values()].filter((part) => !part.implied);
  const named = (id: Id) => ({
    name: subject.parts.get(id)?.name ?? id,
    designation: subject.parts.get(id)?.designation ?? '',
  });
  return {
    states: op.states.map(({ id, label }) => ({ id, label, source: sourceOf(id) })),
    hands: handChoices(new Set(op.states.map((state) => state.id))),
    contacts: parts.flatMap((part): readonly HandContact[] => {
      const contact = contactOf(part);
      return contact === null ? [] : [{ part: part.id, ...named(part.id), ...contact }];
    }),
    sticking: parts
      .filter((part) => part.ability.switches !== undefined || part.ability.protects?.type === 'breaker')
      .map((part) => ({ part: part.id, ...named(part.id) })),
    corners: CORNER_IDS.filter((id) => id !== 'every-source').map((id) => ({ id, words: cornerWords(id) })),
    resting,
    start,
    posts: op.posts,
    batteries: parts.flatMap((part) => {
      const { stores } = part.ability;
      if (stores === undefined) return [];
      const ends = { plus: `${part.id}.${stores.plus}`, minus: `${part.id}.${stores.minus}` };
      return [{ part: part.id, name: named(part.id).name, house: stores.role !== 'vehicle', ...ends }];
    }),
    converters: parts.flatMap((part) => {
      const { converts } = part.ability;
      if (converts === undefined) return [];
      return [
        {
          part: part.id,
          name: named(part.id).name,
          inPlus: `${part.id}.${converts.inPlus}`,
          inMinus: `${part.id}.${converts.inMinus}`,
          starts: converts.starts.sourced.value,
          stops: converts.stops.sourced.value,
        },
      ];
    }),
    nominal: op.build.systems['vehicle'] ?? 12,
  };
}

function contactOf(part: Placed): Pick<HandContact, 'type' | 'owner' | 'closed' | 'storedOpen'> | null {
  const { switches, protects } = part.ability;
  if (switches !== undefined && switches.operatedBy !== 'signal')
    return {
      type: switches.isolates ? 'isolator' : 'switch',
      owner: switches.operatedBy === 'owner',
      closed: switches.normal !== 'open',
      storedOpen: switches.storedOpen,
    };
  if (protects === undefined) return null;
  const reach = part.read.raw('reach');
  const owner = typeof reach === 'object' && reach !== null && 'who' in reach && reach.who === 'owner';
  return { type: protects.type, owner, closed: true, storedOpen: false };
}
