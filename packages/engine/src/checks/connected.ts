/**
 * What is wired is wired to something: loads and chargers are fed, chargers lead to a battery and back, and nothing with a
 * polarity stands the wrong way round. A forgotten wire makes no current anywhere, so no other statement would notice it.
 */
import type {
  Change,
  Check,
  Id,
  Judgement,
  Operation,
  Placed,
  Remedy,
  TerminalRef,
} from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { chargers } from './support/charger.ts';
import { stacksOf } from './support/conductors.ts';
import { loadTerminals } from './support/feed.ts';
import { judgement } from './support/judgement.ts';
import { perName, perOperation } from './support/memo.ts';
import { netOf, reach } from './support/net.ts';
import { sourcesOf } from './support/sources.ts';
import { capital } from './support/words.ts';

export const connected: Check = {
  id: 'connected',
  title: 'What is wired is fed, leads somewhere, and stands the right way round',
  family: 'connections',
  danger: false,
  statements: TOPICS.connected,
  subjects: (op) => users(op).map(({ part }) => ({ id: part.id, label: part.label })),
  judge: (subject, op) => judge(userOf(op, subject.id), op),
  remedies: (subject, op) => remedies(userOf(op, subject.id), op),
  failing: example('brake-lamp.-', 'brake-lamp.+'),
  passing: example('brake-lamp.+', 'brake-lamp.-'),
};

function example(fed: string, back: string): string {
  return `loomwright: 1
title: A lamp and its two wires
practice: europe
systems: { house: 12 V }
places: { bay: { label: Bay, hottest: 40 °C } }
parts:
  bank: { kind: battery, at: bay, role: house, chemistry: agm, capacity: 80 Ah }
  lamp-fuse: { kind: fuse, at: bay, family: blade-f, rating: 10 A, interrupts: 2 kA }
  brake-lamp: { kind: load, at: bay, current: 4 A }
wires:
  lead: { from: bank.+, to: lamp-fuse.line, size: 2.5 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: lamp-fuse.load, to: ${fed}, size: 2.5 mm2, insulation: pvc-105, length: 2 m }
  back: { from: ${back}, to: bank.-, size: 2.5 mm2, insulation: pvc-105, length: 2 m }
`;
}

interface Pair {
  readonly plus: TerminalRef;
  /** null: it returns by its fixing. */
  readonly minus: TerminalRef | null;
}

interface User {
  readonly part: Placed;
  /** Where it takes current. */
  readonly takes: Pair;
  /** Where a converter gives it. */
  readonly gives: Pair | null;
}

/** Loads and chargers that somebody has begun to wire. */
const users: (op: Operation) => readonly User[] = perOperation((op) => {
  const loads = [...op.parts.values()].flatMap((part): readonly User[] => {
    const takes = loadTerminals(part);
    return takes === null || part.ability.consumes?.ofVehicle !== false ? [] : [{ part, takes, gives: null }];
  });
  const units = chargers(op).map((c): User => ({
    part: c.part,
    takes: { plus: c.inPlus, minus: c.inMinus },
    gives: { plus: c.outPlus, minus: c.outMinus },
  }));
  return [...units, ...loads].filter(({ takes, gives }) =>
    [takes.plus, takes.minus, gives?.plus, gives?.minus].some(
      (t) => t !== null && t !== undefined && op.wiresAt(t).length > 0,
    ),
  );
});

function userOf(op: Operation, id: Id): User {
  const found = users(op).find((u) => u.part.id === id);
  if (found === undefined) throw new Error(`nothing to connect on ${id}`);
  return found;
}

interface Wrong {
  readonly says: string;
  readonly words: string;
}

function judge(user: User, op: Operation): Judgement {
  const { part, takes, gives } = user;
  const wrong =
    turned(op, part, takes, gives === null ? '' : ' input') ??
    (gives === null ? null : turned(op, part, gives, ' output')) ??
    unfed(op, part, takes) ??
    (gives === null ? null : leadsNowhere(op, part, gives));
  const about = [part.id];
  if (wrong === null)
    return judgement({ holds: true, says: `${capital(part.label)} is connected at both poles.`, about });
  return judgement({
    holds: false,
    says: `${capital(part.label)} ${wrong.says}.`,
    value: { value: null, unit: '', words: wrong.words },
    about,
  });
}

type Way = 'with' | 'against';

/** All that a terminal is joined to, through what lets current pass one way only as it passes, or against it. */
function nodesFrom(op: Operation, terminal: TerminalRef, way: Way): ReadonlySet<string> {
  return walked(netOf(op), `${terminal} ${way}`, () => walk(op, terminal, way));
}

/** By terminal and way; a net knows of what lets current pass one way only. */
const walked = perName<ReadonlySet<string>>();

