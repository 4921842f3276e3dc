/** What a drawing shows: a build in its own words, numbered, sized and placed; plain data, no circuit and no picture. */
import type { Id, SymbolData } from '../contracts/index.ts';

export type WireView = 'power' | 'control' | 'negative';
/** One of the three, or all wires in one picture. */
export type View = WireView | 'all';

export interface Subject {
  readonly title: string;
  readonly revision: string;
  readonly practice: string;
  /** Most sizes are written as gauges. */
  readonly imperialSizes: boolean;
  /** Metres from nose to tail when given. */
  readonly vehicleLength: number | null;
  /** Nose to tail. */
  readonly places: readonly SubjectPlace[];
  readonly routes: readonly SubjectRoute[];
  /** By id; parts that are drawn: those with terminals. */
  readonly parts: ReadonlyMap<Id, SubjectPart>;
  /** By id. */
  readonly wires: ReadonlyMap<Id, SubjectWire>;
}

export interface SubjectPlace {
  readonly id: Id;
  readonly label: string;
  /** Metres from the nose; pulled apart evenly between known ones where it is not given. */
  readonly station: number | null;
  readonly level: 'roof' | 'upper' | 'floor' | 'under floor';
  /** The station was given. */
  readonly known: boolean;
  /** The level was given; else it is taken as the floor. */
  readonly levelKnown: boolean;
  readonly engineSpace: boolean;
}

export interface SubjectRoute {
  readonly from: Id;
  readonly to: Id;
  /** `conduit 2.1 m`. */
  readonly text: string;
}

export interface SubjectPart {
  readonly id: Id;
  /** `F1`. */
  readonly designation: string;
  /** What people call it. */
  readonly name: string;
  /** Sentence of what it is, for those who hear the drawing. */
  readonly title: string;
  readonly place: Id;
  readonly symbol: SymbolData;
  /** Lines under the name: what no wire shows. */
  readonly notes: readonly string[];
  /** Terminals with a wire, in whatever view. */
  readonly wired: ReadonlySet<string>;
  /** Digits that designations of its letter may take, for the room they are given. */
  readonly digits: number;
}

export interface SubjectEnd {
  readonly part: Id;
  readonly terminal: string;
}

export interface SubjectWire {
  readonly id: Id;
  /** `W12`. */
  readonly number: string;
  readonly from: SubjectEnd;
  readonly to: SubjectEnd;
  readonly view: WireView;
  /** `25`, `4 AWG`, `auto`; a question mark when nobody knows. */
  readonly size: string;
  /** IEC 60757 letters, or as typed; empty: not given. */
  readonly colour: string;
  /** `4.6 m`; empty: not known. */
  readonly length: string;
  /** `60 A`: what protective devices let into it for good; `no fuse`; empty: its own device stands at its end. */
  readonly rating: string;
  readonly areaMm2: number | null;
  /** No wire in the build: the part sits at the vehicle battery's posts. */
  readonly assumed: boolean;
  /** Steps from the sources along the conductors at each end: current inside a place is drawn from less to more. */
  readonly depth: { readonly from: number; readonly to: number };
  readonly digits: number;
}

/** A part without a place stands here. */
export const NO_PLACE: Id = '';
