/** Fields that every part has beside `kind` and `at`. */
import type { Ability, FieldTable, Sourced, ValueReader } from '../contracts/index.ts';
import { studTorque, type StudMaterial } from '../reference/index.ts';
import { practice, textOf } from './figures.ts';
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
  torque: quantity('torque', 'Tightening torque of its terminals, N·m.', { fallback: torqueDefault }),
  stored: choice(['closed', 'open'], 'Its position while the vehicle is stored.'),
  mass: quantity('mass', 'Mass, kg.'),
  source: text('Where its figures come from: sheet, edition, date.'),
};

const MATERIALS: readonly string[] = ['steel', 'brass', 'copper'] satisfies readonly StudMaterial[];
const isMaterial = (text: string | null): text is StudMaterial => text !== null && MATERIALS.includes(text);

/** Of a ring lug on a stud, where its material and thread are given and makers publish one. */
function torqueDefault(read: ValueReader): Sourced | null {
  const [material, thread] = [textOf(read, 'material'), textOf(read, 'stud')];
  if (!isMaterial(material) || thread === null) return null;
  const figure = studTorque(material, thread.trim().toUpperCase());
  return 'noFigure' in figure ? null : figure;
}

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
