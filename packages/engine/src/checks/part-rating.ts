/** Rated current of parts that only carry: busbars, shunts, diodes. */
import type { Check, Judgement, Operation, Placed, Solved } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { judgement, step } from './support/judgement.ts';
import { continuousInWire, greatestOver, lastingOf } from './support/loading.ts';
import { partOf } from './support/refs.ts';
import { amps, atMost } from './support/short-text.ts';
import { whereWords } from './support/words.ts';

export const partRating: Check = {
  id: 'part-rating',
  title: 'Rated current of bars, shunts and diodes',
  family: 'contacts',
  danger: true,
  statements: TOPICS.partRating,
  subjects: (op) =>
    [...op.parts.values()]
      .filter((p) => (p.ability.carries ?? null) !== null)
      .map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no part ${subject.id}`);
    return judge(part, op);
  },
  failing: example('50 A'),
  passing: example('150 A'),
};

function example(rating: string): string {
  return `loomwright: 1
title: Two heaters on a bar
practice: europe
systems: { house: 12 V }
places: { locker: { label: Locker, hottest: 40 °C } }
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 200 Ah }
  bank-fuse: { kind: fuse, at: locker, family: bolt-down, rating: 125 A, interrupts: 6 kA }
  bar: { kind: busbar, at: locker, rating: ${rating} }
  heater: { kind: load, at: locker, current: 40 A, on: always }
  heater-2: { kind: load, at: locker, current: 40 A, on: always }
wires:
  lead: { from: bank.+, to: bank-fuse.line, size: 35 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: bank-fuse.load, to: bar.1, size: 35 mm2, insulation: pvc-105, length: 1 m }
  branch: { from: bar.2, to: heater.+, size: 35 mm2, insulation: pvc-105, length: 1 m }
  branch-2: { from: bar.3, to: heater-2.+, size: 35 mm2, insulation: pvc-105, length: 1 m }
  back: { from: heater.-, to: bank.-, size: 35 mm2, insulation: pvc-105, length: 1 m }
  back-2: { from: heater-2.-, to: bank.-, size: 35 mm2, insulation: pvc-105, length: 1 m }
`;
}

/**
 * Half of all that flows at its terminals, A: what goes in comes out. Of a bar that is fed at several taps it is the most that
 * one place of it may carry.
 */
const through = (wires: readonly string[], s: Solved): number =>
  wires.reduce((sum, id) => sum + Math.abs(s.wireRms(id)), 0) / 2;

function judge(part: Placed, op: Operation): Judgement {
  const rating = part.ability.carries ?? null;
  if (rating === null) return judgement({ holds: true, says: `${part.label} has no stated rating.` });
  const wires = [...op.wires.values()]
    .filter((w) => partOf(w.from) === part.id || partOf(w.to) === part.id)
    .map((w) => w.id);
  const most = greatestOver(lastingOf(op), (s) => through(wires, s));
  // What one wire carries for good passes the part as well.
  const single = wires.reduce((max, id) => Math.max(max, continuousInWire(op, id).amps), 0);
  const value = Math.max(most.amps, single);
  const limit = rating.sourced.value;
  const holds = atMost(value, limit);
  return judgement({
    holds,
    says: () =>
      holds
        ? `${part.label} carries up to ${amps(value)} for long; it is rated ${amps(limit)}.`
        : `${part.label} carries ${amps(value)} for long; it is rated only ${amps(limit)}.`,
    value: { value, unit: 'A' },
    limit: { value: limit, unit: 'A' },
    margin: limit - value,
    worst: most.solved?.id ?? null,
    working: () => [
      ...(most.solved === null
        ? []
        : [
            step(`Greatest solved through ${part.id}`, whereWords(most.solved), most.amps, 'A', {
              about: wires,
            }),
          ]),
      ...(single > most.amps
        ? [
            step(
              'Greatest continuous in one of its wires',
              'charger at what it takes or gives for good',
              single,
              'A',
              { about: wires },
            ),
          ]
        : []),
      step('Rating', rating.label, limit, 'A', { about: [part.id] }),
    ],
    limits: [rating],
    about: [part.id],
  });
}
