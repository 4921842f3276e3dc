/** Contacts: what switches, isolators and relays can carry. */
import type { Basis, FieldTable, Sourced, Switches, ValueReader } from '../contracts/index.ts';
import { ask, asGiven, memory, member, times } from './figures.ts';
import { anyOf, field, quantity, quantityShape, recordShape } from './shapes.ts';

const amps = { min: 0 };

const RATINGS: FieldTable = {
  resistive: quantity('current', 'For resistive loads, A.'),
  inductive: quantity('current', 'For motors and unsuppressed coils, A.'),
  lamp: quantity('current', 'For lamps, A.'),
};

/** The rating of a contact: one current (resistive), or one for each sort of load. */
export const ratingField = field(
  anyOf(
    'a current such as 20 A, or `{ resistive: 20 A, inductive: 10 A, lamp: 5 A }`',
    quantityShape('current', amps),
    recordShape(RATINGS),
  ),
  'Rated current of its contacts, A; one figure counts for resistive loads.',
  { wanted: true },
);

export const leastCurrentField = quantity('current', 'Least current that keeps its contacts clean, A.');

/** Resistance of a closed contact, Ω. */
export const contactField = (ohms: number, of: string) =>
  quantity('resistance', 'Resistance of the closed contact, Ω.', {
    label: 'contact resistance',
    slack: 'up',
    how: 'measure: volts across, amperes through',
    effort: 'meter',
    fallback: (): Sourced => memory(ohms, 'Ω', `usual contact of ${of}`, times(ohms, 0.5, 2)),
  });

/** Ratings as stated; `inductive` may stand beside a single rating. */
export function ratingsOf(read: ValueReader): Switches['rating'] {
  const raw = read.raw('rating');
  const single = asGiven(raw);
  const one = (kind: string): Basis | null =>
    read.resolve(`rating.${kind}`, asGiven(member(raw, kind)), null, ask(`${kind} rating of {part}`));
  return {
    resistive:
      single === null ? one('resistive') : read.resolve('rating', single, null, ask('rating of {part}')),
    inductive: one('inductive'),
    lamp: one('lamp'),
  };
}
