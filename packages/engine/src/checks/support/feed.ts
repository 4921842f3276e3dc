/** Who feeds a part, along which conductors, and what the loop amounts to. */
import type { Basis, Id, Operation, Placed, Solved, Step, TerminalRef } from '../../contracts/index.ts';
import { stacksOf } from './conductors.ts';
import { present } from './judgement.ts';
import { perName, perOperation } from './memo.ts';
import type { Hop } from './net.ts';
import type { Flow } from './net.ts';
import { netOf, partOf, reach, reachPast, sectionNode, terminalOf, valvesOn, wayText } from './net.ts';
import { ohm } from './words.ts';

/** A source as seen from what it feeds. */
export interface Feed {
  readonly part: Placed;
  /** Its posts. */
  readonly plus: TerminalRef;
  readonly minus: TerminalRef;
  /** Nominal volts of its system. */
  readonly nominal: number;
  readonly plusWay: readonly Hop[];
  /** null: no conductor leads back to it. */
  readonly minusWay: readonly Hop[] | null;
}

interface Post {
  readonly part: Placed;
  readonly plus: TerminalRef;
  readonly minus: TerminalRef;
  readonly system: string | null;
  /** Inside the vehicle: from a terminal of it to the post that feeds it. */
  readonly inside?: Hop;
}

/**
 * The source nearest to a pair of terminals: a battery, else a converter's output or another source, whose plus conductors
 * reach from `plus` and, when they do, whose minus from `minus`. Batteries come first because they hold the voltage. Where none
 * is joined, the nearest past a diode. Behind a terminal of the vehicle it is the vehicle battery, by way of that terminal. `flow`: against the current to what feeds a pair, with it to what a pair feeds.
 */
export const feedOf = (
  op: Operation,
  plus: TerminalRef,
  minus: TerminalRef | null,
  flow: Flow = 'against',
): Feed | null => feedsOf(op, plus, minus, flow)[0] ?? null;

/** As `feedOf`; where none is joined, the nearest past each set of diodes, the nearest of them first. */
export function feedsOf(
  op: Operation,
  plus: TerminalRef,
  minus: TerminalRef | null,
  flow: Flow = 'against',
): readonly Feed[] {
  return feedsKnown(op, `${plus} ${minus ?? ''} ${flow}`, () =>
    feedsFrom(op, [plus, minus], flow, [
      batteryPosts(op),
      otherPosts(op, partOf(plus)),
      vehicleTerminals(op),
    ]),
  );
}

const feedsKnown = perName<readonly Feed[]>();

/** The nearest battery that a pair of terminals charges; where none is joined, the nearest past each set of diodes. */
export const banksOf = (op: Operation, plus: TerminalRef, minus: TerminalRef | null): readonly Feed[] =>
  feedsFrom(op, [plus, minus], 'with', [batteryPosts(op)]);

type Ways = ReadonlyMap<TerminalRef, readonly Hop[]>;

function feedsFrom(
  op: Operation,
  [plus, minus]: readonly [TerminalRef, TerminalRef | null],
  flow: Flow,
  preferred: readonly (readonly Post[])[],
): readonly Feed[] {
  const net = netOf(op);
  const back = minus === null ? null : reachPast(net, minus, flow === 'with' ? 'against' : 'with');
  for (const ways of [reach(net, plus), reachPast(net, plus, flow)]) {
    for (const posts of preferred) {
      const found = nearest(posts, ways);
      if (found.length > 0) return found.map((c) => feedFrom(op, c, back));
    }
  }
  return [];
}

interface Near {
  readonly post: Post;
  readonly way: readonly Hop[];
}

/** Of the posts that the ways reach, the nearest past each set of diodes. */
function nearest(posts: readonly Post[], ways: Ways): readonly Near[] {
  const found = posts
    .map((post) => ({ post, way: ways.get(post.plus) }))
    .filter((c): c is Near => c.way !== undefined)
    .toSorted((x, y) => x.way.length - y.way.length);
  const first = new Map<string, Near>();
  for (const near of found) {
    const past = valvesOn(near.way).join(' ');
    if (!first.has(past)) first.set(past, near);
  }
  return [...first.values()];
}

