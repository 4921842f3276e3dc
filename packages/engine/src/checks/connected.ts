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
import { feedOf, loadTerminals } from './support/feed.ts';
import { judgement } from './support/judgement.ts';
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
function users(op: Operation): readonly User[] {
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
}

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

const nodesFrom = (op: Operation, terminal: TerminalRef): ReadonlySet<string> =>
  new Set(reach(netOf(op), terminal).keys());

/** Plus on a negative, minus on something that feeds it. */
function turned(op: Operation, part: Placed, { plus, minus }: Pair, which: string): Wrong | null {
  if (minus === null) return null;
  const atPlus = nodesFrom(op, plus);
  const atMinus = nodesFrom(op, minus);
  const others = sourcesOf(op).filter((s) => s.part !== part.id);
  const fed = (nodes: ReadonlySet<string>): boolean => others.some((s) => nodes.has(s.terminal));
  if (fed(atPlus) || !fed(atMinus) || !batteryMinuses(op).some((t) => atPlus.has(t))) return null;
  return {
    says: `stands the wrong way round${which === '' ? '' : ` at its${which}`}: ${plus} is joined to a negative, ${minus} to a positive`,
    words: 'the wrong way round',
  };
}

const batteryMinuses = (op: Operation): readonly TerminalRef[] =>
  [...op.parts.values()].flatMap((p) =>
    p.ability.stores === undefined ? [] : [`${p.id}.${p.ability.stores.minus}` as const],
  );

function unfed(op: Operation, part: Placed, { plus }: Pair): Wrong | null {
  const nodes = nodesFrom(op, plus);
  if (sourcesOf(op).some((s) => s.part !== part.id && nodes.has(s.terminal))) return null;
  return { says: `is fed by nothing: no conductor leads from a source to ${plus}`, words: 'not fed' };
}

/** A charger leads to a battery and back from it; one that only supplies loads leads to one of them. */
function leadsNowhere(op: Operation, part: Placed, { plus, minus }: Pair): Wrong | null {
  const nodes = nodesFrom(op, plus);
  const feed = feedOf(op, plus, minus);
  if (feed === null || feed.part.ability.stores === undefined) {
    const loads = [...op.parts.values()].some((p) => {
      const at = p.id === part.id ? null : loadTerminals(p);
      return at !== null && nodes.has(at.plus);
    });
    return loads
      ? null
      : { says: `gives to nothing: no conductor leads from ${plus} to a battery`, words: 'leads nowhere' };
  }
  if (feed.minusWay !== null) return null;
  const battery = feed.part.id;
  return {
    says: `cannot charge ${battery}: no conductor leads from ${feed.minus} back to ${minus ?? plus}`,
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
