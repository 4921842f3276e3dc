import type { Size } from '../quantity/size.ts';
import type { InsulationName } from '../reference/insulation.ts';
import type { Id, PracticeId, StateId, TerminalRef } from './ids.ts';
import type { Given, Stated } from './values.ts';

/** One vehicle's system as given: frozen, structurally shared, never written to by a computation. */
export interface Build {
  readonly format: 1;
  readonly title: string;
  readonly revision?: string;
  readonly practice?: PracticeId;
  /** Nominal volts by system name. */
  readonly systems: Readonly<Record<string, number>>;
  readonly vehicle: Vehicle;
  readonly units: 'metric' | 'imperial';
  readonly climate: { readonly coldest?: Given; readonly hottest?: Given };
  readonly settings: Settings;
  readonly survey: ReadonlyMap<StateId, SurveyedState>;
  readonly places: ReadonlyMap<Id, Place>;
  readonly routes: readonly Route[];
  readonly parts: ReadonlyMap<Id, Part>;
  readonly wires: ReadonlyMap<Id, Wire>;
  readonly requires: readonly Requirement[];
  readonly aside: readonly SetAside[];
  readonly measured: readonly Measured[];
  readonly confirmed: readonly Confirmed[];
  readonly stock: Stock;
  readonly notes?: string;
}

export interface Vehicle {
  readonly supply?: 'alternator' | 'converter' | 'unknown';
  readonly engine?: boolean;
  readonly variableVoltage?: boolean | 'unknown';
  readonly automaticStop?: boolean | 'unknown';
  readonly plugIn?: boolean;
  /** metres */
  readonly length?: Given;
}

export interface Settings {
  /** Copper temperature used for resistance: predicted per condition, the air's, or fixed (°C). */
  readonly resistanceAt: 'predicted' | 'ambient' | number;
  /** Contact resistance of a fault, ohms; null = not given (default 5 mΩ). */
  readonly faultContact: Given | null;
  /** Meter's input resistance, ohms; null = not given (default 10 MΩ). */
  readonly meter: Given | null;
  /** Extra length per wire end found along routes, metres; null = not given (default 0.15 m). */
  readonly allowance: Given | null;
}

export interface SurveyedState {
  /** Volts at the vehicle battery's posts. */
  readonly posts?: { readonly min?: Given; readonly typical?: Given; readonly max?: Given };
  /** Greatest supply current in this state, A. */
  readonly output?: Given;
  /** Vehicle's own load, A. */
  readonly load?: Given;
  /** How long the state lasts, s. */
  readonly lasts?: Given;
  readonly by?: string;
  readonly date?: string;
}

export interface Place {
  readonly id: Id;
  readonly label?: string;
  /** metres from the nose */
  readonly station?: Given;
  readonly level?: 'roof' | 'upper' | 'floor' | 'under floor';
  /** °C */
  readonly hottest?: Given;
  readonly coldest?: Given;
  readonly engineSpace: boolean;
  readonly enclosed: boolean;
  readonly wet: boolean;
  readonly gasOrFuel: boolean;
  readonly living: boolean;
  readonly crashZone: boolean;
}

export interface Route {
  readonly from: Id;
  readonly to: Id;
  /** metres */
  readonly length?: Given;
  readonly in: 'free' | 'conduit' | 'loom' | 'bundle' | 'spaced';
  /** metres of it that lie in wall insulation */
  readonly insulatedWall?: Given;
}

/** A part with its fields as the document room made them (see the kind's field table); not `kind` and `at`. */
export interface Part {
  readonly id: Id;
  readonly kind: string;
  readonly at?: Id;
  readonly fields: Readonly<Record<string, unknown>>;
}

export type Insulation = InsulationName;

export interface Wire {
  readonly id: Id;
  readonly from: TerminalRef;
  readonly to: TerminalRef;
  readonly size?: Size | 'auto' | 'unknown';
  /** metres; absent: found along the routes */
  readonly length?: Given;
  readonly via?: readonly Id[];
  readonly insulation?: Insulation | 'unknown';
  readonly material: 'copper' | 'cca';
  /** Absent: by the way the size is written. */
  readonly strand?: 'iec-5' | 'iso-6722' | 'awg' | 'sae';
  readonly sheathed: boolean;
  readonly colour?: string;
  /** Resistance of the joint at each end, ohms. */
  readonly joints?: { readonly from?: Given; readonly to?: Given };
  /** The wire that is its own return. */
  readonly returnWire?: Id;
  readonly torque?: Given;
  readonly number?: string;
}

export const REQUIREMENTS = [
  'charges only while the engine runs',
  'the owner can stop charging',
  'a tripped breaker leaves nothing live beyond it',
] as const;
export type Requirement = (typeof REQUIREMENTS)[number];

export interface SetAside {
  readonly finding: string;
  readonly reason: string;
  readonly by?: string;
  readonly date?: string;
}

/** A resistance measured between two terminals; it replaces the computed path. */
export interface Measured {
  readonly from: TerminalRef;
  readonly to: TerminalRef;
  readonly resistance: Stated;
  readonly by?: string;
  readonly date?: string;
}

/** A table or figure that a named person vouches for. `table` is the path of the basis, e.g. `table:ampacity/iso-13297`. */
export interface Confirmed {
  readonly table: string;
  readonly edition?: string;
  readonly by?: string;
  readonly date?: string;
}

export interface Stock {
  readonly sizes: readonly Size[];
  readonly fuses: readonly string[];
  readonly lugs: readonly string[];
}

/** A change to a build; `apply` in the document room makes the next build and the inverse. Path parts are keys or indexes. */
export type Path = readonly (string | number)[];
export type Change =
  | { readonly set: Path; readonly to: unknown }
  | { readonly remove: Path }
  | { readonly add: Path; readonly value: unknown };
