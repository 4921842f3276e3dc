/** Reach of hand: a protective device stands where whoever has to reset, replace or pull it can get at it. */
import type { Check, Judgement, Placed } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { devicesOf } from './support/downstream.ts';
import { judgement } from './support/judgement.ts';

export const reachHand: Check = {
  id: 'reach-hand',
  title: 'Devices within reach of a hand',
  family: 'placement',
  danger: false,
  statements: TOPICS.access,
  subjects: (op) =>
    devicesOf(op)
      .filter((p) => reachOf(p) !== null)
      .map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no device ${subject.id}`);
    return judge(part);
  },
  failing: example('{ who: workshop, tool: yes }'),
  passing: example('{ who: owner, tool: no }'),
};

function example(reach: string): string {
  return `loomwright: 1
title: A breaker behind a panel
practice: europe
systems: { house: 12 V }
places: { locker: { label: Locker, hottest: 40 °C } }
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 200 Ah }
  main: { kind: breaker, at: locker, rating: 20 A, reset: manual, interrupts: 5 kA, reach: ${reach} }
  lamp: { kind: load, at: locker, current: 5 A }
wires:
  lead: { from: bank.+, to: main.line, size: 10 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: main.load, to: lamp.+, size: 10 mm2, insulation: pvc-105, length: 1 m }
  back: { from: lamp.-, to: bank.-, size: 10 mm2, insulation: pvc-105, length: 1 m }
`;
}

interface Reach {
  readonly who: string | null;
  readonly tool: boolean;
}

/** As the build says it; null: it says nothing. */
function reachOf(part: Placed): Reach | null {
  const raw = part.read.raw('reach');
  if (typeof raw !== 'object' || raw === null) return null;
  const { who, tool } = raw as { readonly who?: unknown; readonly tool?: unknown };
  return { who: typeof who === 'string' ? who : null, tool: tool === true };
}

/** A breaker is reset by the owner, without a tool; a fuse may ask for one, but not for the workshop alone when the owner needs it. */
function judge(part: Placed): Judgement {
  const reach = reachOf(part);
  const breaker = part.ability.protects?.type === 'breaker';
  const hidden = breaker && (reach?.tool === true || reach?.who === 'workshop');
  const far = !breaker && reach?.tool === true && reach.who === 'workshop';
  const words = `${reach?.who ?? 'anybody'}${reach?.tool === true ? ', with a tool' : ', by hand'}`;
  return judgement({
    holds: !(hidden || far),
    severity: 'advice',
    says: sentence(part, hidden, far),
    value: { value: null, unit: '', words },
    limit: { value: null, unit: '', words: breaker ? 'owner, by hand' : 'within reach' },
    about: [part.id, ...(part.at === null ? [] : [part.at])],
  });
}

function sentence(part: Placed, hidden: boolean, far: boolean): string {
  if (hidden)
    return `${part.label} can be reset only by taking something apart: nobody will get at it on the road.`;
  if (far)
    return `${part.label} is out of reach: behind a panel, for the workshop only. Keep it marked on the owner's card.`;
  return `${part.label} is within reach.`;
}
