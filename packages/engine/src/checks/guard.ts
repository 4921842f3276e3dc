/** A protection before a battery works only where it sees the battery: its negative has to be wired. */
import type { Check, Judgement, Operation, Placed } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { judgement, step } from './support/judgement.ts';
import { refOf } from './support/refs.ts';
import { capital } from './support/words.ts';

export const guard: Check = {
  id: 'guard',
  title: 'A battery protection sees its battery',
  family: 'charge',
  danger: false,
  statements: TOPICS.guardWired,
  subjects: (op) =>
    [...op.parts.values()]
      .filter((p) => p.ability.guards !== undefined)
      .map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no part ${subject.id}`);
    return judge(part, op);
  },
  failing: example(''),
  passing: example(
    '  guard-return: { from: guard.-, to: bank.-, size: 1.5 mm2, insulation: pvc-105, length: 15 cm }\n',
  ),
};

function example(wire: string): string {
  return `loomwright: 1
title: A lithium battery behind its protection
practice: europe
systems: { house: 12 V }
places: { locker: { label: Locker, hottest: 40 °C } }
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 100 Ah }
  main-fuse: { kind: fuse, at: locker, family: class-t, rating: 60 A, interrupts: 20 kA }
  guard: { kind: battery-protection, at: locker, opens-below: 11.5 V after 10 s, reconnects: 13.0 V after 60 s, rating: 100 A }
  lamp: { kind: load, at: locker, current: 2 A, on: always }
wires:
  lead: { from: bank.+, to: main-fuse.line, size: 16 mm2, insulation: pvc-105, length: 12 cm }
  feed: { from: main-fuse.load, to: guard.battery, size: 16 mm2, insulation: pvc-105, length: 20 cm }
  branch: { from: guard.load, to: lamp.+, size: 16 mm2, insulation: pvc-105, length: 1 m }
  back: { from: lamp.-, to: bank.-, size: 16 mm2, insulation: pvc-105, length: 1 m }
${wire}`;
}

function judge(part: Placed, op: Operation): Judgement {
  const at = refOf(part.id, part.ability.guards?.reference ?? '-');
  const label = capital(part.label);
  const wired = op.wiresAt(at).length > 0;
  return judgement({
    holds: wired,
    says: () =>
      wired
        ? `${label} sees its battery at ${at}.`
        : `${label} sees no battery: nothing is wired to ${at}, so it neither opens nor stops a charge. It is judged as if it were not there.`,
    value: { value: null, unit: '', words: wired ? 'wired' : 'not wired' },
    working: () => [step(`wires at ${at}`, op.wiresAt(at).join(', ') || 'none', op.wiresAt(at).length, '')],
    about: [part.id],
  });
}
