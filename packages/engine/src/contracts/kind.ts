import type { Build, Part } from './build.ts';
import type { ElementOf } from './element.ts';
import type { FieldTable } from './field.ts';
import type { CornerId, Id, StateId } from './ids.ts';
import type { SymbolData } from './symbol.ts';
import type { Basis, ValueReader } from './values.ts';

/**
 * What a kind of part is: one file, one registration line. Shared code asks a kind for its declared answers and never
 * which kind it is.
 */
export interface Kind {
  /** The word in the document. */
  readonly name: string;
  /** What it is in plain words, for reports: "dc charger". */
  readonly title: string;
  /** IEC 81346-2 class letter. */
  readonly letter: string;
  /** The kind's own fields; the fields common to all parts are added by the registry. */
  readonly fields: FieldTable;
  /** Terminal names this part has. */
  terminals(read: ValueReader): Terminals;
  /** The system that a part of this kind belongs to when the document does not say (default: house). */
  readonly home?: 'vehicle' | 'house';
  /** Contradictions between a part's own fields, found while reading: the field to point at and one sentence. */
  contradictions?(read: ValueReader): readonly { readonly field: string; readonly message: string }[];
  /** It only leads on, whatever its position: a way through a build does not end at its terminals (batteries in series). */
  readonly leadsOn?: true;
  /** Terminals that are joined to another terminal when no wire is attached: `{ 'enable-': 'in-' }`. */
  readonly unwired?: Readonly<Record<string, string>>;
  /** A part of this kind without any wire sits between the vehicle battery's posts (listed as assumed). */
  readonly atPostsWhenUnwired?: { readonly plus: string; readonly minus: string };
  /** Every vehicle of which this holds has such a part, at the vehicle battery's posts, unless the document has one. */
  implied?(vehicle: VehicleFacts): boolean;
  /** What the part can do, as data that checks and walks read. */
  abilities(read: ValueReader): Ability;
  /**
   * What the part puts into the circuit. The list has the same length, types and nodes whatever the surroundings are;
   * only numbers change with them. Node names: a terminal's name; `.x` an inner node; `^posts+`, `^posts-` the vehicle
   * battery's posts; `^section:NAME` the star point of a body section.
   */
  elements(at: Surroundings): readonly ElementOf<string>[];
  /** What the part remembers; absent: nothing. */
  memory?(at: Surroundings): Memory | null;
  /** How it is drawn; absent: never drawn (a body section). */
  symbol?(read: ValueReader): SymbolData;
  /** A complete small build document that uses it and that reads without a fault. */
  readonly example: string;
}

/** The kinds that documents may use, the fields that every part has, and how a part's values are read while reading. */
export interface Registry {
  readonly kinds: ReadonlyMap<string, Kind>;
  readonly common: FieldTable;
  /** A reader under nominal values, for asking a part its terminals. */
  readerFor(part: Part, build: Pick<Build, 'systems'>): ValueReader;
}

export type Terminals =
  | { readonly type: 'named'; readonly names: readonly string[] }
  /** 1, 2, 3 ... any number. */
  | { readonly type: 'numbered' };

export interface VehicleFacts {
  readonly supply: 'alternator' | 'converter' | 'unknown';
  readonly engine: boolean;
  readonly hasVehicleBattery: boolean;
}

/** What feeds the 12/24 V net of the vehicle in a state. */
export type Supply = 'off' | 'alternator' | 'converter';

/** A state with what it means for the circuit. */
export interface StateFacts {
  readonly id: StateId;
  readonly label: string;
  readonly ignition: boolean;
  readonly supply: Supply;
  /** Alternator speed where the supply is the alternator. */
  readonly speed: 'idle' | 'road' | null;
  readonly recovering: boolean;
  readonly cranking: boolean;
  readonly stored: boolean;
  /** "Engine runs" in the sense of the requirements. */
  readonly running: boolean;
  /** Vehicle's own load, A: survey or default (null: a base-load part decides). */
  readonly ownLoad: Basis;
  /** The survey's load for this state, when given: it wins over a base-load part. */
  readonly surveyedLoad: Basis | null;
  /** Seconds. */
  readonly lasts: Basis;
  /** Whether `lasts` was given by a person. */
  readonly lastsGiven: boolean;
  readonly comesFrom: readonly StateId[];
  /** Surveyed posts voltages and output, when given. */
  readonly posts: { readonly min: Basis | null; readonly typical: Basis | null; readonly max: Basis | null };
  readonly output: Basis | null;
}

export type Charge = 'full' | 'half' | 'low';

