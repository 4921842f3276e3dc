/** A vehicle's own wire driven from behind: by the house, the sun, or another circuit of the vehicle. */
import type { Check, Judgement, Operation, Placed, Remedy, Solved } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { liveness } from './support/charger.ts';
import { backFedExample, settledExample } from './support/examples.ts';
import { judgement, present, step } from './support/judgement.ts';
import type { Hop } from './support/net.ts';
import { idsOf, netOf, reach, wayText } from './support/net.ts';
import { batteries } from './support/no-start.ts';
import { A, Ah, capital, inState, V, whereWords } from './support/words.ts';
import { whole, worstOf } from './support/worst.ts';

export const backFeed: Check = {
  id: 'back-feed',
  title: 'No wire of the vehicle is fed from behind',
  family: 'back-feed',
  danger: true,
  statements: TOPICS.backFeed,
  subjects: (op) => points(op).map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op) {
    const point = points(op).find((p) => p.id === subject.id);
    if (point === undefined) throw new Error(`no supply point ${subject.id}`);
    return judge(point, op);
  },
  remedies: (subject, op) => remedies(op, subject.id),
  failing: backFedExample,
  passing: settledExample,
};

const points = (op: Operation): readonly Placed[] =>
  [...op.parts.values()].filter((p) => p.ability.signals !== undefined);

/** Driven into a sleeping wire: more than this is felt by what sleeps there, A. */
const MOST_AMPS = 0.02;
/** A sleeping wire held higher than this may wake what hangs on it, V. */
const MOST_VOLTS = 1;

interface Fed {
  readonly amps: number;
  readonly volts: number;
}

function judge(point: Placed, op: Operation): Judgement {
  const { signals } = point.ability;
  if (signals === undefined) throw new Error(`${point.id} is no supply point`);
  const out = `${point.id}.${signals.out}`;
  const minus = op.posts?.minus ?? null;
  const worst = worstOf<Fed>(whole(op), (s) => {
    if (!asleep(s, point)) return null;
    const volts = Math.abs(minus === null ? 0 : (s.voltsRange(out, minus)?.[1] ?? 0));
    const amps = s.terminalAmps(point.id, signals.out);
    // Both limits on one scale: shares of what is tolerated.
    return { margin: 1 - Math.max(amps / MOST_AMPS, volts / MOST_VOLTS), of: { amps, volts } };
  });
  const label = capital(point.label);
  const shared = { restsOn: present([signals.liveBasis]), about: [point.id] };
  if (worst === null)
    return judgement({ holds: true, says: `${label} is live in every state that is judged.`, ...shared });
  const { amps, volts } = worst.of;
  const holds = worst.margin >= 0;
  const state = inState(worst.solved.condition.state);
  const path = holds ? null : fedBy(op, out, worst.solved);
  const from = path === null ? '' : ` from ${path.source} through ${wayText(path.hops)}`;
  const taken = amps > MOST_AMPS / 20 ? `; it takes ${A(amps)}, ${Ah(amps * 24)} a day` : '';
  return judgement({
    holds,
    says: () =>
      holds
        ? `${label} gets at most ${V(volts)} and ${A(Math.max(amps, 0))} from behind when it is dead.`
        : `${label} is fed from behind ${state}${from}: ${V(volts)} on it where the vehicle has switched it off${taken}.`,
    value: amps > MOST_AMPS ? { value: amps, unit: 'A' } : { value: volts, unit: 'V' },
    limit: amps > MOST_AMPS ? { value: MOST_AMPS, unit: 'A' } : { value: MOST_VOLTS, unit: 'V' },
    margin: amps > MOST_AMPS ? MOST_AMPS - amps : MOST_VOLTS - volts,
    worst: worst.solved.id,
    others: worst.others,
    working: () => [
      step('volts on the dead wire', whereWords(worst.solved), volts, 'V'),
      step('current driven into it', whereWords(worst.solved), amps, 'A'),
      ...(path === null
        ? []
        : [step('way', `${path.source}, ${wayText(path.hops)}`, null, '', { about: idsOf(path.hops) })]),
      step('drawn in a day', `${A(amps)} × 24 h`, amps * 24, 'Ah'),
    ],
    ...shared,
    about: [point.id, ...(path === null ? [] : [path.source, ...idsOf(path.hops)])],
  });
}

/** The vehicle gives nothing here; a state in neither list is also taken as dead. */
function asleep(s: Solved, point: Placed): boolean {
  const { signals } = point.ability;
  if (signals === undefined) return false;
  const says = liveness(signals, s.condition.state);
  return says === 'dead' || (says === 'unknown' && !s.condition.unknownLive);
}

/** The shortest way from a source's plus to the wire, over contacts that carry current or stand at one voltage. */
function fedBy(
  op: Operation,
  out: string,
  s: Solved,
): { readonly source: string; readonly hops: readonly Hop[] } | null {
  const net = netOf(op);
  const ways = reach(
    net,
    out,
    (link) => link.type !== 'contact' || Math.abs(s.volts(link.a, link.b) ?? 99) < 0.5,
  );
  const sources = [
    ...batteries(op).map((b) => ({ id: b.part.id, at: b.plus })),
    ...points(op).map((p) => ({ id: p.id, at: `${p.id}.${p.ability.signals?.out ?? ''}` })),
    ...[...op.parts.values()].flatMap((p) =>
      p.ability.generates === undefined ? [] : [{ id: p.id, at: `${p.id}.${p.ability.generates.plus}` }],
    ),
  ].filter((c) => c.at !== out);
  const found = sources
    .map((c) => ({ source: c.id, hops: ways.get(c.at) }))
    .filter((c): c is { source: string; hops: readonly Hop[] } => c.hops !== undefined)
    .toSorted((a, b) => a.hops.length - b.hops.length)[0];
  return found === undefined ? null : { source: found.source, hops: found.hops.toReversed() };
}

/** A diode behind the point lets it give and not take. */
function remedies(op: Operation, id: string): readonly Remedy[] {
  const point = op.parts.get(id);
  const out = `${id}.${point?.ability.signals?.out ?? ''}`;
  const [wire] = op.wiresAt(out);
  const laid = wire === undefined ? undefined : op.wires.get(wire);
  const diode = `${id}-diode`;
  if (point === undefined || wire === undefined || laid === undefined || op.parts.has(diode)) return [];
  const end = laid.from === out ? 'from' : 'to';
  return [
    {
      title: `a diode at ${point.label}, so that it gives and does not take`,
      changes: [
        {
          add: ['parts', diode],
          value: { kind: 'diode', ...(point.at === null ? {} : { at: point.at }), rating: '3 A' },
        },
        { set: ['wires', wire, end], to: `${diode}.cathode` },
        {
          add: ['wires', `${diode}-lead`],
          value: { from: out, to: `${diode}.anode`, size: '1 mm2', length: '10 cm' },
        },
      ],
    },
  ];
}
