/**
 * A memory for what a part answers: it is asked again only when something that it looked at before has another value now.
 * What it looks at is noted while it looks.
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

/** One bit for each thing that varies, so that a set of them is a number. */
export const BIT: Readonly<Record<keyof Varying, number>> = {
  mode: 1 << 0,
  state: 1 << 1,
  corner: 1 << 2,
  shore: 1 << 3,
  sun: 1 << 4,
  closed: 1 << 5,
  opened: 1 << 6,
  memory: 1 << 7,
  air: 1 << 8,
  setPoint: 1 << 9,
  leastSetPoint: 1 << 10,
  vehicleRest: 1 << 11,
  bankHeldAt: 1 << 12,
  unknownLive: 1 << 13,
};

/** An answer, and the bits of what was looked at while it was made. */
export interface Entry<T> {
  readonly looked: number;
  readonly made: T;
  /** Answers of one number are equal. */
  readonly number: number;
}

let numbers = 0;

/** An answer that equals no other one. */
export const entryOf = <T>(looked: number, made: T): Entry<T> => ({ looked, made, number: numbers++ });

/**
 * Answers by what was looked at: a part whose looks so far saw the same values looks at the same thing next, so the answers
 * hang on a tree of questions.
 */
interface Question<T> {
  readonly field: keyof Varying;
  readonly answers: Map<unknown, Question<T> | Entry<T>>;
}

/** A swept voltage never comes back: remembering it would only fill the memory. */
const SWEPT = BIT.vehicleRest | BIT.setPoint;

/** `keyOf`: what equal answers have in common; they get the same number. */
export function remembering<T>(
  fixed: Fixed,
  make: (at: Surroundings) => T,
  keyOf?: (made: T) => string,
): (at: Varying) => Entry<T> {
  let root: Question<T> | Entry<T> | null = null;
  const byKey = new Map<string, number>();
  return (at) => {
    let node: Question<T> | Entry<T> | undefined = root ?? undefined;
    while (node !== undefined && 'field' in node) node = node.answers.get(at[node.field]);
    if (node !== undefined) return node;
    const looks: (keyof Varying)[] = [];
    const watched = new Watched(fixed, at, looks);
    const made = make(watched);
    const own = entryOf(watched.looked, made);
    if (at.vehicleRest !== null && (own.looked & SWEPT) !== 0) return own;
    const key = keyOf?.(made);
    const number = key === undefined ? own.number : (byKey.get(key) ?? own.number);
    if (key !== undefined) byKey.set(key, number);
    const entry = number === own.number ? own : { ...own, number };
    root = planted(root, looks, at, entry);
    return entry;
  };
}

/** The tree with one more answer in it. */
function planted<T>(
  root: Question<T> | Entry<T> | null,
  looks: readonly (keyof Varying)[],
  at: Varying,
  entry: Entry<T>,
): Question<T> | Entry<T> {
  const [first] = looks;
  if (first === undefined) return entry;
  const top: Question<T> = root !== null && 'field' in root ? root : { field: first, answers: new Map() };
  let question = top;
  for (let i = 1; i < looks.length; i++) {
    const value = at[question.field];
    const known = question.answers.get(value);
    const field = looks[i] ?? first;
    const next: Question<T> = known !== undefined && 'field' in known ? known : { field, answers: new Map() };
    question.answers.set(value, next);
    question = next;
  }
  question.answers.set(at[question.field], entry);
  return top;
}

/** Surroundings that note which of their varying fields are looked at. Getters on a class: made thousands of times. */
class Watched implements Surroundings {
  /** Bits of what was looked at so far. */
  looked = 0;
  readonly #at: Varying;
  readonly #looks: (keyof Varying)[];
  readonly read: Surroundings['read'];
  readonly part: Surroundings['part'];
  readonly nominal: Surroundings['nominal'];
  readonly vehicle: Surroundings['vehicle'];
  readonly sectionMedium: Surroundings['sectionMedium'];
  readonly wiredTerminals: Surroundings['wiredTerminals'];
  readonly wired: Surroundings['wired'];
  readonly other: Surroundings['other'];

  constructor(fixed: Fixed, at: Varying, looks: (keyof Varying)[]) {
    this.#at = at;
    this.#looks = looks;
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
    if ((this.looked & BIT[field]) === 0) {
      this.looked |= BIT[field];
      this.#looks.push(field);
    }
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
