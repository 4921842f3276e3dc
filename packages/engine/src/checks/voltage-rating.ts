/** Voltage rating: no part sees more volts than it is rated for, the usual greatest of its system at least. */
import type { Basis, Check, Id, Judgement, Operation, Placed, Solved, Step } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { flood, netOf, type Net } from './support/conductors.ts';
import { partNeed } from './support/figures-needed.ts';
import { judgement, missing, step, type Said } from './support/judgement.ts';
import { usualMost } from './support/limits.ts';
import { perKey, perOperation } from './support/memo.ts';
import { refOf } from './support/refs.ts';
import { atMost, volts } from './support/short-text.ts';
import { whereWords } from './support/words.ts';

export const voltageRating: Check = {
  id: 'voltage-rating',
  title: 'Voltage rating of a part',
  family: 'voltage rating',
  danger: true,
  statements: TOPICS.voltageRating,
  subjects: (op) =>
    [...op.parts.values()]
      .filter((p) => isRated(p) && !p.implied && isWired(op, p))
      .map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no part ${subject.id}`);
    return judge(part, op);
  },
  failing: example('16 V'),
  passing: example('32 V'),
};

function example(rated: string): string {
  return `loomwright: 1
title: A breaker on a 24 V vehicle
practice: europe
systems: { vehicle: 24 V }
places: { bay: { label: Battery bay, hottest: 40 °C } }
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: 80 Ah, dc-rating: 32 V }
  main: { kind: breaker, at: bay, rating: 30 A, reset: manual, interrupts: 5 kA, dc-rating: ${rated} }
  lamp: { kind: load, at: bay, current: 5 A, dc-rating: 32 V }
wires:
  lead: { from: battery.+, to: main.line, size: 10 mm2, insulation: pvc-105, length: 15 cm }
  branch: { from: main.load, to: lamp.+, size: 10 mm2, insulation: pvc-105, length: 1 m }
  back: { from: lamp.-, to: battery.-, size: 10 mm2, insulation: pvc-105, length: 1 m }
