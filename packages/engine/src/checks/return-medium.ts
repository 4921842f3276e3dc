/** Returns through the body: whether there is a conductor at all, and whether it can be relied on. */
import type { Basis, Check, Judgement, Operation, Placed, Step, Subject } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { chargers } from './support/charger.ts';
import { settledExample } from './support/examples.ts';
import { compositeExample } from './support/examples-negative.ts';
import { feedOf, loadTerminals, wayBases } from './support/feed.ts';
import { judgement, step } from './support/judgement.ts';
import type { Hop } from './support/net.ts';
import { idsOf, wayText } from './support/net.ts';
import { capital } from './support/words.ts';

export const returnMedium: Check = {
  id: 'return-medium',
  title: 'The return is a conductor that can be relied on',
  family: 'negative network',
  danger: false,
  statements: TOPICS.negativeNetwork,
  subjects: (op) => users(op).map((u): Subject => ({ id: u.part.id, label: u.part.label })),
  judge(subject, op) {
    const user = users(op).find((u) => u.part.id === subject.id);
    if (user === undefined) throw new Error(`nothing returns from ${subject.id}`);
    return judge(user, op);
  },
  failing: compositeExample,
  passing: settledExample,
};

interface User {
  readonly part: Placed;
  readonly plus: string;
  readonly minus: string | null;
}

function users(op: Operation): readonly User[] {
  return [
    ...chargers(op).map((c) => ({ part: c.part, plus: c.inPlus, minus: c.inMinus })),
    ...[...op.parts.values()].flatMap((part) => {
      const at = loadTerminals(part);
      return at === null || part.ability.consumes?.ofVehicle !== false ? [] : [{ part, ...at }];
    }),
  ];
}

function judge(user: User, op: Operation): Judgement {
  const { part } = user;
  const label = capital(part.label);
  const feed = feedOf(op, user.plus, user.minus);
  if (feed === null)
    return judgement({ holds: true, says: `${label} is not connected to a source.`, about: [part.id] });
  const composite = sectionsOf(op, 'composite');
  if (feed.minusWay === null) {
    const why =
      composite.length === 0
        ? 'no conductor leads back'
        : `no conductor leads back: ${composite.join(', ')} is composite and joins nothing`;
    return judgement({
      holds: false,
      says: `${label} has no return to ${feed.part.label}: ${why}.`,
      value: { value: null, unit: '', words: 'no return' },
      about: [part.id, feed.part.id, ...composite],
    });
  }
  const way = feed.minusWay;
  const working = (): readonly Step[] => [step('return', wayText(way), null, '', { about: idsOf(way) })];
  const sections = sectionsOn(op, way);
  if (sections.length === 0) {
    return judgement({
      holds: true,
      says: () => `The return of ${part.label} is a cable all the way (${wayText(way)}).`,
      working,
      about: [part.id],
    });
  }
  const doubtful = sections.filter((id) => op.parts.get(id)?.ability.section?.medium === 'bonded-aluminium');
  const measured = isMeasured(op, way);
  const shared = {
    working,
    restsOn: () => spreads(op, way),
    about: [part.id, ...sections],
  };
  if (doubtful.length > 0 && !measured) {
    return judgement({
      ...shared,
      holds: false,
      says: `The return of ${part.label} goes through ${doubtful.join(', ')}: bonded aluminium is not to be relied on until its loop is measured.`,
      value: { value: null, unit: '', words: 'bonded aluminium' },
    });
  }
  return judgement({
    ...shared,
    holds: true,
    says: measured
      ? `The return of ${part.label} goes through the body (${sections.join(', ')}); its loop is measured.`
      : `The return of ${part.label} goes through steel (${sections.join(', ')}).`,
  });
}

function sectionsOf(op: Operation, medium: string): readonly string[] {
  return [...op.parts.values()].filter((p) => p.ability.section?.medium === medium).map((p) => p.id);
}

/** Body sections that a way passes: it enters one by a lug and leaves it by another. */
function sectionsOn(op: Operation, hops: readonly Hop[]): readonly string[] {
  const nodes = new Set(hops.flatMap((h) => [h.from, h.to]));
  return [...op.parts.values()]
    .filter((p) => p.ability.section !== undefined && nodes.has(`^section:${p.id}`))
    .map((p) => p.id);
}

/** A measured resistance between two terminals of the way, with a body section between them. */
function isMeasured(op: Operation, hops: readonly Hop[]): boolean {
  const order = [hops[0]?.from ?? '', ...hops.map((h) => h.to)];
  return op.build.measured.some(({ from, to }) => {
    const [a, b] = [order.indexOf(from), order.indexOf(to)].toSorted((x, y) => x - y);
    if (a === undefined || b === undefined || a < 0) return false;
    return order.slice(a, b + 1).some((node) => node.startsWith('^section:'));
  });
}

const spreads = (op: Operation, hops: readonly Hop[]): readonly Basis[] =>
  wayBases(
    op,
    hops.filter((h) => h.link.type === 'body'),
  );