function feedFrom(op: Operation, { post, way }: Near, ways: Ways | null): Feed {
  const own = ways?.get(post.minus);
  // In a series stack the return ends at another battery than the feed began.
  const back = own === undefined ? nearestMinus(op, post.part.id, ways) : { terminal: post.minus, way: own };
  return {
    part: post.part,
    plus: post.inside?.to ?? post.plus,
    minus: back?.terminal ?? post.minus,
    nominal: nominalOf(op, post.system),
    plusWay: post.inside === undefined ? way : [...way, post.inside],
    minusWay: back?.way ?? null,
  };
}

/** Of the batteries in series with it, the nearest negative. */
function nearestMinus(
  op: Operation,
  battery: Id,
  ways: Ways | null,
): { readonly terminal: TerminalRef; readonly way: readonly Hop[] } | null {
  const stack = stacksOf(op).find((group) => group.includes(battery)) ?? [];
  return (
    batteryPosts(op)
      .filter((post) => stack.includes(post.part.id))
      .map((post) => ({ terminal: post.minus, way: ways?.get(post.minus) }))
      .filter((c): c is { terminal: TerminalRef; way: readonly Hop[] } => c.way !== undefined)
      .toSorted((x, y) => x.way.length - y.way.length)[0] ?? null
  );
}

const batteryPosts: (op: Operation) => readonly Post[] = perOperation((op) =>
  [...op.parts.values()].flatMap((part) => {
    const s = part.ability.stores;
    return s === undefined
      ? []
      : [{ part, plus: `${part.id}.${s.plus}`, minus: `${part.id}.${s.minus}`, system: s.system ?? s.role }];
  }),
);

/** Terminals of the vehicle that stand at the posts' voltage: their own resistance lies in the way. */
function vehicleTerminals(op: Operation): readonly Post[] {
  const { posts } = op;
  if (posts === null) return [];
  const battery = batteryPosts(op).find((post) => post.plus === posts.plus);
  if (battery === undefined) return [];
  return [...op.parts.values()].flatMap(({ id, read, ability: { signals } }) => {
    if (signals === undefined || read.given('volts')) return [];
    const out = `${id}.${signals.out}`;
    const link = { a: out, b: posts.plus, type: 'joined', id, changeOver: false } as const;
    return [{ ...battery, plus: out, minus: posts.minus, inside: { link, from: out, to: posts.plus } }];
  });
}

function otherPosts(op: Operation, not: Id): readonly Post[] {
  return [...op.parts.values()].flatMap((part) => {
    const { converts, generates } = part.ability;
    if (part.id === not) return [];
    if (converts !== undefined) {
      const { outPlus, outMinus, outputSystem } = converts;
      return [{ part, plus: `${part.id}.${outPlus}`, minus: `${part.id}.${outMinus}`, system: outputSystem }];
    }
    if (generates === undefined) return [];
    return [
      { part, plus: `${part.id}.${generates.plus}`, minus: `${part.id}.${generates.minus}`, system: null },
    ];
  });
}

/** Nominal volts of a system; 12 V where nothing is said. */
export function nominalOf(op: Operation, system: string | null): number {
  const { systems } = op.build;
  return (
    (system === null ? undefined : systems[system]) ?? systems['vehicle'] ?? Object.values(systems)[0] ?? 12
  );
}

/** The terminals between which a load works. */
export function loadTerminals(
  part: Placed,
): { readonly plus: TerminalRef; readonly minus: TerminalRef | null } | null {
  const c = part.ability.consumes;
  if (c === undefined) return null;
  const minus =
    c.minus !== null ? `${part.id}.${c.minus}` : c.section !== null ? sectionNode(c.section) : null;
  return { plus: `${part.id}.${c.plus}`, minus };
}

/** The hops of a loop, out and back. */
export const loopHops = (feed: Feed): readonly Hop[] => [...feed.plusWay, ...(feed.minusWay ?? [])];