export interface CornerFacts {
  readonly id: CornerId;
  readonly source: 'least' | 'typical' | 'greatest';
  readonly air: 'typical' | 'hottest' | 'coldest';
  readonly vehicleBattery: Charge;
  readonly houseBattery: Charge;
  /** Loads at rating (busy) or only those that are always on (quiet). */
  readonly busy: boolean;
  /** Converters are judged by the greatest power they can ask for; the bank counts as held at the set voltage. */
  readonly ratedOutput: boolean;
}

/**
 * How the circuit is looked at: in service; or with a fault laid on (`greatest` current: contacts closed, batteries full
 * at fault resistance, sources on; `least`: batteries alone, half charged, sources off).
 */
export type Mode = 'service' | 'fault-greatest' | 'fault-least';

/** Everything a part may know when it says what it is in the circuit. */
export interface Surroundings {
  readonly read: ValueReader;
  readonly part: Id;
  readonly mode: Mode;
  readonly state: StateFacts;
  readonly corner: CornerFacts;
  /** Shore power present, full sun. */
  readonly shore: boolean;
  readonly sun: boolean;
  /** True: the hand-operated contact of this part is closed (already resolved: normal, hand, stored, opened). */
  readonly closed: boolean;
  /** The part is opened for a what-if (a fuse pulled, a device tripped, a battery disconnected). */
  readonly opened: boolean;
  /** Own memory value. */
  readonly memory: number;
  /** °C of the air at the part's place in this corner. */
  readonly air: number;
  /** Nominal volts of the vehicle net and of the house net. */
  readonly nominal: { readonly vehicle: number; readonly house: number };
  readonly vehicle: VehicleFacts;
  /** Set point of the vehicle's supply at the posts in this condition (window sweeps override it), V. */
  readonly setPoint: Basis | null;
  /** Least set point of this state over its envelope, V (null when the supply is off). */
  readonly leastSetPoint: number | null;
  /** In a window sweep: the rest voltage that the vehicle battery is given, V. */
  readonly vehicleRest: number | null;
  /** In the weak corner: the volts that chargers hold banks at, by system (null: nothing charges any). */
  readonly bankHeldAt: ReadonlyMap<string, number> | null;
  /** The medium of a body section. */
  sectionMedium(section: Id): 'steel' | 'bonded-aluminium' | 'composite' | null;
  /** Supply points in neither list: taken as live here (else as dead). */
  readonly unknownLive: boolean;
  /** Terminals of the part that carry a wire, sorted. */
  readonly wiredTerminals: readonly string[];
  /** True when a wire is attached to this terminal of the part. */
  wired(terminal: string): boolean;
  /** Reads the values of another subject, for a chassis point its section. */
  other(part: Id): ValueReader | null;
}

/** What a part remembers: its possible values, and the rules that change it. */
export interface Memory {
  readonly values: readonly string[];
  /** At the beginning: everything off. */
  readonly start: number;
  readonly rules: readonly MemoryRule[];
  /** Values in which the part counts as on (a charger charging, a relay pulled in). */
  readonly on: readonly number[];
}

export interface MemoryRule {
  readonly from: number;
  readonly to: number;
  readonly delayMs: number;
  /** In words, for the order of events: "input under 12.8 V". */
  readonly says: string;
  readonly when: (see: Probe) => boolean;
}

/** What a rule can see of an operating point. */
export interface Probe {
  /** Volts from terminal `a` to terminal `b` of the own part; 0 when they share no path. */
  volts(a: string, b: string): number;
  /** Amperes through the n-th element of the part. */
  amps(element: number): number;
}

/** Opening times against multiples of the rating. `null` = never within the data. */
export interface TimeCurrentBand {
  /** [multiple of rating, seconds]: the device has surely opened by then. */
  readonly slow: readonly (readonly [multiple: number, seconds: number])[];
  /** [multiple, seconds]: it has surely not opened before; null: no fast edge is known. */
  readonly fast: readonly (readonly [multiple: number, seconds: number])[] | null;
  /** Up to this multiple it never opens. */
  readonly hold: number;
  /** Above the last slow point: `flat` (time stays), or open (no figure). */
  readonly beyond: 'flat' | 'no-figure';
  /** I²t in A²s that rules from 10 x rating up, when stated. */
  readonly clearing: number | null;
  readonly basis: Basis;
}

