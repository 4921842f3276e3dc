/** Lead batteries that give off gas do not stand unvented in a living space. */
import type { Check, Judgement, Operation, Placed } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { judgement } from './support/judgement.ts';
import { placeLabel } from './support/surroundings.ts';

export const venting: Check = {
  id: 'venting',
  title: 'Venting of lead batteries in living spaces',
  family: 'placement',
  danger: true,
  statements: TOPICS.venting,
  subjects: (op) =>
    [...op.parts.values()]
      .filter((p) => p.ability.stores !== undefined && p.at !== null && isLiving(op, p))
      .map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no battery ${subject.id}`);
    return judge(part, op);
  },
  remedies: (subject) => [
    {
      title: `a vent to the outside for ${subject.id}`,
      changes: [{ set: ['parts', subject.id, 'vented'], to: true }],
    },
  ],
  failing: example('vented: no'),
  passing: example('vented: yes'),
};

function example(vented: string): string {
  return `loomwright: 1
title: A lead battery under a bench
practice: europe
systems: { house: 12 V }
places: { bench: { label: Under the bench, hottest: 40 °C, living: yes } }
parts:
  bank: { kind: battery, at: bench, role: house, chemistry: flooded, capacity: 100 Ah, ${vented} }
  main: { kind: fuse, at: bench, family: blade-f, rating: 10 A }
  lamp: { kind: load, at: bench, current: 2 A }
wires:
  lead: { from: bank.+, to: main.line, size: 2.5 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: main.load, to: lamp.+, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
  back: { from: lamp.-, to: bank.-, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
`;
}

const isLiving = (op: Operation, part: Placed): boolean =>
  part.at !== null && op.build.places.get(part.at)?.living === true;

function judge(part: Placed, op: Operation): Judgement {
  const gases = part.ability.gases === true;
  const stated = part.read.given('vented');
  const bare = gases && part.read.flag('vented') === false;
  const where = placeLabel(op, part.at);
  return judgement({
    holds: !bare,
    ...(gases && !stated ? { note: 'advice' as const } : {}),
    says: sentence(part, where, gases, bare, stated),
    value: { value: null, unit: '', words: bare ? 'not vented' : gases ? 'vented' : 'sealed' },
    about: [part.id, ...(part.at === null ? [] : [part.at])],
  });
}

function sentence(part: Placed, where: string, gases: boolean, bare: boolean, stated: boolean): string {
  if (bare)
    return `${part.label} gives off gas when charging, and ${where} is a living space: vent it to the outside, move it, or take a sealed type.`;
  if (!gases) return `${part.label} gives off no gas into ${where}.`;
  if (stated) return `The gas of ${part.label} is led from ${where} to the outside.`;
  return `${part.label} gives off gas when charging; nothing says so, but it is taken to be led from ${where} to the outside: make sure of it.`;
}
