/** Parts that spark do not stand where gas or fuel can collect. */
import type { Check, Judgement, Operation, Placed } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { judgement } from './support/judgement.ts';
import { placeLabel } from './support/surroundings.ts';

export const sparks: Check = {
  id: 'sparks',
  title: 'Sparking parts where gas or fuel collects',
  family: 'placement',
  danger: true,
  statements: TOPICS.sparks,
  subjects: (op) => placed(op).map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no part ${subject.id}`);
    return judge(part, op);
  },
  failing: example('yes'),
  passing: example('no'),
};

function example(gas: string): string {
  return `loomwright: 1
title: A breaker in a locker
practice: europe
systems: { house: 12 V }
places: { locker: { label: Locker, hottest: 40 °C }, bottle: { label: Bottle locker, hottest: 40 °C, gas-or-fuel: ${gas} } }
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 100 Ah }
  main: { kind: breaker, at: bottle, rating: 20 A, reset: manual, interrupts: 20 kA }
  lamp: { kind: load, at: locker, current: 5 A }
wires:
  lead: { from: bank.+, to: main.line, size: 10 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: main.load, to: lamp.+, size: 10 mm2, insulation: pvc-105, length: 1 m }
  back: { from: lamp.-, to: bank.-, size: 10 mm2, insulation: pvc-105, length: 1 m }
`;
}

const placed = (op: Operation): readonly Placed[] =>
  [...op.parts.values()].filter((p) => p.ability.sparks === true && p.at !== null && !p.implied);

function judge(part: Placed, op: Operation): Judgement {
  const place = part.at === null ? undefined : op.build.places.get(part.at);
  const gas = place?.gasOrFuel === true;
  const where = placeLabel(op, part.at);
  return judgement({
    holds: !gas,
    says: () =>
      gas
        ? `${part.label} sparks when it works, and gas or fuel can collect in ${where}: put it elsewhere, or take an ignition-protected part.`
        : `${part.label} sparks when it works; no gas or fuel collects in ${where}.`,
    value: { value: null, unit: '', words: gas ? 'gas or fuel' : 'neither gas nor fuel' },
    about: [part.id, ...(part.at === null ? [] : [part.at])],
  });
}
