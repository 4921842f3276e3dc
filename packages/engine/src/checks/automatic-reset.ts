/** Automatic reset: a breaker that closes again by itself is no main protection. */
import type { Check, Judgement, Operation, Placed, Remedy } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { devicesOf, endsOf } from './support/downstream.ts';
import { flood, netOf } from './support/conductors.ts';
import { partNeed } from './support/figures-needed.ts';
import { judgement, missing } from './support/judgement.ts';
import { sourcesOf } from './support/sources.ts';

export const automaticReset: Check = {
  id: 'automatic-reset',
  title: 'Breakers are reset by hand',
  family: 'protection',
  danger: true,
  statements: TOPICS.automaticReset,
  subjects: (op) =>
    devicesOf(op)
      .filter((p) => p.ability.protects?.type === 'breaker')
      .map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no breaker ${subject.id}`);
    return judge(part, op);
  },
  remedies: (subject): readonly Remedy[] => [
    {
      title: `a breaker that is reset by hand for ${subject.id}`,
      changes: [{ set: ['parts', subject.id, 'reset'], to: 'manual' }],
    },
  ],
  failing: example('automatic'),
  passing: example('manual'),
};

function example(reset: string): string {
  return `loomwright: 1
title: A breaker in a feed
practice: europe
systems: { vehicle: 12 V }
places: { bay: { label: Battery bay, hottest: 40 °C } }
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: 80 Ah }
  main: { kind: breaker, at: bay, rating: 30 A, reset: ${reset}, interrupts: 5 kA }
  lamp: { kind: load, at: bay, current: 5 A }
wires:
  lead: { from: battery.+, to: main.line, size: 10 mm2, insulation: pvc-105, length: 15 cm }
  branch: { from: main.load, to: lamp.+, size: 10 mm2, insulation: pvc-105, length: 1 m }
  back: { from: lamp.-, to: battery.-, size: 10 mm2, insulation: pvc-105, length: 1 m }
`;
}

/** A battery reaches it before any device that stays open. */
function isMain(op: Operation, part: Placed): boolean {
  const net = netOf(op);
  const automatic = (id: string): boolean => op.parts.get(id)?.ability.protects?.reset === 'automatic';
  return endsOf(part).some((end) => {
    const reached = flood(
      net.at,
      end,
      (link, next) =>
        !net.isReturn(next) && link.id !== part.id && (link.type !== 'device' || automatic(link.id)),
    );
    return sourcesOf(op).some((s) => s.stiff && reached.has(s.terminal));
  });
}

function judge(part: Placed, op: Operation): Judgement {
  const reset = part.ability.protects?.reset ?? null;
  const stated = 'reset' in part.kind.fields && part.read.given('reset');
  if (reset === 'automatic') {
    const main = isMain(op, part);
    return judgement({
      holds: !main,
      ...(main ? {} : { note: 'advice' as const }),
      says: () =>
        main
          ? `${part.label} closes again by itself into a fault that still stands, and it is the only protection there.`
          : `${part.label} closes again by itself; another device stands before it.`,
      value: { value: null, unit: '', words: 'automatic' },
      limit: { value: null, unit: '', words: 'manual, trip-free' },
      about: [part.id],
    });
  }
  if (!stated)
    return missing(`Whether ${part.label} stays open after a fault is not known.`, [
      partNeed(part.id, 'reset', 'a breaker that closes again by itself is no main protection'),
    ]);
  return judgement({
    holds: true,
    says: `${part.label} stays open until a hand resets it.`,
    value: { value: null, unit: '', words: 'manual' },
    limit: { value: null, unit: '', words: 'manual, trip-free' },
    about: [part.id],
  });
}
