/** A build tried out live: what is turned, what is laid on for a look, and what is seen. All of it plain data. */
import type { CornerId, Id, StateId, TerminalRef } from '../../contracts/index.ts';
import type { WindowOutcome } from '../../contracts/index.ts';

/** A trouble laid on for a look; the build itself is not changed by it. */
export type Trouble =
  /** More resistance in the joint at one end of a wire, Ω, >= 0. */
  | { readonly type: 'joint'; readonly wire: Id; readonly end: 'from' | 'to'; readonly ohms: number }
  /** A wire that is broken: no current, its two ends apart. */
  | { readonly type: 'open-wire'; readonly wire: Id }
  /** A contact (switch, relay, isolator, breaker) that does not move any more. */
  | { readonly type: 'stuck'; readonly part: Id; readonly at: 'closed' | 'open' };

/** Everything that does not change by itself while time runs. */
export interface LiveSetting {
  readonly state: StateId;
  /** Weather, source, charge of the batteries and loads, as the six corners pair them. */
  readonly corner: CornerId;
  /** Hand-operated contacts: true = closed. Absent: as the build says. */
  readonly hands: Readonly<Record<Id, boolean>>;
  /** Fuses pulled, breakers and isolators opened. */
  readonly opened: readonly Id[];
  readonly shore: boolean;
  readonly sun: boolean;
  /** Volts at which the source stands at the vehicle battery's posts; null: as the state and the corner have it. */
  readonly source: number | null;
  readonly troubles: readonly Trouble[];
}

/** What devices remember, and how long each running delay still has, ms (by part and rule). */
export interface LiveMoment {
  readonly memory: Readonly<Record<Id, number>>;
  readonly left: Readonly<Record<string, number>>;
}

export interface LiveEvent {
  readonly part: Id;
  readonly from: string;
  readonly to: string;
  /** Why: "input under 12.0 V". */
  readonly says: string;
}

export interface LiveWire {
  /** From `from` to `to`, A. */
  readonly amps: number;
  /** Volts of its copper behind the joint at each end, against the reference of that end's island. */
  readonly from: number;
  readonly to: number;
  /** 2 V or more to the negative of its own battery. */
  readonly liveFrom: boolean;
  readonly liveTo: boolean;
  /** Warmth of its copper, °C. */
  readonly celsius: number;
}

export interface LivePart {
  /** The name of what it remembers: "charging", "pulled in". */
  readonly memory: string | null;
  /** It remembers something that counts as on. */
  readonly on: boolean | null;
  /** Its first contact is closed. */
  readonly closed: boolean | null;
  /** Through its first element, A; of a converter into its input. */
  readonly amps: number;
  /** Out of a converter's output, A. */
  readonly outAmps: number | null;
}

/** What stands everywhere at one moment. */
export interface LiveReading {
  /** Volts of each terminal against the reference of its island. */
  readonly volts: Readonly<Record<TerminalRef, number>>;
  /** Terminals with different numbers share no path. */
  readonly island: Readonly<Record<TerminalRef, number>>;
  readonly wires: Readonly<Record<Id, LiveWire>>;
  readonly parts: Readonly<Record<Id, LivePart>>;
  /** False: no operating point was found, a defect to report. */
  readonly settled: boolean;
}

export interface LiveChange {
  /** Since the course began, ms. */
  readonly atMs: number;
  readonly moment: LiveMoment;
  readonly events: readonly LiveEvent[];
  readonly reading: LiveReading;
}

/** What happens from a moment on while nobody turns anything. Between two changes everything stands still. */
export interface LiveCourse {
  /** The first one is the beginning. */
  readonly changes: readonly LiveChange[];
  /** How far it was followed, ms; Infinity: nothing will change any more. */
  readonly untilMs: number;
}

export interface LiveCycling {
  readonly part: Id;
  /** Share of the period in which it is on. */
  readonly duty: number;
  readonly onMs: number;
  readonly offMs: number;
  /** Mean over the period, A: into its input; out of its output. */
  readonly meanIn: number;
  readonly meanOut: number;
  /** While on. */
  readonly onIn: number;
  readonly onOut: number;
  /** Volts at its input while on, and while off. */
  readonly inputOn: number;
  readonly inputOff: number;
  /** Thresholds, V. */
  readonly starts: number;
  readonly stops: number;
}

/** What becomes of it in the end. */
export interface LiveForecast {
  readonly outcome: 'settled' | 'running' | 'cycle' | 'irregular' | 'none';
  readonly periodMs: number;
  /** Converters that go on and off for ever. */
  readonly cycling: readonly LiveCycling[];
  readonly order: readonly {
    readonly atMs: number;
    readonly part: Id;
    readonly to: string;
    readonly says: string;
  }[];
}

export interface LiveSpan {
  readonly from: number;
  readonly to: number;
  readonly outcome: WindowOutcome;
}

/** What becomes of a converter over the volts at which the source stands. */
export interface LiveWindow {
  readonly part: Id;
  readonly spans: readonly LiveSpan[];
  /** Where the source may stand in this state by the survey, V; null: it does not feed then. */
  readonly envelope: readonly [number, number] | null;
  /** Its usual volts in each feeding state, and what becomes of the converter there. */
  readonly elsewhere: readonly {
    readonly state: StateId;
    readonly volts: number;
    readonly outcome: WindowOutcome;
    readonly input: number;
    readonly amps: number;
  }[];
}
