/** What lies behind a contact: the load that it switches decides which of its ratings counts. */
import type { Id, Operation, Placed } from '../../contracts/index.ts';
import { flood, netOf } from './conductors.ts';
import { partOf, refOf, terminalOf } from './refs.ts';
import { sourcesOf } from './sources.ts';

export type Sort = 'lamp' | 'inductive' | 'resistive';

export interface Behind {
  readonly sort: Sort;
  /** The part that makes it lamp or inductive. */
  readonly because: Id | null;
}

/**
 * The hardest load found from the contact's terminals on the sides that no source feeds; on both when a source feeds both. A
 * contact that joins two batteries breaks the current between them: what they feed is fed whether it is open or closed.
 */
export function behind(op: Operation, part: Placed, from: string, to: string): Behind {
  const sides = [refOf(part.id, from), refOf(part.id, to)].map((start) => nodesFrom(op, part.id, start));
  if ([from, to].every((end) => held(op, part.id, refOf(part.id, end))))
    return { sort: 'resistive', because: null };
  const dry = sides.filter((nodes) => !fed(op, nodes));
  const nodes = new Set((dry.length > 0 ? dry : sides).flatMap((side) => [...side]));
  const users = [...op.parts.values()].filter((p) => p.id !== part.id && used(p, nodes));
  const lamp = users.find((p) => p.ability.consumes?.character === 'lamp');
  if (lamp !== undefined) return { sort: 'lamp', because: lamp.id };
  const coil = users.find((p) => inductive(p));
  return coil === undefined ? { sort: 'resistive', because: null } : { sort: 'inductive', because: coil.id };
}

function nodesFrom(op: Operation, part: Id, start: string): ReadonlySet<string> {
  const net = netOf(op);
  return flood(
    net.at,
    start,
    (link, next) => link.id !== part && (net.isReturn(start) || !net.isReturn(next)),
  );
}

const fed = (op: Operation, nodes: ReadonlySet<string>): boolean =>
  sourcesOf(op).some((s) => nodes.has(s.terminal));

/** A battery stands there, with no contact before it that may be open but an isolator. */
function held(op: Operation, part: Id, start: string): boolean {
  const net = netOf(op);
  const joined = flood(
    net.at,
    start,
    ({ id, type }, next) =>
      id !== part &&
      !net.isReturn(next) &&
      (type !== 'contact' || op.parts.get(id)?.ability.switches?.isolates === true),
  );
  return sourcesOf(op).some((s) => s.stiff && joined.has(s.terminal));
}

/** The part draws current at one of these nodes. */
function used(part: Placed, nodes: ReadonlySet<string>): boolean {
  return [...nodes].some((node) => {
    if (partOf(node) !== part.id) return false;
    const { consumes, switches } = part.ability;
    const coil = switches?.coil ?? null;
    const terminals = [consumes?.plus, consumes?.minus, coil?.plus, coil?.minus];
    return terminals.includes(terminalOf(node));
  });
}

function inductive(part: Placed): boolean {
  if (part.ability.consumes?.character === 'inductive') return true;
  const coil = part.ability.switches?.coil ?? null;
  return coil !== null && !coil.suppressed;
}
