import type { Build } from './build.ts';
import type { CornerId, Id, StateId, TerminalRef } from './ids.ts';
import type { Ability, CornerFacts, Kind, StateFacts } from './kind.ts';
import type { Assumption, Basis, ValueReader } from './values.ts';

/** State + hands + corner + sources + at most one device opened. */
export interface Condition {
  readonly state: StateId;
  /** Position of each owner's switch: true = contact closed. */
  readonly hands: Readonly<Record<Id, boolean>>;
  readonly corner: CornerId;
  readonly shore: boolean;
  readonly sun: boolean;
  readonly open: Id | null;
  /** Supply points in neither list: how they are taken here ('live' | 'dead'), when solved both ways. */
  readonly unknownLive: boolean;
  /** Overrides the set point at the posts (windows, nearest settled point), V. */
  readonly setPoint: number | null;
}

/** One solved outcome of a condition: a settled point, or a cycle. */
export interface Solved {
  readonly condition: Condition;
  /** Stable, order-free text id of the condition. */
  readonly id: string;
  /** The chain of states it came through, nearest last: ["parked", "ignition-on", "cranking"]. */
  readonly cameFrom: readonly StateId[];
  readonly outcome: 'settled' | 'running' | 'cycle' | 'irregular' | 'none';
  /** Of an outcome `none`: terminals, and parts with an inner node, where currents do not add up. Otherwise empty. */
  readonly unsettled?: readonly string[];
  /** Memory value by part at the end (settled) or at the beginning of the cycle. */
  readonly memory: ReadonlyMap<Id, number>;
  readonly cycle: Cycle | null;
  /** Events on the way, in order. */
  readonly events: readonly {
    readonly atMs: number;
    readonly part: Id;
    readonly from: string;
    readonly to: string;
    readonly says: string;
  }[];
  /** Volts from a to b: of the point, or the time-weighted mean of a cycle. null: they share no path ("floating"). */
  volts(a: TerminalRef, b: TerminalRef): number | null;
  /**
   * Volts that a meter of `meterOhms` shows with its probes at a and b: solved with the meter in the circuit, so that a point
   * that hangs on nothing, or on a capacitor's bleeder, reads as it will. Over a cycle as `volts`.
   */
  reading(a: TerminalRef, b: TerminalRef, meterOhms: number): number | null;
  /** Least and greatest volts over a cycle (equal when settled). */
  voltsRange(a: TerminalRef, b: TerminalRef): readonly [number, number] | null;
  /** As `wireRms`, of all wires in their order; not to be written to. */
  readonly rmsAmps: Float64Array;
  /** Amperes along a wire from `from` to `to`: mean, and root mean square, greatest magnitude over a cycle. */
  wireAmps(wire: Id): number;
  wireRms(wire: Id): number;
  wireMost(wire: Id): number;
  /** Amperes through the n-th element of a part (see its kind), mean and greatest magnitude. Converters: input current. */
  partAmps(part: Id, element: number): number;
  partMost(part: Id, element: number): number;
  /** Output current of a converter, A (mean). */
  outAmps(part: Id): number;
  /** Net current into the + terminal of a part from its wires, A (mean): > 0 = the part consumes or charges. */
  terminalAmps(part: Id, terminal: string): number;
  /** Regime in words of the part's n-th element ("regulating", "greatest"...). */
  regime(part: Id, element: number): string;
  /** Conductor temperature used, °C. */
  wireTemperature(wire: Id): number;
  wireOhms(wire: Id): number;
  /** Whether the part is on (its memory counts as on) at the end, or ever in the cycle. */
  isOn(part: Id): boolean;
  everOn(part: Id): boolean;
  /** Charging: memory on and output can exceed 0.5 A. */
  charging(part: Id): boolean;
  readonly worstResidual: number;
}

/** Volts between two terminals in many outcomes, in their order; NaN: they share no path. Not to be written to. */
export interface VoltsOver {
  /** As `Solved.volts`. */
  readonly mean: Float64Array;
  /** As `Solved.voltsRange`. */
  readonly least: Float64Array;
  readonly greatest: Float64Array;
}

/** Amperes through one element of a part in many outcomes, in their order. Not to be written to. */
export interface AmpsOver {
  /** As `Solved.partAmps`. */
  readonly mean: Float64Array;
  /** As `Solved.partMost`. */
  readonly most: Float64Array;
}

/** The greatest volts between two terminals over many outcomes. */
export interface MostVolts {
  /** Magnitude, V; 0 where they share no path in any. */
  readonly volts: number;
  /** The first outcome that has it, by its place; -1 for 0 V. */
  readonly place: number;
}

export interface Cycle {
  readonly periodMs: number;
  /** Share of the period in which each part is on. */
  readonly duty: ReadonlyMap<Id, number>;
  readonly order: readonly {
    readonly atMs: number;
    readonly part: Id;
    readonly to: string;
    readonly says: string;
  }[];
}

export type WindowOutcome = 'on' | 'off' | 'cycle' | 'depends';

/** Outcome of one device over the set point at the posts, in one state and switch combination. */
export interface Window {
  readonly part: Id;
  readonly state: StateId;
  readonly hands: Readonly<Record<Id, boolean>>;
  /** Envelope of the set point in this state, V. */
  readonly envelope: readonly [number, number];
  /** Set point of a typical day in this state, V. */
  readonly typical: number;
  readonly spans: readonly { readonly from: number; readonly to: number; readonly outcome: WindowOutcome }[];
  /** A cycle in the middle of the first cycling span, for its period, duty and mean. */
  readonly sample: Solved | null;
}

