/** Fields that every part has beside `kind` and `at`. */
import type { Ability, FieldTable, ValueReader } from '../contracts/index.ts';
import { practice } from './figures.ts';
import { choice, choiceShape, field, flag, quantity, recordShape, text } from './shapes.ts';

export const common: FieldTable = {
  label: text('What people call it, for lists and papers.'),
  'dc-rating': quantity('voltage', 'DC voltage rating printed on the part, V.'),
  standby: quantity('current', 'Current that it draws when nothing works, A; 0 when not given.', {
    label: 'standby current',
    fallback: () => practice(0, 'A', 'no standing current stated'),
    slack: 'up',
    how: 'read it on the sheet, or measure with a clamp when everything is off',
    effort: 'meter',
  }),
  reach: field(
    recordShape({
      who: field(choiceShape('owner', 'workshop'), 'Who can get at it without taking anything apart.'),
      tool: flag('Whether a tool is needed; no when not given.', false),
    }),
    'Who can get at it, and whether a tool is needed.',
  ),
  stud: text('Thread of its terminals, such as M8.'),
  torque: quantity('torque', 'Tightening torque of its terminals, N·m.'),
  stored: choice(['closed', 'open'], 'Its position while the vehicle is stored.'),
  mass: quantity('mass', 'Mass, kg.'),
  source: text('Where its figures come from: sheet, edition, date.'),
};

/** The voltage rating as stated on the part. */
export const statedRating = (read: ValueReader): NonNullable<Ability['dcRating']> => ({
  stated: read.quantity('dc-rating'),
  family: null,
});

/** The standing current between two terminals, when one is stated. */
export function standbyOf(read: ValueReader, plus: string, minus: string): Pick<Ability, 'standby'> {
  const amps = read.given('standby') ? read.quantity('standby') : null;
  return amps === null ? {} : { standby: { amps, plus, minus } };
}
