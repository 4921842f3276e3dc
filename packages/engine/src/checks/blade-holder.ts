/** Blade fuses carry small currents: their holders heat, and melt, at more than about 25 A for long. */
import type { Basis, Check, Judgement, Operation, Placed } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { devicesOf } from './support/downstream.ts';
import { judgement, step } from './support/judgement.ts';
import { continuousInDevice } from './support/loading.ts';
import { chargersIn } from './support/loading-steps.ts';
import { amps, atMost } from './support/short-text.ts';

/** The most that a blade form carries for long. */
const MOST: Basis = {
  path: 'default:blade-holder/most',
  label: 'most that a blade fuse in its holder carries for long',
  sourced: {
    value: 25,
    unit: 'A',
    prov: 'practice',
    source: 'common practice, no source: holders melt above 20 to 25 A',
  },
  how: 'read the sheet of the holder',
  effort: 'read',
  assumed: true,
};

export const bladeHolder: Check = {
  id: 'blade-holder',
  title: 'Blade fuses at large currents',
  family: 'protection',
  danger: false,
  statements: TOPICS.nuisance,
  subjects: (op) => blades(op).map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no fuse ${subject.id}`);
    return judge(part, op);
  },
  remedies: (subject) => [
    {
      title: `a bolt-down fuse in place of ${subject.id}`,
      changes: [{ set: ['parts', subject.id, 'family'], to: 'bolt-down' }],
    },
  ],
  failing: example('30 A'),
  passing: example('10 A'),
};

function example(load: string): string {
  return `loomwright: 1
title: A blade fuse
practice: europe
systems: { house: 12 V }
places: { locker: { label: Locker, hottest: 40 °C } }
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 200 Ah }
  cooler-fuse: { kind: fuse, at: locker, family: blade-c, rating: 40 A }
  cooler: { kind: load, at: locker, current: ${load}, on: always }
wires:
  lead: { from: bank.+, to: cooler-fuse.line, size: 10 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: cooler-fuse.load, to: cooler.+, size: 10 mm2, insulation: pvc-105, length: 1 m }
  back: { from: cooler.-, to: bank.-, size: 10 mm2, insulation: pvc-105, length: 1 m }
`;
}

const blades = (op: Operation): readonly Placed[] =>
  devicesOf(op).filter((p) => p.ability.protects?.family.startsWith('blade') === true);

function judge(part: Placed, op: Operation): Judgement {
  const most = op.figure(MOST);
  const load = continuousInDevice(op, part.id);
  const holds = atMost(load.amps, most.sourced.value);
  return judgement({
    holds,
    says: () =>
      holds
        ? `${part.label} carries ${amps(load.amps)} for long: small enough for a blade fuse.`
        : `${part.label} is a blade fuse and carries ${amps(load.amps)} for long: its holder melts before it opens. Take a bolt-down form.`,
    value: { value: load.amps, unit: 'A' },
    limit: { value: most.sourced.value, unit: 'A' },
    margin: most.sourced.value - load.amps,
    working: () => [
      step(`Carried for long by ${part.id}`, chargersIn(load).join(' + '), load.amps, 'A', {
        about: [part.id],
      }),
    ],
    restsOn: [...load.bases, most],
    about: [part.id],
  });
}