/** What a part can do. Every member is optional data; a part without any is inert. */
export interface Ability {
  readonly protects?: Protects;
  readonly stores?: Stores;
  readonly generates?: Generates;
  readonly converts?: Converts;
  readonly switches?: Switches;
  readonly consumes?: Consumes;
  readonly measures?: Measures;
  readonly signals?: Signals;
  /** Vehicle battery sensor: what passes from `post` to `chassis` is read. */
  readonly senses?: { readonly post: string; readonly chassis: string };
  /** Pairs of terminals that are one conductor as far as a walk from a source is concerned (busbar, stud, isolator, relay). */
  readonly conducts?: readonly (readonly [string, string])[];
  /** From where to where it lets current pass, the other way none (a diode). */
  readonly oneWay?: readonly [from: string, to: string];
  /** Volts that are lost in it when it conducts that way, V. */
  readonly forward?: Basis | null;
  /** A point on the body: which section its terminal joins. */
  readonly grounds?: { readonly terminal: string; readonly section: Id };
  /** A body section: its medium and the spread resistance of a chassis point on it (null: no connection, or medium unknown). */
  readonly section?: {
    readonly medium: 'steel' | 'bonded-aluminium' | 'composite' | null;
    readonly spread: Basis | null;
  };
  /** A strap between two body sections. */
  readonly bonds?: { readonly from: Id; readonly to: Id };
  /** Joints and contacts whose heat is judged: element index -> label and ohms. */
  readonly joints?: readonly { readonly element: number; readonly label: string; readonly ohms: Basis }[];
  /** Number of lugs a stud or bar may carry. */
  readonly lugLimit?: number;
  /** Wires in the order of their lugs, from the seat outwards, as stated. */
  readonly lugOrder?: readonly Id[];
  /** What the vehicle itself draws in a state, A. */
  readonly vehicleLoad?: (state: StateFacts) => Basis;
  /** Rated current of a part that only carries (bar, shunt, diode), A, when stated. */
  readonly carries?: Basis | null;
  /** DC voltage rating when stated; and the family's figure when not. */
  readonly dcRating?: { readonly stated: Basis | null; readonly family: Basis | null };
  /** Sparks when it works (relay, switch, breaker, motor). */
  readonly sparks?: boolean;
  /** Gives off gas when charging (vented lead). */
  readonly gases?: boolean;
  /** Terminal pairs [plus, minus] that take part in the working voltage of the part, for the voltage rating. */
  readonly across?: readonly (readonly [string, string])[];
  /** Standing current when nothing works, A, and the terminals that it is drawn at. */
  readonly standby?: { readonly amps: Basis; readonly plus: string; readonly minus: string };
  /** Stands before a battery and blocks what would charge it in frost. */
  readonly guards?: Guards;
}

export interface Guards {
  /** Terminal towards the battery; it works only where its negative `reference` is wired. */
  readonly battery: string;
  readonly reference: string;
  /** Blocks charging below this temperature of its own place, °C; null: not stated. */
  readonly chargeBelow: Basis | null;
  /** Opens above and below these voltages of the battery, V; null: not stated. */
  readonly above: Basis | null;
  readonly below: Basis | null;
}

export interface Protects {
  readonly from: string;
  readonly to: string;
  readonly type: 'fuse' | 'breaker';
  readonly rating: Basis | null;
  readonly interrupts: Basis | null;
  readonly curve: TimeCurrentBand | null;
  readonly reset: 'manual' | 'automatic' | null;
  /** Continuous share of the rating at an air temperature (°C). */
  factor(airC: number): Basis;
  readonly family: string;
  /** It interrupts only what flows from `from` to `to`. */
  readonly polarised?: boolean;
}

export interface Stores {
  readonly plus: string;
  readonly minus: string;
  readonly role: 'vehicle' | 'house' | null;
  readonly system: string | null;
  /** Nominal volts of the battery itself: in series with others its share of its system's, V. */
  readonly nominal: number;
  readonly chemistry: string | null;
  readonly capacity: Basis | null;
  readonly chargeLimit: Basis | null;
  readonly chargeLowest: Basis | null;
  /** Charge is blocked or the cells are heated in frost by something stated. */
  readonly guardedInFrost: boolean;
  readonly noStartReserve: Basis | null;
  /** Loss per month as a share. */
  readonly selfDischarge: Basis | null;
  readonly cranking: Basis | null;
  /** Its own protection: charging stops below a temperature (°C), it opens above and below voltages (V); null: not stated. */
  readonly opens?: {
    readonly chargeBelow: Basis | null;
    readonly above: Basis | null;
    readonly below: Basis | null;
  };
  /** Charging voltages that its sheet asks for, V. */
  readonly absorption?: Basis | null;
  readonly float?: Basis | null;
  /** Greatest discharging current that its sheet allows, A. */
  readonly dischargeLimit?: Basis | null;
}

export interface Generates {
  readonly plus: string;
  readonly minus: string;
  /** The vehicle's own supply (alternator, supply converter), or house side (sun, shore). */
  readonly role: 'vehicle-supply' | 'house-source';
  /** Greatest current it can give in a state and corner, A, with its working line; null: no figure. */
  limit(state: StateFacts, corner: CornerFacts): Basis | null;
  /** Envelope of the voltage it holds at the posts in a state, by its own figures; null: it has none or does not feed then. */
  readonly setPoint?: (
    state: StateFacts,
    about: { readonly nominal: number; readonly hottestAir: number; readonly coldestAir: number },
  ) => { readonly least: Basis; readonly typical: Basis; readonly greatest: Basis } | null;
  /** Limit for added loads only, A. */
  readonly addedLimit: Basis | null;
  /** Above the limit: folds back or shuts down. */
  readonly above: 'folds-back' | 'shuts-down' | null;
  readonly selfLimiting: boolean;
}

