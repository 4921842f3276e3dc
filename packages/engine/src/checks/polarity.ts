/**
 * Polarised dc breakers: their arc chamber puts out an arc of one direction only. What flows from load to line, in service or
 * into a short on the line side, is not interrupted: the breaker burns.
 */
import type { Change, Check, Judgement, Operation, Placed, Remedy, Solved } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { netOf as conductorsOf } from './support/conductors.ts';
import { judgement, step } from './support/judgement.ts';
import { netOf, reach, refOf, wayText, type Hop } from './support/net.ts';
import { mostFrom, sourcesOf } from './support/sources.ts';
import { A, capital, listed, V, whereWords } from './support/words.ts';
import { worstOf } from './support/worst.ts';

export const polarity: Check = {
  id: 'polarity',
  title: 'Polarised breakers are passed in their direction only',
  family: 'protection',
  danger: false,
  statements: TOPICS.polarity,
  subjects: (op) => polarised(op).map((b) => ({ id: b.part.id, label: b.part.label })),
  judge: (subject, op) => judge(breakerOf(op, subject.id), op),
  remedies: (subject, op) => remedies(breakerOf(op, subject.id), op),
  failing: example('pump-breaker.load', 'pump-breaker.line'),
  passing: example('pump-breaker.line', 'pump-breaker.load'),
};

interface Breaker {
  readonly part: Placed;
  readonly line: string;
  readonly load: string;
}

const polarised = (op: Operation): readonly Breaker[] =>
  [...op.parts.values()].flatMap((part) => {
    const p = part.ability.protects;
    if (p === undefined || p.type !== 'breaker' || p.polarised !== true) return [];
    return [{ part, line: refOf(part.id, p.from), load: refOf(part.id, p.to) }];
  });

function breakerOf(op: Operation, id: string): Breaker {
  const found = polarised(op).find((b) => b.part.id === id);
  if (found === undefined) throw new Error(`no polarised breaker ${id}`);
  return found;
}

/** Less than this backwards makes no arc, A (common practice). */
const LEAST_A = 0.1;
/** Under this nothing feeds a side, V. */
const DEAD_V = 2;

function judge(breaker: Breaker, op: Operation): Judgement {
  const { part } = breaker;
  const back = worstOf<number>(op.all(), (s) => {
    const amps = backwards(s, breaker);
    return { margin: LEAST_A - amps, of: amps };
  });
  if (back !== null && back.of > LEAST_A) {
    return judgement({
      holds: false,
      says: () =>
        `${capital(part.label)} is polarised and is passed backwards ${whereWords(back.solved)}: ${A(back.of)} from load to line, which it may not be able to break.`,
      value: { value: back.of, unit: 'A' },
      limit: { value: LEAST_A, unit: 'A' },
      margin: back.margin,
      worst: back.solved.id,
      others: back.others,
      working: () => [
        step(`from ${breaker.load} to ${breaker.line}`, whereWords(back.solved), back.of, 'A', {
          about: [part.id],
        }),
      ],
      about: [part.id],
    });
  }
  return fedFromBehind(breaker, op) ?? liveBehind(breaker, op) ?? oneWay(breaker);
}

const oneWay = ({ part }: Breaker): Judgement =>
  judgement({
    holds: true,
    says: () => `${capital(part.label)} is passed from line to load only, and nothing feeds its load side.`,
    limit: { value: LEAST_A, unit: 'A' },
    about: [part.id],
  });

/** Greatest current from load to line, A, over a cycle the greatest of its points. */
function backwards(s: Solved, { part, line, load }: Breaker): number {
  if (s.condition.open === part.id) return 0;
  const [least, most] = s.voltsRange(line, load) ?? [0, 0];
  if (!(least < 0)) return 0;
  // Through one resistance currents are as its volts.
  return (Math.abs(s.partMost(part.id, 0)) * -least) / Math.max(-least, Math.abs(most));
}

