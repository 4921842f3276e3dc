/** A build tried out live: turned by hand, followed through time, explained. Same machine and same numbers as its conditions. */
import type { Condition, Id, Memory, Operation } from '../../contracts/index.ts';
import type { Point } from '../../network/index.ts';
import type { Scene } from '../circuit.ts';
import { Frame } from '../frame.ts';
import { insidesOf, type Insides } from '../insides.ts';
import { runScene, type Machine, type Run } from '../run.ts';
import { troubled } from './bench.ts';
import { follow, type Instant } from './follow.ts';
import { forecastOf } from './forecast.ts';
import { readingOf } from './reading.ts';
import type {
  LiveChange,
  LiveCourse,
  LiveEvent,
  LiveForecast,
  LiveMoment,
  LiveReading,
  LiveSetting,
  LiveWindow,
} from './types.ts';
import { windowOf } from './window.ts';

export interface Live {
  /** As the vehicle is left: parked, everything as the build says, nothing laid on. */
  readonly resting: LiveSetting;
  /** Everything off, no delay running. */
  readonly start: LiveMoment;
  /**
   * What happens from a moment on until `untilMs` while the setting stays. Parts that the moment does not know begin at their
   * start; delays of rules that still hold go on.
   *
   * @throws Error for a state that this vehicle does not have
   */
  course(setting: LiveSetting, moment: LiveMoment, untilMs: number): LiveCourse;
  /** What becomes of it in the end; the copper is as warm as it gets on the way. */
  forecast(setting: LiveSetting, moment: LiveMoment): LiveForecast;
  /** What becomes of a converter over the volts at which the source stands. null: the part is no converter with memory. */
  window(setting: LiveSetting, moment: LiveMoment, part: Id): LiveWindow | null;
  /** Volts at which the source stands by itself; null where it does not feed. */
  sourceOf(setting: LiveSetting): number | null;
}

/** After so many events a course is handed over, to be gone on with. */
const MOST_EVENTS = 400;
/** Settings whose frames and warmth are kept. */
const KEPT = 24;

export function makeLive(op: Operation): Live {
  return new LiveBuild(op);
}

/** A setting made ready: its machine, its frame, and how warm the copper gets from a memory on. */
export interface Ready {
  readonly machine: Machine;
  readonly frame: Frame;
  readonly memories: readonly (Memory | null)[];
  runs(memory: readonly number[]): readonly Run[];
}

class LiveBuild implements Live {
  readonly resting: LiveSetting;
  readonly start: LiveMoment = { memory: {}, left: {} };
  readonly #op: Operation;
  readonly #in: Insides;
  readonly #machines = new Map<string, Machine>();
  readonly #ready = new Map<string, Ready>();

  constructor(op: Operation) {
    this.#op = op;
    this.#in = insidesOf(op);
    this.resting = {
      state: 'parked',
      corner: 'typical-quiet',
      hands: op.normalHands,
      opened: [],
      shore: false,
      sun: false,
      source: null,
      troubles: [],
    };
  }

  sourceOf(setting: LiveSetting): number | null {
    return this.#scene(setting).setPoint?.sourced.value ?? null;
  }

  course(setting: LiveSetting, moment: LiveMoment, untilMs: number): LiveCourse {
    const ready = this.#readyFor(setting);
    const { machine, frame } = ready;
    const memory = this.#memoryOf(ready, moment);
    const temperatures = ready.runs(memory)[0]?.temperatures ?? machine.cool(frame.scene);
    const keys = ruleKeys(ready);
    const { instants, untilMs: until } = follow({
      rules: frame.rules,
      solve: (values) => frame.point(values, temperatures),
      memory,
      left: keys.map((key) => moment.left[key] ?? -1),
      untilMs,
      mostEvents: MOST_EVENTS,
    });
    // The same memories read the same: a cycle holds few readings, however long it is followed.
    const readings = new Map<Point, LiveReading>();
    const changes = instants.map((instant): LiveChange => {
      const { point } = instant;
      const reading =
        readings.get(point) ??
        readingOf({ machine, point, memory: instant.memory, memories: ready.memories, temperatures });
      readings.set(point, reading);
      return {
        atMs: instant.atMs,
        moment: momentOf(ready, instant, keys),
        events: eventsOf(ready, instant),
        reading,
      };
    });
    return { changes, untilMs: until };
  }