/** What lies between two terminals of a way: a wire, or a part from where the way enters to where it leaves. */
interface Piece {
  readonly id: Id;
  readonly wire: boolean;
  readonly from: string;
  readonly to: string;
}

function pieces(hops: readonly Hop[]): readonly Piece[] {
  const list: Piece[] = [];
  for (const { link, from, to } of hops) {
    const last = list.at(-1);
    const wire = link.type === 'wire';
    if (last !== undefined && !wire && !last.wire && last.id === link.id)
      list[list.length - 1] = { ...last, to };
    else list.push({ id: link.id, wire, from, to });
  }
  return list;
}

/** Resistance as solved: volts across by amperes through (of a cycle: by the means, which is the same). */
function pieceOhms(solved: Solved, piece: Piece): number {
  const own = [piece.from, piece.to].find((t) => partOf(t) === piece.id);
  const amps = piece.wire
    ? solved.wireAmps(piece.id)
    : own === undefined
      ? 0
      : solved.terminalAmps(piece.id, terminalOf(own));
  const volts = solved.volts(piece.from, piece.to);
  if (volts !== null && Math.abs(amps) > LEAST_AMPS) return Math.abs(volts / amps);
  return piece.wire ? solved.wireOhms(piece.id) : 0;
}

/** Less current than this does not tell a resistance, A. */
const LEAST_AMPS = 1e-3;

/** Resistance along a way, as solved; a diode's volts are no resistance: `lostPast`. */
export const wayOhms = (solved: Solved, hops: readonly Hop[]): number =>
  pieces(hops.filter((hop) => hop.link.type !== 'valve')).reduce(
    (sum, piece) => sum + pieceOhms(solved, piece),
    0,
  );

/** Volts lost in the diodes of a way, as solved. */
export const lostPast = (solved: Solved, hops: readonly Hop[]): number =>
  hops.reduce((sum, hop) => (hop.link.type === 'valve' ? sum + lostIn(solved, hop) : sum), 0);

const lostIn = (solved: Solved, { link }: Hop): number => Math.abs(solved.volts(link.a, link.b) ?? 0);

/** Working lines of a loop: out, back and together. */
export function loopSteps(solved: Solved, feed: Feed): readonly Step[] {
  const out = wayOhms(solved, feed.plusWay);
  const back = wayOhms(solved, feed.minusWay ?? []);
  return [
    { what: 'positive side of the loop', how: wayText(feed.plusWay), value: out, unit: 'Ω' },
    { what: 'negative side of the loop', how: wayText(feed.minusWay ?? []), value: back, unit: 'Ω' },
    { what: 'loop resistance', how: `${ohm(out)} + ${ohm(back)}`, value: out + back, unit: 'Ω' },
    ...loopHops(feed)
      .filter((hop) => hop.link.type === 'valve')
      .map((hop) => ({
        what: `lost in ${hop.link.id}`,
        how: `from ${hop.link.a} to ${hop.link.b}, where it conducts`,
        value: lostIn(solved, hop),
        unit: 'V',
      })),
  ];
}

const RESISTING = ['resistance', 'contact', 'joint'];

/** What the resistance of a way rests on: lengths of wires, joints, contacts, devices. */
export function wayBases(op: Operation, hops: readonly Hop[]): readonly Basis[] {
  return hops.flatMap(({ link }) => {
    const wire = link.type === 'wire' ? op.wires.get(link.id) : undefined;
    if (wire !== undefined) return present([wire.length, wire.ohms20, ...wire.joints]);
    const part = op.parts.get(link.id);
    if (link.type === 'valve') return present([part?.ability.forward]);
    return present(
      RESISTING.map((f) => (part !== undefined && f in part.kind.fields ? part.read.quantity(f) : null)),
    );
  });
}

/** Wires of a way. */
export const wiresOf = (hops: readonly Hop[]): readonly Id[] => [
  ...new Set(hops.filter((h) => h.link.type === 'wire').map((h) => h.link.id)),
];