/** A source that conductors join to the load side: into a short on the line side it feeds backwards. */
function fedFromBehind({ part, line, load }: Breaker, op: Operation): Judgement | null {
  const { isReturn } = conductorsOf(op);
  if (isReturn(line) || isReturn(load)) return null;
  const reached = reach(netOf(op), load, (link, to) => link.id !== part.id && !isReturn(to));
  const feeders = sourcesOf(op).filter((s) => reached.has(s.terminal) && mostFrom(s) > LEAST_A);
  if (feeders.length === 0) return null;
  const way = (terminal: string): readonly Hop[] => reached.get(terminal) ?? [];
  return judgement({
    ...backwardsInFault(part, listed([...new Set(feeders.map((s) => s.label))])),
    working: feeders.map((s) => {
      const most = mostFrom(s);
      return step(
        `from ${s.terminal} into ${load}`,
        wayText(way(s.terminal).toReversed()),
        Number.isFinite(most) ? most : null,
        'A',
        { about: [s.part] },
      );
    }),
    about: [part.id, ...feeders.map((s) => s.part)],
  });
}

/** Opened, its load side is still live: something feeds it by a way that is no plain conductor (a diode). */
function liveBehind({ part, load }: Breaker, op: Operation): Judgement | null {
  const minus = op.posts?.minus ?? null;
  if (minus === null) return null;
  const opened = op.all().filter((s) => s.condition.open === part.id);
  const worst = worstOf<number>(opened, (s) => {
    const volts = Math.max(...(s.voltsRange(load, minus) ?? [0]).map(Math.abs));
    return { margin: DEAD_V - volts, of: volts };
  });
  if (worst === null || worst.of <= DEAD_V) return null;
  return judgement({
    ...backwardsInFault(part, 'something'),
    value: { value: worst.of, unit: 'V' },
    limit: { value: DEAD_V, unit: 'V' },
    margin: worst.margin,
    worst: worst.solved.id,
    others: worst.others,
    working: () => [
      step(
        `volts from ${load} to ${minus}`,
        `${whereWords(worst.solved)}, ${part.id} open: ${V(worst.of)}`,
        worst.of,
        'V',
        {
          about: [part.id],
        },
      ),
    ],
    about: [part.id],
  });
}

const backwardsInFault = (part: Placed, by: string): Pick<Judgement, 'holds' | 'says'> => ({
  holds: false,
  says: `${capital(part.label)} is polarised, and its load side is fed by ${by} too: a short on its line side passes it backwards, which it may not be able to break.`,
});

function remedies({ part, line, load }: Breaker, op: Operation): readonly Remedy[] {
  const moved = (from: string, to: string): readonly Change[] =>
    op.wiresAt(from).flatMap((id) => {
      const end = op.wires.get(id)?.from === from ? 'from' : 'to';
      return [{ set: ['wires', id, end], to }];
    });
  return [
    { title: `${part.id} turned round`, changes: [...moved(line, load), ...moved(load, line)] },
    {
      title: 'a breaker that interrupts in both directions',
      changes: [{ set: ['parts', part.id, 'polarised'], to: 'no' }],
    },
  ];
}

function example(fed: string, feeds: string): string {
  return `loomwright: 1
title: A pump behind a polarised breaker
practice: europe
systems: { vehicle: 12 V }
places: { bay: { label: Battery bay, hottest: 45 °C } }
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: 80 Ah }
  pump-breaker: { kind: breaker, at: bay, rating: 15 A, reset: manual, interrupts: 5 kA, polarised: yes }
  pump: { kind: load, at: bay, power: 60 W, on: always }
wires:
  feed: { from: battery.+, to: ${fed}, size: 2.5 mm2, insulation: pvc-105, length: 15 cm }
  pump-feed: { from: ${feeds}, to: pump.+, size: 2.5 mm2, insulation: pvc-105, length: 2 m }
  pump-return: { from: pump.-, to: battery.-, size: 2.5 mm2, insulation: pvc-105, length: 2 m }
`;
}