/** A short circuit laid on a wire. */
export interface ShortCase {
  readonly wire: Id;
  /** Where along the wire, from `from` (0) to `to` (1). */
  readonly along: 0 | 0.5 | 1;
  /** To the body through contact and spread, or to a terminal of its own return. */
  readonly into: { readonly type: 'chassis' } | { readonly type: 'terminal'; readonly terminal: TerminalRef };
  readonly level: 'greatest' | 'least';
  readonly contact: number;
  /** Batteries connected ('all' or these). */
  readonly batteries: 'all' | readonly Id[];
  /** Devices that have opened already. */
  readonly open: readonly Id[];
  /** A device that counts as a bare link: the current that it is asked to break (prospective), not that which it lets through. */
  readonly bridged?: Id;
}

export interface ShortPoint {
  /** Amperes through the short. */
  readonly amps: number;
  /** Magnitude in the two halves of the faulted wire [from side, to side]. */
  readonly halves: readonly [number, number];
  /** Of the short itself, with the spread into the body, Ω. */
  readonly ohms: number;
  /**
   * On which of its straight lines each element stands, as text; null: one follows a curve. Between two shorts at one place
   * that have this in common all currents are straight in the current of the short.
   */
  readonly pieces: string | null;
  wireAmps(wire: Id): number;
  partAmps(part: Id, element: number): number;
}

/** A wire as laid: derived from routes, places, tables. */
export interface LaidWire {
  readonly id: Id;
  readonly from: TerminalRef;
  readonly to: TerminalRef;
  /** m, allowance included where found along routes; null: no way between its places. */
  readonly length: Basis | null;
  readonly lengthFrom: 'typed' | 'routes';
  /** Places along its way, in order. */
  readonly places: readonly Id[];
  /** Segments of its way. */
  readonly segments: readonly Segment[];
  readonly areaMm2: number | null;
  readonly sizeText: string;
  readonly insulation: string;
  readonly insulationAssumed: boolean;
  /** °C rating of the insulation. */
  readonly rating: number;
  /** Copper, ohms at 20 °C, joints not included. */
  readonly ohms20: Basis | null;
  readonly joints: readonly [Basis, Basis];
  readonly copper: boolean;
  readonly sheathed: boolean;
  /** k of the adiabatic limit. */
  readonly k: Basis;
  readonly finalTemperature: number;
  /** Hottest and coldest air along it, °C. */
  readonly hottest: Basis;
  readonly coldest: Basis;
}

export interface Segment {
  readonly route: number | null;
  readonly in: 'free' | 'conduit' | 'loom' | 'bundle' | 'spaced';
  /** m */
  readonly length: number;
  readonly hottest: Basis;
  readonly engineSpace: boolean;
  readonly insulatedWall: number;
}

/** Continuous current a conductor may carry, with everything that made it. */
export interface Ampacity {
  /** A; null: no figure. */
  readonly amps: number | null;
  readonly base: Basis | null;
  readonly airC: number;
  readonly factors: readonly {
    readonly label: string;
    readonly value: number;
    readonly basis: Basis | null;
  }[];
  readonly reason: string | null;
  readonly insulationC: number;
  readonly bundled: number;
}

/** A part with its kind's answers, in the order of the document; implied parts follow. */
export interface Placed {
  readonly id: Id;
  readonly kind: Kind;
  readonly at: Id | null;
  readonly implied: boolean;
  readonly read: ValueReader;
  readonly ability: Ability;
  readonly label: string;
}

/** A build under one assumption, ready to be asked. Everything is solved when asked for and remembered. */
export interface Operation {
  readonly build: Build;
  readonly assumption: Assumption;
  readonly parts: ReadonlyMap<Id, Placed>;
  readonly wires: ReadonlyMap<Id, LaidWire>;
  readonly states: readonly StateFacts[];
  readonly corners: readonly CornerFacts[];
  /** Owner's switches in name order. */
  readonly ownerSwitches: readonly Id[];
  /** All combinations that are judged. */
  readonly handSets: readonly Readonly<Record<Id, boolean>>[];
  /** All hands in their normal position. */
  readonly normalHands: Readonly<Record<Id, boolean>>;
  /** The judged set, in order. */
  readonly judged: readonly Condition[];
  conditionId(c: Condition): string;
  /** All outcomes of a condition (several where it depends on what came before). */
  solve(c: Condition): readonly Solved[];
  condition(
    state: StateId,
    corner: CornerId,
    hands?: Readonly<Record<Id, boolean>>,
    open?: Id | null,
  ): Condition;
  /** Every outcome of every judged condition. */
  all(): readonly Solved[];
  windows(): readonly Window[];
  short(c: ShortCase): ShortPoint;
  /** Ampacity of a wire at its worst segment: with the greatest bundle count over the judged set. One per table tried. */
  ampacity(wire: Id): readonly Ampacity[];
  /** Node identity: two terminals that are one node (no element between). */
  wiresAt(terminal: TerminalRef): readonly Id[];
  /** Volts from a to b in every outcome of `all`, found once for each pair. */
  voltsOver(a: TerminalRef, b: TerminalRef): VoltsOver;
  /** The greatest volts between a and b over `all`, of cycles at any moment. */
  mostVolts(a: TerminalRef, b: TerminalRef): MostVolts;
  /** Amperes through the n-th element of a part in every outcome of `all`. */
  partAmpsOver(part: Id, element: number): AmpsOver;
  stateFacts(id: StateId): StateFacts | null;
  /** Air at a place in a corner, °C. */
  air(place: Id | null, corner: CornerFacts): Basis;
  /** Posts of the vehicle battery, null without one. */
  readonly posts: { readonly plus: TerminalRef; readonly minus: TerminalRef } | null;
  /** A published figure (of a practice or a table) under the present assumption: confirmed where the build confirms it. */
  figure(basis: Basis): Basis;
  /** Every assumed value read so far while solving. */
  assumed(): readonly Basis[];
}