function walk(op: Operation, terminal: TerminalRef, way: Way): ReadonlySet<string> {
  const passed = valves(op, way);
  const nodes = new Set<string>();
  const open: TerminalRef[] = [terminal];
  for (let start = open.pop(); start !== undefined; start = open.pop()) {
    if (nodes.has(start)) continue;
    for (const node of reach(netOf(op), start).keys()) nodes.add(node);
    open.push(...passed.flatMap(([from, to]) => (nodes.has(from) ? [to] : [])));
  }
  return nodes;
}

const valves = (op: Operation, way: Way): readonly (readonly [TerminalRef, TerminalRef])[] =>
  [...op.parts.values()].flatMap(({ id, ability: { oneWay } }) => {
    if (oneWay === undefined) return [];
    const [from, to] = oneWay.map((t): TerminalRef => `${id}.${t}`) as [TerminalRef, TerminalRef];
    return [way === 'with' ? ([from, to] as const) : ([to, from] as const)];
  });

/** Plus on a negative, minus on something that feeds it. */
function turned(op: Operation, part: Placed, { plus, minus }: Pair, which: string): Wrong | null {
  if (minus === null) return null;
  const atPlus = nodesFrom(op, plus, 'against');
  const atMinus = nodesFrom(op, minus, 'against');
  const others = sourcesOf(op).filter((s) => s.part !== part.id);
  const fed = (nodes: ReadonlySet<string>): boolean => others.some((s) => nodes.has(s.terminal));
  if (fed(atPlus) || !fed(atMinus) || !batteries(op).some((b) => atPlus.has(b.minus))) return null;
  return {
    says: `stands the wrong way round${which === '' ? '' : ` at its${which}`}: ${plus} is joined to a negative, ${minus} to a positive`,
    words: 'the wrong way round',
  };
}

interface Posts {
  readonly id: Id;
  readonly plus: TerminalRef;
  readonly minus: TerminalRef;
}

const batteries: (op: Operation) => readonly Posts[] = perOperation((op) =>
  [...op.parts.values()].flatMap(({ id, ability: { stores } }) =>
    stores === undefined
      ? []
      : [{ id, plus: `${id}.${stores.plus}`, minus: `${id}.${stores.minus}` } as const],
  ),
);

function unfed(op: Operation, part: Placed, { plus }: Pair): Wrong | null {
  const nodes = nodesFrom(op, plus, 'against');
  if (sourcesOf(op).some((s) => s.part !== part.id && nodes.has(s.terminal))) return null;
  return { says: `is fed by nothing: no conductor leads from a source to ${plus}`, words: 'not fed' };
}

/** A charger leads to a battery and back from it; one that only supplies loads leads to one of them. */
function leadsNowhere(op: Operation, part: Placed, { plus, minus }: Pair): Wrong | null {
  const nodes = nodesFrom(op, plus, 'with');
  const banks = batteries(op).filter((b) => nodes.has(b.plus));
  const [first] = banks;
  if (first === undefined) {
    const loads = [...op.parts.values()].some((p) => {
      const at = p.id === part.id ? null : loadTerminals(p);
      return at !== null && nodes.has(at.plus);
    });
    return loads
      ? null
      : { says: `gives to nothing: no conductor leads from ${plus} to a battery`, words: 'leads nowhere' };
  }
  const back = minus === null ? nodes : nodesFrom(op, minus, 'against');
  // In a series stack the return begins at another battery than the lead ends at.
  const stacks = stacksOf(op).filter((stack) => banks.some((b) => stack.includes(b.id)));
  if (batteries(op).some((b) => back.has(b.minus) && stacks.some((stack) => stack.includes(b.id))))
    return null;
  return {
    says: `cannot charge ${first.id}: no conductor leads from ${first.minus} back to ${minus ?? plus}`,
    words: 'no way back',
  };
}

/** The two ends of each turned pair exchanged. */
function remedies({ part, takes, gives }: User, op: Operation): readonly Remedy[] {
  return [takes, gives].flatMap((pair, i): readonly Remedy[] => {
    if (pair === null || pair.minus === null) return [];
    if (turned(op, part, pair, '') === null) return [];
    const at = gives === null ? '' : i === 0 ? ' at its input' : ' at its output';
    const changes = [...moved(op, pair.plus, pair.minus), ...moved(op, pair.minus, pair.plus)];
    return [{ title: `${part.id} turned round${at}`, changes }];
  });
}

const moved = (op: Operation, from: TerminalRef, to: TerminalRef): readonly Change[] =>
  op.wiresAt(from).map((id) => {
    const end = op.wires.get(id)?.from === from ? 'from' : 'to';
    return { set: ['wires', id, end], to };
  });
