/** The state table (what is live, what charges) and the predicted meter readings, from an operation. */
import type { Id, StateId, TerminalRef } from '../contracts/ids.ts';
import type { Condition, Operation, Solved } from '../contracts/operation.ts';
import { readingPoints, referenceOf, splitRef, type AmpsOf, type ReadingPoint } from './points.ts';

export interface StateTable {
  readonly lines: readonly StateLine[];
  readonly points: readonly ReadingPoint[];
  readonly columns: readonly ReadingColumn[];
  /** Input resistance of the meter that the readings are made for, Ω. */
  readonly meterOhms: number;
}

/** One state with one set of hand positions; several lines where it depends on what came before. */
export interface StateLine {
  readonly condition: string;
  readonly state: StateId;
  readonly hands: Readonly<Record<Id, boolean>>;
  /** States it came through; empty where all ways lead to the same. */
  readonly cameFrom: readonly StateId[];
  readonly outcome: Solved['outcome'];
  readonly supply: 'off' | 'alternator' | 'converter';
  /** s */
  readonly lasts: number;
  /** V at the vehicle battery's posts. */
  readonly posts: number | null;
  /** Supply points with the volts they stand at. */
  readonly signals: readonly { readonly part: Id; readonly volts: number | null }[];
  readonly chargers: readonly ChargerLine[];
}

export interface ChargerLine {
  readonly part: Id;
  readonly charging: 'yes' | 'no' | 'hunting';
  /** V at the enable terminal; null without one or when floating. */
  readonly enable: number | null;
  readonly input: number | null;
  readonly inAmps: number;
  readonly outAmps: number;
  /** Share of the time that it is on, and the period in s, when it hunts. */
  readonly duty: number | null;
  readonly period: number | null;
}

/** Readings of one condition, in the order of the points; null where the point does not belong to it. */
export interface ReadingColumn {
  readonly condition: string;
  readonly state: StateId;
  readonly hands: Readonly<Record<Id, boolean>>;
  readonly open: Id | null;
  /** States it came through, where the readings depend on that; else empty. */
  readonly cameFrom: readonly StateId[];
  readonly cells: readonly (ReadingCell | null)[];
}

export interface ReadingCell {
  readonly value: number | null;
  readonly unit: 'V' | 'A';
  /** Least and greatest while it hunts. */
  readonly range: readonly [number, number] | null;
  readonly note: 'floating' | 'wait 10 s' | 'still live' | null;
  /** The probes share no path but the meter, which therefore shows nothing: value 0. */
  readonly floating: boolean;
}

/** A terminal counts as live from here on, V. */
const LIVE = 2;
/** A change that capacitors take seconds to follow, V. */
const FALLS = 0.5;
const METER = 1e7;

/**
 * The table of a build under typical conditions with only the always-on loads. `all` gives readings in every state, else only
 * in those that a commissioning sheet asks for: ignition on, idling (or ready), driving, and each device opened; a build that has
 * none of them is read in those it has.
 */
export function stateTable(op: Operation, all = false): StateTable {
  const points = readingPoints(op);
  const quiet = op.judged.filter((condition) => condition.corner === 'typical-quiet');
  const plain = quiet.filter((condition) => condition.open === null);
  const asked = plain.filter((condition) => COMMISSIONED.has(condition.state));
  // A build without a vehicle has none of those states: what it has is read then.
  const shown = all || asked.length === 0 ? plain : asked;
  const opened = openedConditions(quiet, all);
  return {
    lines: plain.flatMap((condition) => stateLines(op, condition)),
    points,
    columns: [...shown, ...opened].flatMap((condition) => columns(op, points, condition)),
    meterOhms: meterOf(op),
  };
}

const COMMISSIONED: ReadonlySet<StateId> = new Set(['ignition-on', 'idling', 'ready', 'driving']);
const OPENED_IN: readonly StateId[] = ['driving', 'ready', 'idling', 'ignition-on'];

function openedConditions(quiet: readonly Condition[], all: boolean): readonly Condition[] {
  const opened = quiet.filter((condition) => condition.open !== null);
  if (all) return opened;
  const state = OPENED_IN.find((id) => opened.some((condition) => condition.state === id));
  return opened.filter((condition) => condition.state === state);
}

