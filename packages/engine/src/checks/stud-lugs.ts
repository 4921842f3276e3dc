/** Lugs on a stud: no more than it may carry. */
import type { Check, Judgement, Operation, Placed } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { judgement, step } from './support/judgement.ts';
import { partOf } from './support/refs.ts';
import { listed } from './support/words.ts';

export const studLugs: Check = {
  id: 'stud-lugs',
  title: 'Lugs on a stud',
  family: 'workmanship',
  danger: false,
  statements: TOPICS.lugs,
  subjects: (op) =>
    [...op.parts.values()]
      .filter((p) => p.ability.lugLimit !== undefined)
      .map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no stud ${subject.id}`);
    return judge(part, op);
  },
  failing: example(5),
  passing: example(3),
};

function example(lamps: number): string {
  const numbers = Array.from({ length: lamps }, (_, i) => i + 1);
  const parts = numbers.map((n) => `  lamp-${n}: { kind: load, at: locker, current: 1 A }`).join('\n');
  const wires = numbers
    .map(
      (
        n,
      ) => `  branch-${n}: { from: post.${n + 1}, to: lamp-${n}.+, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
  back-${n}: { from: lamp-${n}.-, to: bank.-, size: 2.5 mm2, insulation: pvc-105, length: 1 m }`,
    )
    .join('\n');
  return `loomwright: 1
title: A stud
practice: europe
systems: { house: 12 V }
places: { locker: { label: Locker, hottest: 40 °C } }
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 100 Ah }
  lamp-fuse: { kind: fuse, at: locker, family: blade-f, rating: 10 A }
  post: { kind: stud, at: locker }
${parts}
wires:
  lead: { from: bank.+, to: lamp-fuse.line, size: 2.5 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: lamp-fuse.load, to: post.1, size: 2.5 mm2, insulation: pvc-105, length: 1 m }
${wires}
`;
}

function lugsOf(op: Operation, part: Placed): readonly string[] {
  return [...op.wires.values()].flatMap((w) =>
    [w.from, w.to].filter((end) => partOf(end) === part.id).map(() => w.id),
  );
}

function judge(part: Placed, op: Operation): Judgement {
  const limit = part.ability.lugLimit ?? Number.POSITIVE_INFINITY;
  const lugs = lugsOf(op, part);
  const holds = lugs.length <= limit;
  const misplaced = holds ? outOfOrder(part, lugs, op) : null;
  if (misplaced !== null) return misplaced;
  return judgement({
    holds,
    says: () =>
      holds
        ? `${part.label} carries ${lugs.length} of at most ${limit} lugs.`
        : `${part.label} carries ${lugs.length} lugs, ${limit} at most: the upper ones work loose.`,
    value: { value: lugs.length, unit: '' },
    limit: { value: limit, unit: '' },
    margin: limit - lugs.length,
    working: () => [step(`Lugs on ${part.id}`, listed(lugs), lugs.length, '', { about: [part.id, ...lugs] })],
    about: [part.id, ...lugs],
  });
}

/** The largest lies next to the seat: a larger lug above a smaller one is named; null: nothing is wrong with the order. */
function outOfOrder(part: Placed, lugs: readonly string[], op: Operation): Judgement | null {
  const order = (part.ability.lugOrder ?? []).filter((id) => lugs.includes(id));
  const area = (id: string): number => op.wires.get(id)?.areaMm2 ?? 0;
  const at = order.findIndex((id, i) => area(id) > area(order[i - 1] ?? id) * (1 + 1e-9));
  const [below, above] = [order[at - 1], order[at]];
  if (at < 1 || below === undefined || above === undefined) return null;
  return judgement({
    holds: false,
    says: () =>
      `On ${part.label} ${above} (${op.wires.get(above)?.sizeText ?? ''}) lies above ${below} (${op.wires.get(below)?.sizeText ?? ''}): the largest lug belongs next to the seat.`,
    working: () => [
      step(
        'from the seat outwards',
        order.map((id) => `${id} ${op.wires.get(id)?.sizeText ?? ''}`).join(', '),
        null,
        '',
        { about: [part.id, ...order] },
      ),
    ],
    about: [part.id, below, above],
  });
}