`;
}

/** Terminals that the rating speaks of; of a converter those of its input, which may be of another system than its output. */
function terminals(part: Placed): readonly string[] {
  const { converts } = part.ability;
  if (converts !== undefined) return [converts.inPlus, converts.inMinus];
  const names = part.kind.terminals(part.read);
  return names.type === 'named' ? names.names : [];
}

/** Parts that break a current or convert it; any other only where its rating is stated. */
function isRated(part: Placed): boolean {
  const { dcRating, protects, switches, converts } = part.ability;
  if (dcRating === undefined) return false;
  return (
    protects !== undefined || switches !== undefined || converts !== undefined || dcRating.stated !== null
  );
}

const isWired = (op: Operation, part: Placed): boolean =>
  terminals(part).some((t) => op.wiresAt(refOf(part.id, t)).length > 0);

/** Negative posts of the batteries. */
const negatives: (op: Operation) => readonly string[] = perOperation((op) =>
  [...op.parts.values()].flatMap((p) =>
    p.ability.stores === undefined ? [] : [refOf(p.id, p.ability.stores.minus)],
  ),
);

type Pair = readonly [a: string, b: string];

/** The two sides of the part, or each of its terminals and the negatives of its net: between them is what it has to break. */
function pairsOf(op: Operation, part: Placed): readonly Pair[] {
  const own = terminals(part);
  const pairs = (part.ability.across ?? [])
    .filter(([a, b]) => own.includes(a) && own.includes(b))
    .map(([a, b]): Pair => [refOf(part.id, a), refOf(part.id, b)]);
  if (pairs.length > 0) return pairs;
  return own.flatMap((t) => negatives(op).map((g): Pair => [refOf(part.id, t), g]));
}

/** Terminals whose net has a known voltage, with its system: batteries, terminals of the vehicle, both sides of a converter. */
function fedBy(p: Placed): readonly (readonly [terminal: string, system: string])[] {
  const { stores, signals, converts } = p.ability;
  const list: (readonly [string, string])[] = [];
  const storeSystem = stores?.system ?? stores?.role ?? null;
  if (stores !== undefined && storeSystem !== null) list.push([stores.plus, storeSystem]);
  if (signals !== undefined) list.push([signals.out, 'vehicle']);
  if (converts !== undefined) {
    list.push(
      [converts.inPlus, converts.inputSystem ?? 'vehicle'],
      [converts.outPlus, converts.outputSystem ?? 'house'],
    );
  }
  return list;
}

const fedNodes: (op: Operation) => readonly { readonly node: string; readonly system: string }[] =
  perOperation((op) =>
    [...op.parts.values()].flatMap((p) =>
      fedBy(p).map(([terminal, system]) => ({ node: refOf(p.id, terminal), system })),
    ),
  );

/** All that a terminal is joined to, into the returns only through its own part. */
function around(net: Net, part: Id, terminal: string): ReadonlySet<string> {
  const known = arounds(net);
  const key = `${part} ${terminal}`;
  let reached = known.get(key);
  if (reached === undefined) {
    reached = flood(net.at, terminal, (link, next) => !net.isReturn(next) || link.id === part);
    known.set(key, reached);
  }
  return reached;
}

const arounds = perKey<Net, Map<string, ReadonlySet<string>>>(() => new Map());

/** Nominal volts of the nets that the part's terminals belong to, the greatest. */
function nominalOf(op: Operation, part: Placed): number {
  const net = netOf(op);
  const found: number[] = [];
  for (const t of terminals(part)) {
    const reached = around(net, part.id, refOf(part.id, t));
    for (const { node, system } of fedNodes(op)) {
      const nominal = op.build.systems[system];
      if (nominal !== undefined && reached.has(node)) found.push(nominal);
    }
  }
  return found.length > 0 ? Math.max(...found) : part.read.about.nominal;
}

interface Most {
  readonly volts: number;
  readonly solved: Solved | null;
}

function greatest(op: Operation, part: Placed): Most {
  let [most, at] = [0, -1];
  for (const [a, b] of pairsOf(op, part)) {
    const { volts, place } = op.mostVolts(a, b);
    if (volts > most || (volts === most && place < at)) [most, at] = [volts, place];
  }
  return { volts: most, solved: op.all()[at] ?? null };
}

function judge(part: Placed, op: Operation): Judgement {
  const nominal = nominalOf(op, part);
  const usual = usualMost(nominal);
  const most = greatest(op, part);
  const asked = Math.max(usual, most.volts);
  const rated = part.ability.dcRating?.stated ?? part.ability.dcRating?.family ?? null;
  const working = (): readonly Step[] => [
    ...(most.solved === null
      ? []
      : [step(`Greatest volts at ${part.id}`, whereWords(most.solved), most.volts, 'V')]),
    step(`Usual greatest of a ${volts(nominal)} system`, 'highest charging voltage in use', usual, 'V', {
      source: 'common practice, no source',
    }),
  ];
  const shared = {
    value: { value: asked, unit: 'V' },
    worst: most.volts > usual ? (most.solved?.id ?? null) : null,
    working,
    about: [part.id],
  };
  if (rated === null) return withoutRating(part, nominal, asked, shared);
  return withRating(part, rated, asked, shared);
}

type Shared = Omit<Said, 'holds' | 'says'>;

function withRating(part: Placed, rated: Basis, asked: number, shared: Shared): Judgement {
  const limit = rated.sourced.value;
  const holds = atMost(asked, limit);
  return judgement({
    ...shared,
    holds,
    says: () =>
      holds
        ? `${part.label} is rated ${volts(limit)} dc and sees at most ${volts(asked)}.`
        : `${part.label} is rated ${volts(limit)} dc and may see ${volts(asked)}: it may not break an arc at that voltage.`,
    limit: { value: limit, unit: 'V' },
    margin: limit - asked,
    // The figure of a family is what its standard prints; only a rating that is stated for the part can be doubted.
    ...(part.ability.dcRating?.stated === null ? { restsOn: [rated] } : { limits: [rated] }),
  });
}

function withoutRating(part: Placed, nominal: number, asked: number, shared: Shared): Judgement {
  const says = (): string =>
    `The dc voltage rating of ${part.label} is not known; it may see ${volts(asked)}.`;
  // At 12 V nearly every part on sale bears it; at 24 and 48 V many do not.
  if (nominal <= 14) return judgement({ ...shared, holds: true, note: 'advice', says });
  return missing(says, [partNeed(part.id, 'dc-rating', `it may see ${volts(asked)}`)], shared);
}