  forecast(setting: LiveSetting, moment: LiveMoment): LiveForecast {
    const ready = this.#readyFor(setting);
    const run = ready.runs(this.#memoryOf(ready, moment))[0];
    return run === undefined ? NOTHING : forecastOf(ready.machine, run);
  }

  window(setting: LiveSetting, moment: LiveMoment, part: Id): LiveWindow | null {
    const ready = this.#readyFor(setting);
    return windowOf(
      {
        ready,
        memory: this.#memoryOf(ready, moment),
        envelope: this.#in.envelopeOf(setting.state),
        blocks: (this.#op.build.systems['vehicle'] ?? 12) / 12,
        at: (volts, like) => new Frame(ready.machine, this.#scene({ ...setting, source: volts }), like),
        elsewhere: this.#op.states.flatMap((state) => {
          const envelope = state.id === setting.state ? null : this.#in.envelopeOf(state.id);
          return envelope === null ? [] : [{ state: state.id, volts: envelope.typical.sourced.value }];
        }),
        inState: (state) => this.#readyFor({ ...setting, state, source: null }),
      },
      part,
    );
  }

  #readyFor(setting: LiveSetting): Ready {
    const key = JSON.stringify([
      setting.state,
      setting.corner,
      Object.entries(setting.hands).toSorted(([a], [b]) => (a < b ? -1 : 1)),
      setting.opened.toSorted(),
      setting.shore,
      setting.sun,
      setting.source,
      setting.troubles,
    ]);
    const known = this.#ready.get(key);
    if (known !== undefined) return known;
    const machine = this.#machineFor(setting);
    const frame = new Frame(machine, this.#scene(setting));
    const runs = new Map<string, readonly Run[]>();
    const made: Ready = {
      machine,
      frame,
      memories: frame.memories.map((entry) => entry.made),
      runs: (memory) => {
        const of = memory.join();
        const found = runs.get(of) ?? runScene(machine, frame, memory);
        runs.set(of, found);
        return found;
      },
    };
    put(this.#ready, key, made);
    return made;
  }

  #machineFor(setting: LiveSetting): Machine {
    if (setting.troubles.length === 0) return this.#in.machine;
    const key = JSON.stringify(setting.troubles);
    const known = this.#machines.get(key);
    if (known !== undefined) return known;
    const made = troubled(this.#in.machine, setting.troubles, this.#scene(setting));
    put(this.#machines, key, made);
    return made;
  }

  /** As the scene of a condition; a source that is held stands there in every respect, the battery's rest included. */
  #scene(setting: LiveSetting): Scene {
    const { state, corner, hands, shore, sun, source } = setting;
    const condition: Condition = {
      state,
      corner,
      hands: { ...this.#op.normalHands, ...hands },
      shore,
      sun,
      open: null,
      unknownLive: false,
      setPoint: source,
    };
    const scene = this.#in.sceneOf(condition);
    const held = source === null ? {} : { leastSetPoint: null, vehicleRest: source };
    return { ...scene, open: new Set(setting.opened), ...held };
  }

  #memoryOf(ready: Ready, moment: LiveMoment): readonly number[] {
    return ready.machine.circuit.devices.map((device, d) => {
      const memory = ready.memories[d] ?? null;
      const value = moment.memory[device.placed.id] ?? memory?.start ?? 0;
      return memory !== null && value < memory.values.length ? value : (memory?.start ?? 0);
    });
  }
}

const NOTHING: LiveForecast = { outcome: 'none', periodMs: 0, cycling: [], order: [] };

function put<T>(map: Map<string, T>, key: string, value: T): void {
  map.set(key, value);
  const [oldest] = map.keys();
  if (map.size > KEPT && oldest !== undefined) map.delete(oldest);
}

/** Each rule by its part and its place among the part's rules. */
function ruleKeys({ machine, frame }: Ready): readonly string[] {
  const count = new Map<number, number>();
  return frame.rules.map((rule) => {
    const n = count.get(rule.device) ?? 0;
    count.set(rule.device, n + 1);
    return `${machine.circuit.devices[rule.device]?.placed.id ?? ''}#${n}`;
  });
}

function momentOf({ machine }: Ready, { memory, left }: Instant, keys: readonly string[]): LiveMoment {
  return {
    memory: Object.fromEntries(machine.circuit.devices.map((d) => [d.placed.id, memory[d.device] ?? 0])),
    left: Object.fromEntries(keys.flatMap((key, i) => ((left[i] ?? -1) < 0 ? [] : [[key, left[i] ?? 0]]))),
  };
}

function eventsOf({ machine, frame, memories }: Ready, { by }: Instant): readonly LiveEvent[] {
  return by.flatMap((i): readonly LiveEvent[] => {
    const rule = frame.rules[i];
    const device = rule === undefined ? undefined : machine.circuit.devices[rule.device];
    const memory = rule === undefined ? null : (memories[rule.device] ?? null);
    if (rule === undefined || device === undefined) return [];
    const name = (value: number): string => memory?.values[value] ?? String(value);
    const own = frame.rules.slice(0, i).filter((other) => other.device === rule.device).length;
    return [
      {
        part: device.placed.id,
        from: name(rule.from),
        to: name(rule.to),
        says: memory?.rules[own]?.says ?? '',
      },
    ];
  });
}
