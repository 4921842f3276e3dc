/** Returns that reach the vehicle battery's negative without passing its sensor. */
import type { Check, Judgement, Operation, Placed, Remedy, Subject } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { chargers } from './support/charger.ts';
import { bypassedSensorExample, passedSensorExample } from './support/examples-negative.ts';
import { feedOf, loadTerminals } from './support/feed.ts';
import { judgement, step } from './support/judgement.ts';
import { idsOf, netOf, reach, refOf, wayText, wayTo } from './support/net.ts';
import { batteries } from './support/no-start.ts';
import { capital } from './support/words.ts';

export const sensor: Check = {
  id: 'sensor',
  title: "Returns pass the vehicle's battery sensor",
  family: 'sensor',
  danger: false,
  statements: TOPICS.sensor,
  subjects,
  judge(subject, op) {
    const [id = '', user = ''] = subject.id.split('/');
    const found = { part: op.parts.get(id), user: users(op).find((u) => u.part.id === user) };
    if (found.part === undefined || found.user === undefined)
      throw new Error(`no sensor or user ${subject.id}`);
    return judge(found.part, found.user, op);
  },
  remedies: (subject, op) => remedies(subject, op),
  failing: bypassedSensorExample,
  passing: passedSensorExample,
};

/** What returns to the vehicle battery: a charger, or an added load. */
interface User {
  readonly part: Placed;
  readonly minus: string;
}

const sensors = (op: Operation): readonly Placed[] =>
  [...op.parts.values()].filter((p) => p.ability.senses !== undefined);

function users(op: Operation): readonly User[] {
  const list: User[] = chargers(op)
    .filter((c) => c.feed?.part.ability.stores?.role === 'vehicle')
    .map((c) => ({ part: c.part, minus: c.inMinus }));
  for (const part of op.parts.values()) {
    const at = loadTerminals(part);
    if (at === null || at.minus === null || part.ability.consumes?.ofVehicle !== false) continue;
    if (feedOf(op, at.plus, at.minus)?.part.ability.stores?.role === 'vehicle')
      list.push({ part, minus: at.minus });
  }
  return list;
}

function subjects(op: Operation): readonly Subject[] {
  return sensors(op).flatMap((s) =>
    users(op).map((u) => ({ id: `${s.id}/${u.part.id}`, label: `${u.part.label} past ${s.label}` })),
  );
}

function judge(part: Placed, user: User, op: Operation): Judgement {
  const label = capital(user.part.label);
  const past = wayPast(part, user, op);
  const through = past === null ? wayHome(part, user, op) : null;
  if (past !== null) {
    return judgement({
      holds: false,
      says: () =>
        `The return of ${user.part.label} reaches the battery's negative through ${wayText(past)}, past ${part.label}: what it draws is not counted.`,
      value: { value: null, unit: '', words: 'past the sensor' },
      working: () => [step('return', wayText(past), null, '', { about: idsOf(past) })],
      about: [part.id, user.part.id, ...idsOf(past)],
    });
  }
  return judgement({
    holds: true,
    says:
      through === null
        ? `${label} has no return to the vehicle battery.`
        : `The return of ${user.part.label} passes ${part.label}.`,
    working: through === null ? [] : [step('return', wayText(through), null, '', { about: idsOf(through) })],
    about: [part.id, user.part.id],
  });
}

const home = (op: Operation): string | null => op.posts?.minus ?? batteries(op, 'vehicle')[0]?.minus ?? null;

function wayPast(part: Placed, user: User, op: Operation): ReturnType<typeof wayTo> {
  const to = home(op);
  return to === null ? null : wayTo(netOf(op), user.minus, to, (link) => link.id !== part.id);
}

function wayHome(_part: Placed, user: User, op: Operation): ReturnType<typeof wayTo> {
  const to = home(op);
  return to === null ? null : (reach(netOf(op), user.minus).get(to) ?? null);
}

/** The wire that ends on the battery side is moved to the chassis side. */
function remedies(subject: Subject, op: Operation): readonly Remedy[] {
  const [id = '', userId = ''] = subject.id.split('/');
  const part = op.parts.get(id);
  const user = users(op).find((u) => u.part.id === userId);
  const senses = part?.ability.senses;
  const past = part === undefined || user === undefined ? null : wayPast(part, user, op);
  const last = past?.toReversed().find((hop) => hop.link.type === 'wire');
  if (senses === undefined || last === undefined) return [];
  const end = op.wires.get(last.link.id)?.from === last.to ? 'from' : 'to';
  return [
    {
      title: `move the end of ${last.link.id} to the chassis side of ${part?.label ?? id}`,
      changes: [{ set: ['wires', last.link.id, end], to: refOf(id, senses.chassis) }],
    },
  ];
}