function meterOf(op: Operation): number {
  const meter = op.build.settings.meter;
  return meter === null || meter === 'unknown' ? METER : meter.value;
}

function stateLines(op: Operation, condition: Condition): StateLine[] {
  const facts = op.stateFacts(condition.state);
  return outcomes(op, condition).map(({ solved, cameFrom, chargers }) => ({
    condition: solved.id,
    state: condition.state,
    hands: condition.hands,
    cameFrom,
    outcome: solved.outcome,
    supply: facts?.supply ?? ('off' as const),
    lasts: facts?.lasts.sourced.value ?? 0,
    posts: op.posts === null ? null : solved.volts(op.posts.plus, op.posts.minus),
    signals: signalsOf(op, solved),
    chargers,
  }));
}

interface OutcomeOf {
  readonly solved: Solved;
  readonly cameFrom: readonly StateId[];
  readonly chargers: readonly ChargerLine[];
}

/** Outcomes that look alike are one; only where they differ does it matter what came before. */
function outcomes(op: Operation, condition: Condition): readonly OutcomeOf[] {
  const seen = new Map<string, OutcomeOf>();
  for (const solved of op.solve(condition)) {
    const chargers = chargersOf(op, solved);
    const key = JSON.stringify([
      solved.outcome,
      chargers.map((c) => [c.part, c.charging, c.outAmps.toFixed(1)]),
    ]);
    if (!seen.has(key)) seen.set(key, { solved, cameFrom: solved.cameFrom, chargers });
  }
  const found = [...seen.values()];
  return found.length === 1 ? found.map((each) => ({ ...each, cameFrom: [] })) : found;
}

function signalsOf(op: Operation, solved: Solved): { part: Id; volts: number | null }[] {
  const reference = referenceOf(op);
  return [...op.parts.values()].flatMap((part) => {
    const signals = part.ability.signals;
    if (signals === undefined || reference === null) return [];
    return [{ part: part.id, volts: solved.volts(`${part.id}.${signals.out}`, reference) }];
  });
}

function chargersOf(op: Operation, solved: Solved): ChargerLine[] {
  return [...op.parts.values()].flatMap((part) => {
    const unit = part.ability.converts;
    if (unit === undefined) return [];
    const at = (terminal: string) => `${part.id}.${terminal}`;
    const cycle = solved.cycle;
    const duty = cycle === null ? null : (cycle.duty.get(part.id) ?? null);
    const hunting = duty !== null && duty > 0 && duty < 1;
    return [
      {
        part: part.id,
        charging: hunting
          ? ('hunting' as const)
          : solved.charging(part.id)
            ? ('yes' as const)
            : ('no' as const),
        enable: unit.enable === null ? null : solved.volts(at(unit.enable.plus), at(unit.enable.minus)),
        input: solved.volts(at(unit.inPlus), at(unit.inMinus)),
        inAmps: solved.terminalAmps(part.id, unit.inPlus),
        outAmps: solved.outAmps(part.id),
        duty: hunting ? duty : null,
        period: hunting && cycle !== null ? cycle.periodMs / 1000 : null,
      },
    ];
  });
}

/** Readings of a condition: one column, or one for each way in which what came before matters. */
function columns(op: Operation, points: readonly ReadingPoint[], condition: Condition): ReadingColumn[] {
  const { open } = condition;
  const before = open === null ? undefined : op.solve({ ...condition, open: null })[0];
  const fed = open === null ? new Set<TerminalRef>() : fedByBattery(op, open);
  const meter = meterOf(op);
  return outcomes(op, condition).map(({ solved, cameFrom }) => ({
    condition: op.conditionId(condition),
    state: condition.state,
    hands: condition.hands,
    open,
    cameFrom,
    cells: points.map((point) => {
      if (point.onlyOpen !== null && point.onlyOpen !== open) return null;
      return point.amps === null
        ? voltCell(point, solved, { before, fed, meter })
        : ampCell(op, point.amps, solved);
    }),
  }));
}