/** A dc charger or any converter with an input and an output. */
export interface Converts {
  readonly inPlus: string;
  readonly inMinus: string;
  readonly outPlus: string;
  readonly outMinus: string;
  readonly sensePlus: string;
  readonly senseMinus: string;
  readonly enable: {
    readonly plus: string;
    readonly minus: string;
    readonly most: Basis;
    readonly on: Basis;
  } | null;
  readonly mode: 'voltage' | 'signal' | 'signal-and-voltage' | null;
  /** Rated output current, A; null: not known. */
  readonly current: Basis | null;
  /** Highest set voltage, V. */
  readonly setVolts: Basis;
  /** Float voltage when stated, V. */
  readonly floatVolts?: Basis | null;
  readonly efficiency: Basis;
  /** Set voltage x current / efficiency (+ standby), W. */
  readonly greatestPower: Basis | null;
  readonly starts: Basis;
  readonly stops: Basis;
  readonly startDelayMs: number;
  readonly stopDelayMs: number;
  readonly minimum: Basis;
  readonly inputLimit: Basis | null;
  readonly lowInput: 'stops' | 'holds' | 'reduces';
  readonly lowVolts: Basis | null;
  /** Greatest continuous input current, A, with the voltage it is taken at; null without a rated current. */
  readonly greatestInput: Basis | null;
  readonly negative: 'common' | 'isolated' | null;
  /** Current that it can give for good, A: as rated, or as its input limit leaves it; null without a rating. */
  readonly greatestOutput: Basis | null;
  readonly twoWay: boolean;
  readonly inputSystem: string | null;
  readonly outputSystem: string | null;
  /** Greatest continuous input as computed, whatever the maker prints, A. */
  readonly computedInput: Basis | null;
  /** What the maker's manual prints for the input. */
  readonly maker: {
    readonly fuse: Basis | null;
    readonly cable: string | null;
    readonly input: Basis | null;
  };
  /** Memory values that count as charging. */
  readonly charging: readonly number[];
  /** Air temperature from which it gives less, and the share of its output left at an air temperature (°C). */
  readonly derates?: { readonly from: Basis; share(airC: number): number } | null;
  /** Pauses in which it looks at its input unloaded: not hunting. s */
  readonly samples?: { readonly pause: number; readonly every: number } | null;
}

export interface Switches {
  readonly operatedBy: 'owner' | 'workshop' | 'signal';
  /** Pairs that the contact joins when closed. */
  readonly contacts: readonly {
    readonly from: string;
    readonly to: string;
    /** Index of the contact's element in `elements`. */
    readonly element: number;
  }[];
  readonly normal: 'closed' | 'open';
  readonly rating: {
    readonly resistive: Basis | null;
    readonly inductive: Basis | null;
    readonly lamp: Basis | null;
    /** What it carries while cranking, where that is another figure. */
    readonly cranking?: Basis | null;
  };
  readonly leastCurrent: Basis | null;
  readonly storedOpen: boolean;
  /** An isolator (opened alone in the judged set). */
  readonly isolates: boolean;
  /** Coil terminals, when a signal moves it, and whether its coil is suppressed. */
  readonly coil: { readonly plus: string; readonly minus: string; readonly suppressed: boolean } | null;
}

export interface Consumes {
  readonly plus: string;
  /** null: returns through the body section named. */
  readonly minus: string | null;
  readonly section: Id | null;
  readonly class: 'critical' | 'other' | 'none';
  readonly inrush: number;
  readonly inrushSeconds: number;
  readonly character: 'resistive' | 'lamp' | 'inductive';
  readonly schedule: 'always' | 'schedule' | readonly StateId[];
  readonly atLeast: Basis | null;
  /** Rated current at nominal volts, A. */
  readonly amps: Basis | null;
  /** The vehicle's own consumers (base load, starter). */
  readonly ofVehicle: boolean;
}

export interface Measures {
  readonly battery: string;
  readonly system: string;
  readonly element: number;
}

export interface Signals {
  readonly out: string;
  /** State -> live, dead, or in neither list. */
  readonly live: ReadonlyMap<StateId, { readonly forSeconds: number | null }>;
  readonly dead: ReadonlySet<StateId> | 'others';
  readonly measured: boolean;
  readonly limit: Basis | null;
  readonly selfLimiting: boolean;
  readonly upstreamFuse: Basis | null;
  readonly liveBasis: Basis;
}
