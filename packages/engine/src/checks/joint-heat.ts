/** Heat in joints, lugs and contacts: I²R at the greatest current that lasts. */
import type { Basis, Check, Judgement, LaidWire, Operation, Placed, Solved } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { judgement, step } from './support/judgement.ts';
import { greatestLasting, greatestOver, lastingOf, type Greatest } from './support/loading.ts';
import { amps, atMost, ohms, watts } from './support/short-text.ts';
import { whereWords } from './support/words.ts';
import { clearlyLess } from './support/worst.ts';

/** Heat of a joint that deserves attention, and that burns, W (common practice, no source). */
const ATTENTION = 3;
const BURNS = 10;

export const jointHeat: Check = {
  id: 'joint-heat',
  title: 'Heat in joints and contacts',
  family: 'conductors',
  danger: true,
  statements: TOPICS.jointHeat,
  subjects: (op) => [
    ...[...op.wires.values()].map((w) => ({ id: w.id, label: `joints of ${w.id}` })),
    ...[...op.parts.values()]
      .filter((p) => jointsOf(p).length > 0)
      .map((p) => ({ id: p.id, label: p.label })),
  ],
  judge(subject, op) {
    const wire = op.wires.get(subject.id);
    if (wire !== undefined) return judge(op, subject.id, wireJoints(wire));
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`nothing is called ${subject.id}`);
    return judge(op, subject.id, partJoints(part));
  },
  failing: example('1.5 mΩ'),
  passing: example('0.1 mΩ'),
};

function example(joint: string): string {
  return `loomwright: 1
title: A lug on a heavy load
practice: europe
systems: { house: 12 V }
places: { locker: { label: Locker, hottest: 40 °C } }
parts:
  bank: { kind: battery, at: locker, role: house, chemistry: agm, capacity: 200 Ah }
  bank-fuse: { kind: fuse, at: locker, family: bolt-down, rating: 150 A, interrupts: 6 kA }
  heater: { kind: load, at: locker, current: 100 A, on: always }
wires:
  lead: { from: bank.+, to: bank-fuse.line, size: 50 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: bank-fuse.load, to: heater.+, size: 50 mm2, insulation: pvc-105, length: 1 m, joints: { to: ${joint} } }
  back: { from: heater.-, to: bank.-, size: 50 mm2, insulation: pvc-105, length: 1 m }
`;
}

interface Joint {
  readonly label: string;
  readonly ohms: Basis;
  readonly greatest: (op: Operation) => Greatest;
}

const wireJoints = (wire: LaidWire): readonly Joint[] =>
  ([0, 1] as const).map((end) => ({
    label: `joint of ${wire.id} at ${end === 0 ? wire.from : wire.to}`,
    ohms: wire.joints[end],
    greatest: (op) => greatestLasting(op, wire.id),
  }));

const jointsOf = (part: Placed): NonNullable<Placed['ability']['joints']> => part.ability.joints ?? [];

const partJoints = (part: Placed): readonly Joint[] =>
  jointsOf(part).map((j) => ({
    label: `${j.label} (${part.id})`,
    ohms: j.ohms,
    greatest: (op) => greatestOver(lastingOf(op), (s) => s.partMost(part.id, j.element)),
  }));

interface Hot {
  readonly joint: Joint;
  readonly amps: number;
  readonly watts: number;
  readonly solved: Solved | null;
}

function hottest(op: Operation, joints: readonly Joint[]): Hot | null {
  let worst: Hot | null = null;
  for (const joint of joints) {
    const found = joint.greatest(op);
    const heat = found.amps * found.amps * joint.ohms.sourced.value;
    if (worst === null || clearlyLess(worst.watts, heat))
      worst = { joint, amps: found.amps, watts: heat, solved: found.solved };
  }
  return worst;
}

function judge(op: Operation, id: string, joints: readonly Joint[]): Judgement {
  const hot = hottest(op, joints);
  if (hot === null) return judgement({ holds: true, says: `${id} has no joint.`, about: [id] });
  const holds = atMost(hot.watts, BURNS);
  const warm = holds && !atMost(hot.watts, ATTENTION);
  const limit = warm ? ATTENTION : BURNS;
  return judgement({
    holds,
    ...(warm ? { note: 'advice' as const } : {}),
    says: () => sentence(hot, holds, warm),
    value: { value: hot.watts, unit: 'W' },
    limit: { value: limit, unit: 'W' },
    margin: limit - hot.watts,
    worst: hot.solved?.id ?? null,
    working: () => [
      ...(hot.solved === null
        ? []
        : [step('Greatest current that lasts', whereWords(hot.solved), hot.amps, 'A', { about: [id] })]),
      step(
        `Heat in the ${hot.joint.label}`,
        `(${amps(hot.amps)})² × ${ohms(hot.joint.ohms.sourced.value)}`,
        hot.watts,
        'W',
        {
          source: 'I²R',
          about: [id],
        },
      ),
    ],
    restsOn: [hot.joint.ohms],
    about: [id],
  });
}

function sentence(hot: Hot, holds: boolean, warm: boolean): string {
  const what = `the ${hot.joint.label} turns ${watts(hot.watts)} into heat`;
  const text = `${what.charAt(0).toUpperCase()}${what.slice(1)}`;
  if (!holds) return `${text}: it will burn out or set fire to what is near.`;
  return warm ? `${text}: feel it after a long drive.` : `${text}.`;
}
