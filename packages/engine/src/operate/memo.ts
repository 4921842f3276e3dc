/**
 * A memory for `Kind.elements`: a part is asked again only when something that it looked at the last time has another
 * value now. What it looks at is noted while it looks.
 */
import type { ElementOf, Surroundings } from '../contracts/index.ts';

/** Surroundings without what is fixed for a part. */
export type Varying = Pick<
  Surroundings,
  | 'mode'
  | 'state'
  | 'corner'
  | 'shore'
  | 'sun'
  | 'closed'
  | 'opened'
  | 'memory'
  | 'air'
  | 'setPoint'
  | 'leastSetPoint'
  | 'vehicleRest'
  | 'bankHeldAt'
  | 'unknownLive'
>;

export type Fixed = Omit<Surroundings, keyof Varying>;

/** An answer, and what was looked at while it was made. */
export interface Entry<T> {
  readonly looked: ReadonlySet<keyof Varying>;
  readonly made: T;
}

interface Kept<T> {
  readonly fields: readonly (keyof Varying)[];
  readonly saw: readonly unknown[];
  readonly entry: Entry<T>;
}

/** Beyond this many remembered answers the oldest are forgotten. */
const MOST_ENTRIES = 400;

export function remembering<T>(fixed: Fixed, make: (at: Surroundings) => T): (at: Varying) => Entry<T> {
  let kept: Kept<T>[] = [];
  return (at) => {
    for (const k of kept) if (fits(k, at)) return k.entry;
    const looked = new Set<keyof Varying>();
    const entry = { looked, made: make(new Watched(fixed, at, looked)) };
    // A swept voltage never comes back: keeping it would only lengthen the search.
    if (at.vehicleRest !== null && (looked.has('vehicleRest') || looked.has('setPoint'))) return entry;
    const fields = [...looked];
    if (kept.length >= MOST_ENTRIES) kept = kept.slice(MOST_ENTRIES / 2);
    kept.push({ fields, saw: fields.map((f) => at[f]), entry });
    return entry;
  };
}

function fits<T>(kept: Kept<T>, at: Varying): boolean {
  for (let i = 0; i < kept.fields.length; i++) {
    const field = kept.fields[i];
    if (field !== undefined && at[field] !== kept.saw[i]) return false;
  }
  return true;
}

/** Surroundings that note which of their varying fields are looked at. Getters on a class: made thousands of times. */
class Watched implements Surroundings {
  readonly #at: Varying;
  readonly #looked: Set<keyof Varying>;
  readonly read: Surroundings['read'];
  readonly part: Surroundings['part'];
  readonly nominal: Surroundings['nominal'];
  readonly vehicle: Surroundings['vehicle'];
  readonly sectionMedium: Surroundings['sectionMedium'];
  readonly wiredTerminals: Surroundings['wiredTerminals'];
  readonly wired: Surroundings['wired'];
  readonly other: Surroundings['other'];

  constructor(fixed: Fixed, at: Varying, looked: Set<keyof Varying>) {
    this.#at = at;
    this.#looked = looked;
    this.read = fixed.read;
    this.part = fixed.part;
    this.nominal = fixed.nominal;
    this.vehicle = fixed.vehicle;
    this.sectionMedium = fixed.sectionMedium;
    this.wiredTerminals = fixed.wiredTerminals;
    this.wired = fixed.wired;
    this.other = fixed.other;
  }

  #see<K extends keyof Varying>(field: K): Varying[K] {
    this.#looked.add(field);
    return this.#at[field];
  }

  get mode() {
    return this.#see('mode');
  }

  get state() {
    return this.#see('state');
  }

  get corner() {
    return this.#see('corner');
  }

  get shore() {
    return this.#see('shore');
  }

  get sun() {
    return this.#see('sun');
  }

  get closed() {
    return this.#see('closed');
  }

  get opened() {
    return this.#see('opened');
  }

  get memory() {
    return this.#see('memory');
  }

  get air() {
    return this.#see('air');
  }

  get setPoint() {
    return this.#see('setPoint');
  }

  get leastSetPoint() {
    return this.#see('leastSetPoint');
  }

  get vehicleRest() {
    return this.#see('vehicleRest');
  }

  get bankHeldAt() {
    return this.#see('bankHeldAt');
  }

  get unknownLive() {
    return this.#see('unknownLive');
  }
}

export type PartElements = (at: Varying) => Entry<readonly ElementOf<number>[]>;
