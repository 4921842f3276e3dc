/** Something fed from the middle of batteries in series: one half is emptied while the other is overcharged. */
import type { Check, Judgement, Operation, Placed } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { chargers } from './support/charger.ts';
import { stacksOf } from './support/conductors.ts';
import { halfLoadedExample, pairExample } from './support/examples-energy.ts';
import { loadTerminals } from './support/feed.ts';
import { judgement, step } from './support/judgement.ts';
import type { Hop } from './support/net.ts';
import { idsOf, netOf, reach, wayText } from './support/net.ts';
import type { Battery } from './support/no-start.ts';
import { batteries, netAmps } from './support/no-start.ts';
import { A, capital } from './support/words.ts';
import { whole } from './support/worst.ts';

export const midpoint: Check = {
  id: 'midpoint',
  title: 'Nothing is fed from the middle of a series stack',
  family: 'charge',
  danger: false,
  statements: TOPICS.chargingVoltage,
  subjects: (op) =>
    middles(op).length === 0 ? [] : users(op).map((u) => ({ id: u.part.id, label: u.part.label })),
  judge(subject, op) {
    const user = users(op).find((u) => u.part.id === subject.id);
    if (user === undefined) throw new Error(`nothing is fed at ${subject.id}`);
    return judge(user, op);
  },
  failing: halfLoadedExample,
  passing: pairExample,
};

interface User {
  readonly part: Placed;
  readonly plus: string;
}

function users(op: Operation): readonly User[] {
  return [
    ...chargers(op).map((c) => ({ part: c.part, plus: c.inPlus })),
    ...[...op.parts.values()].flatMap((part) => {
      const at = loadTerminals(part);
      return at === null || part.ability.consumes?.ofVehicle !== false ? [] : [{ part, plus: at.plus }];
    }),
  ];
}

/** Batteries of a stack whose plus is joined to another's minus. */
function middles(op: Operation): readonly Battery[] {
  return stacksOf(op)
    .filter((group) => group.length > 1)
    .flatMap((group) => {
      const stack = batteries(op).filter((b) => group.includes(b.part.id));
      const minuses = new Set(stack.map((b) => b.minus));
      return stack.filter((b) =>
        [...reach(netOf(op), b.plus, (link) => link.type !== 'body').keys()].some((node) =>
          minuses.has(node),
        ),
      );
    });
}

function judge(user: User, op: Operation): Judgement {
  const label = capital(user.part.label);
  const reached = reach(netOf(op), user.plus);
  const found = middles(op).flatMap((battery): readonly { battery: Battery; hops: readonly Hop[] }[] => {
    const hops = reached.get(battery.plus);
    return hops === undefined ? [] : [{ battery, hops }];
  })[0];
  if (found === undefined)
    return judgement({ holds: true, says: `${label} is fed across the whole stack.`, about: [user.part.id] });
  const { battery, hops } = found;
  const drawn = Math.max(
    0,
    ...whole(op).map((s) => s.terminalAmps(user.part.id, user.plus.slice(user.part.id.length + 1))),
  );
  const lowest = Math.min(
    ...whole(op)
      .filter((s) => op.stateFacts(s.condition.state)?.cranking === false)
      .map((s) => netAmps(s, battery)),
  );
  return judgement({
    holds: false,
    says: () =>
      `${label} is fed from the middle of the batteries in series (${battery.part.label} alone): that half is emptied, the other overcharged.`,
    value: { value: drawn, unit: 'A' },
    limit: { value: 0, unit: 'A' },
    margin: -drawn,
    working: () => [
      step('way', `${battery.part.id}, ${wayText(hops.toReversed())}`, null, '', { about: idsOf(hops) }),
      step('drawn from one half', 'greatest of all conditions', drawn, 'A'),
      step(`least net current of ${battery.part.id}`, `${A(lowest)} into it`, lowest, 'A'),
    ],
    about: [user.part.id, battery.part.id, ...idsOf(hops)],
  });
}
