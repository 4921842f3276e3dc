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

const FIELDS: readonly (keyof Varying)[] = [
  'mode',
  'state',
  'corner',
  'shore',
  'sun',
  'closed',
  'opened',
  'memory',
  'air',
  'setPoint',
  'leastSetPoint',
  'vehicleRest',
  'bankHeldAt',
  'unknownLive',
];

interface Entry<T> {
  readonly looked: readonly (keyof Varying)[];
  readonly saw: readonly unknown[];
  readonly made: T;
}

/** Beyond this many remembered answers the oldest are forgotten. */
const MOST_ENTRIES = 400;

export function remembering<T>(fixed: Fixed, make: (at: Surroundings) => T): (at: Varying) => T {
  let entries: Entry<T>[] = [];
  return (at) => {
    for (const e of entries) if (fits(e, at)) return e.made;
    const looked = new Set<keyof Varying>();
    const made = make(watched(fixed, at, looked));
    const fields = [...looked];
    if (entries.length >= MOST_ENTRIES) entries = entries.slice(MOST_ENTRIES / 2);
    entries.push({ looked: fields, saw: fields.map((f) => at[f]), made });
    return made;
  };
}

function fits<T>(entry: Entry<T>, at: Varying): boolean {
  for (let i = 0; i < entry.looked.length; i++) {
    const field = entry.looked[i];
    if (field !== undefined && at[field] !== entry.saw[i]) return false;
  }
  return true;
}

function watched(fixed: Fixed, at: Varying, looked: Set<keyof Varying>): Surroundings {
  const target = { ...fixed };
  for (const field of FIELDS) {
    Object.defineProperty(target, field, {
      enumerable: true,
      get: () => {
        looked.add(field);
        return at[field];
      },
    });
  }
  return target as Surroundings;
}

export type PartElements = (at: Varying) => readonly ElementOf<number>[];
