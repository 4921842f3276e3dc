/** Which picture a wire belongs to, and which way current runs through it: power, control, negative. */
import type { Id, Operation, TerminalRef } from '../contracts/index.ts';
import { across, flood, netOf, type Net } from '../checks/support/conductors.ts';
import { otherEnd, partOf, refOf, terminalOf } from '../checks/support/refs.ts';
import type { Roles } from './roles.ts';
import type { WireView } from './subject.ts';

/** The rows of each part's symbol: current paths from terminal to terminal. */
export type Rows = ReadonlyMap<Id, readonly (readonly [string, string])[]>;

export function viewsOf(op: Operation, roles: Roles, rows: Rows): ReadonlyMap<Id, WireView> {
  const control = controlWires(op, roles, rows);
  const negative = negativeNodes(netOf(op), roles);
  const viewOf = (id: Id, from: TerminalRef): WireView => {
    if (control.has(id)) return 'control';
    return negative.has(from) ? 'negative' : 'power';
  };
  return new Map([...op.wires.values()].map((wire) => [wire.id, viewOf(wire.id, wire.from)]));
}

/** At return potential, or joined to negatives only (a panel's own negative behind an isolated controller). */
function negativeNodes(net: Net, roles: Roles): ReadonlySet<string> {
  const negative = new Set<string>();
  const done = new Set<string>();
  for (const node of net.nodes) {
    if (net.isReturn(node)) negative.add(node);
    if (done.has(node)) continue;
    const joined = flood(net.at, node, (link) => link.type !== 'body');
    for (const each of joined) done.add(each);
    const nodes = [...joined];
    const only =
      nodes.some((n) => roles.minus.has(n)) && !nodes.some((n) => roles.plus.has(n) || net.isReturn(n));
    if (only) for (const each of nodes) negative.add(each);
  }
  return negative;
}

/**
 * Wires at coils, enables, sense leads and thin supply points, and on through parts in line with them (fuses, switches,
 * contacts) up to a bar or a terminal that feeds something else too.
 */
function controlWires(op: Operation, roles: Roles, rows: Rows): ReadonlySet<Id> {
  const control = new Set<Id>();
  const open = [...roles.signals];
  for (let end = open.pop(); end !== undefined; end = open.pop()) {
    for (const id of op.wiresAt(end)) {
      if (control.has(id)) continue;
      control.add(id);
      const wire = op.wires.get(id);
      if (wire === undefined) continue;
      open.push(...onward(op, otherEnd(wire, end), rows));
    }
  }
  return control;
}

function onward(op: Operation, end: TerminalRef, rows: Rows): readonly TerminalRef[] {
  if (op.wiresAt(end).length !== 1) return [];
  return partners(rows, end).filter((far) => op.wiresAt(far).length === 1);
}

function partners(rows: Rows, end: TerminalRef): readonly TerminalRef[] {
  const part = partOf(end);
  const terminal = terminalOf(end);
  return (rows.get(part) ?? []).flatMap(([a, b]) =>
    a === terminal ? [refOf(part, b)] : b === terminal ? [refOf(part, a)] : [],
  );
}

/**
 * Steps along the conductors from what feeds a terminal: from the sources on the positive side, from the batteries' negatives
 * on the other; where neither reaches, from any terminal with a pole. The body is not gone through: points on it come last.
 */
export function depths(op: Operation, roles: Roles, rows: Rows): (ref: TerminalRef) => number {
  const net = netOf(op);
  const stores = [...op.parts.values()].flatMap((p) =>
    p.ability.stores === undefined ? [] : [refOf(p.id, p.ability.stores.minus)],
  );
  const known = new Map<string, number>();
  spread(net, rows, known, new Map([...roles.feeds, ...stores.map((ref) => [ref, 0] as const)]));
  const grounds = new Set(
    [...op.parts.values()].flatMap((p) =>
      p.ability.grounds === undefined ? [] : [refOf(p.id, p.ability.grounds.terminal)],
    ),
  );
  const rest = [...roles.minus, ...roles.signals].filter((ref) => !grounds.has(ref) && !known.has(ref));
  spread(net, rows, known, new Map(rest.map((ref) => [ref, 0])));
  return (ref) => known.get(ref) ?? UNREACHED;
}

const UNREACHED = 1000;

/** Breadth first in rounds of half a step, so that seeds may start between two rounds. */
function spread(net: Net, rows: Rows, known: Map<string, number>, seeds: ReadonlyMap<string, number>): void {
  const open = [...seeds]
    .filter(([node]) => !known.has(node))
    .toSorted((a, b) => a[1] - b[1] || compare(a[0], b[0]));
  for (let here = open.shift(); here !== undefined; here = open.shift()) {
    const [node, depth] = here;
    if (known.has(node)) continue;
    known.set(node, depth);
    for (const next of neighbours(net, rows, node)) if (!known.has(next)) insert(open, [next, depth + 1]);
  }
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function insert(open: [string, number][], entry: [string, number]): void {
  const at = open.findIndex(
    ([node, depth]) => depth > entry[1] || (depth === entry[1] && compare(node, entry[0]) > 0),
  );
  if (at < 0) open.push(entry);
  else open.splice(at, 0, entry);
}

function neighbours(net: Net, rows: Rows, node: string): readonly string[] {
  const linked = net.at(node).flatMap((link) => (link.type === 'body' ? [] : [across(link, node)]));
  return [...linked, ...partners(rows, node)];
}