interface Context {
  /** The same condition with the device closed. */
  readonly before: Solved | undefined;
  readonly fed: ReadonlySet<TerminalRef>;
  /** Ω */
  readonly meter: number;
}

/** Between terminals without a path a meter shows less than this, V. */
const FLOATS = 5e-3;

function voltCell(point: ReadingPoint, solved: Solved, context: Context): ReadingCell | null {
  if (point.red === null || point.black === null) return null;
  const raw = solved.reading(point.red, point.black, context.meter) ?? 0;
  // Across an open fuse the meter itself is the path: it shows the whole voltage through the load behind.
  if (solved.volts(point.red, point.black) === null && Math.abs(raw) < FLOATS)
    return { value: 0, unit: 'V', range: null, note: 'floating', floating: true };
  const value = point.unsigned ? Math.abs(raw) : raw;
  const range = solved.cycle === null ? null : solved.voltsRange(point.red, point.black);
  return {
    value,
    unit: 'V',
    range: ordered(range, point.unsigned),
    note: voltNote(point, value, context),
    floating: false,
  };
}

function ordered(
  range: readonly [number, number] | null,
  unsigned: boolean,
): readonly [number, number] | null {
  if (range === null || !unsigned) return range;
  const sizes = range.map((value) => Math.abs(value));
  return [Math.min(...sizes), Math.max(...sizes)];
}

function voltNote(point: ReadingPoint, value: number, { before, fed }: Context): ReadingCell['note'] {
  if (point.onlyOpen !== null)
    return Math.abs(value) >= LIVE && point.red !== null && !fed.has(point.red) ? 'still live' : null;
  if (!point.capacitors || before === undefined || point.red === null || point.black === null) return null;
  const was = before.volts(point.red, point.black);
  return was !== null && was - value > FALLS ? 'wait 10 s' : null;
}

function ampCell(op: Operation, amps: AmpsOf, solved: Solved): ReadingCell {
  return { value: ampsOf(op, amps, solved), unit: 'A', range: null, note: null, floating: false };
}

function ampsOf(op: Operation, amps: AmpsOf, solved: Solved): number {
  if (amps.of === 'output') return solved.outAmps(amps.part);
  if (amps.of === 'element') return solved.partAmps(amps.part, amps.element);
  return solved.terminalAmps(amps.part, amps.terminal);
}

/** Terminals that stand on a battery's positive post when everything but the opened device is closed. */
function fedByBattery(op: Operation, opened: Id): ReadonlySet<TerminalRef> {
  const seen = new Set<TerminalRef>();
  const queue: TerminalRef[] = [];
  for (const part of op.parts.values()) {
    if (part.ability.stores !== undefined) queue.push(`${part.id}.${part.ability.stores.plus}`);
  }
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    if (seen.has(at)) continue;
    seen.add(at);
    for (const id of op.wiresAt(at)) {
      const wire = op.wires.get(id);
      if (wire !== undefined) queue.push(wire.from, wire.to);
    }
    queue.push(...joined(op, at, opened));
  }
  return seen;
}

/** All terminals of a bar or stud that carry a wire. */
const wiredOn = (op: Operation, id: Id): TerminalRef[] =>
  [...op.wires.values()].flatMap((w) => [w.from, w.to]).filter((end) => splitRef(end)[0] === id);

/** Terminals of the same part that conduct to this one: bars, studs, closed devices and contacts, not the opened one. */
function joined(op: Operation, terminal: TerminalRef, opened: Id): TerminalRef[] {
  const [id, name] = splitRef(terminal);
  const part = op.parts.get(id);
  if (part === undefined || id === opened) return [];
  const { ability } = part;
  if (part.kind.terminals(part.read).type === 'numbered') return wiredOn(op, id);
  const { conducts = [], protects, switches } = ability;
  const contacts = (switches?.normal === 'closed' ? switches.contacts : []).map(
    (c) => [c.from, c.to] as const,
  );
  const device = protects === undefined ? [] : [[protects.from, protects.to] as const];
  const pairs = [...(switches === undefined ? conducts : []), ...contacts, ...device];
  return pairs.flatMap(([a, b]) => (a === name ? [`${id}.${b}`] : b === name ? [`${id}.${a}`] : []));
}
