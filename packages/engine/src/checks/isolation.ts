/** An isolator with a way round it. */
import type { Check, Judgement, Operation, Placed } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { bypassedIsolatorExample, partedExample } from './support/examples-negative.ts';
import { judgement, step } from './support/judgement.ts';
import type { Hop } from './support/net.ts';
import { idsOf, netOf, refOf, wayText, wayTo } from './support/net.ts';
import { capital, listed } from './support/words.ts';

export const isolation: Check = {
  id: 'isolation',
  title: 'An opened isolator parts what it is there to part',
  family: 'negative network',
  danger: false,
  statements: TOPICS.isolation,
  subjects: (op) => isolators(op).map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no isolator ${subject.id}`);
    return judge(part, op);
  },
  failing: bypassedIsolatorExample,
  passing: partedExample,
};

const isolators = (op: Operation): readonly Placed[] =>
  [...op.parts.values()].filter((p) => p.ability.switches?.isolates === true);

function judge(part: Placed, op: Operation): Judgement {
  const ways = (part.ability.switches?.contacts ?? []).flatMap((c) => {
    const past = wayTo(
      netOf(op),
      refOf(part.id, c.from),
      refOf(part.id, c.to),
      (link) => link.id !== part.id,
    );
    return past === null ? [] : [past];
  });
  const label = capital(part.label);
  const past = ways[0];
  if (past === undefined) {
    return judgement({
      holds: true,
      says: `No conductor leads round ${part.label} when it is open.`,
      about: [part.id],
    });
  }
  const contacts = contactsOn(past);
  const if_ =
    contacts.length === 0 ? '' : ` while ${listed(contacts)} ${contacts.length === 1 ? 'is' : 'are'} closed`;
  return judgement({
    holds: false,
    says: () => `${label} is by-passed: open, current still flows through ${wayText(past)}${if_}.`,
    value: { value: null, unit: '', words: 'by-passed' },
    others: ways.length - 1,
    working: () => [step('way round it', wayText(past), null, '', { about: idsOf(past) })],
    about: [part.id, ...idsOf(past)],
  });
}

const contactsOn = (hops: readonly Hop[]): readonly string[] => [
  ...new Set(hops.filter((h) => h.link.type === 'contact').map((h) => h.link.id)),
];
