/**
 * The currents at which clearing is tried on a wire: the least fault, the greatest, and every corner of the slow edge of a
 * device between them (there the let-through I²t of a straight log-log edge is greatest).
 */
import type {
  Basis,
  Id,
  LaidWire,
  Operation,
  ShortCase,
  ShortPoint,
  TerminalRef,
} from '../../contracts/index.ts';
import { slowCornerAmps, type ClearingDevice, type FaultCurrents } from '../../devices/index.ts';
import { feeding, netOf } from './conductors.ts';
import { crankingWires } from './cranking.ts';
import { exposuresOf } from './exposure.ts';
import { FaultLine } from './fault-line.ts';
import { nominalOf } from './feed.ts';
import { perOperation } from './memo.ts';
import { ownReturn } from './own-return.ts';
import { refOf } from './refs.ts';
import {
  batterySets,
  fedEnds,
  greatestCase,
  intos,
  leastCase,
  spots,
  type FedEnds,
  type Into,
} from './shorts.ts';

/** Which of the two sides of the fault on the wire is looked at. */
export type Side = 'from' | 'to';

export interface Trial {
  readonly fault: ShortCase;
  readonly type: 'least' | 'greatest' | 'corner';
  readonly side: Side;
  /** The short lies just behind the device: only the first centimetres of the wire carry the current. */
  readonly near: boolean;
  /** The wire whose heat is judged: the faulted one, or its own return that carries the current back. */
  readonly carrier: Id;
  /** Of a corner: the device whose listed point it is. */
  readonly corner: Id | null;
  /** What flows while the fault stands. */
  readonly point: ShortPoint;
  /** What flows once these devices are open. */
  readonly without: (open: readonly Id[]) => ShortPoint;
}

interface Protector {
  readonly id: Id;
  readonly from: TerminalRef;
  readonly to: TerminalRef;
  /** null: nobody gave its rating. */
  readonly device: ClearingDevice | null;
}

/** All protective devices, in the order of the document. */
const protectorsOf: (op: Operation) => readonly Protector[] = perOperation((op) =>
  [...op.parts.values()].flatMap(({ id, ability: { protects: p } }): readonly Protector[] => {
    if (p === undefined) return [];
    const device = p.rating === null ? null : { id, rating: p.rating.sourced.value, band: p.curve };
    return [{ id, from: refOf(id, p.from), to: refOf(id, p.to), device }];
  }),
);

/** Those that a fault on the wire can draw through. */
function protectorsFor(op: Operation, wire: LaidWire): readonly Protector[] {
  const reached = feeding(netOf(op), wire.from);
  return protectorsOf(op).filter((p) => reached.has(p.from) || reached.has(p.to));
}

/** Protective devices that a fault on the wire can draw through, with what is known of them. */
export const devicesFor = (op: Operation, wire: LaidWire): readonly ClearingDevice[] =>
  protectorsFor(op, wire).flatMap((p) => (p.device === null ? [] : [p.device]));

/** Devices on the wire's net whose rating nobody gave. */
export const unratedFor = (op: Operation, wire: LaidWire): readonly Id[] =>
  protectorsFor(op, wire).flatMap((p) => (p.device === null ? [p.id] : []));

/** Current in the wire on one side of the fault, A. At an end of the wire the other side is the few millimetres up to it. */
export function sideAmps(point: ShortPoint, along: ShortCase['along'], side: Side): number {
  const [from, to] = point.halves;
  if (along === 0.5) return side === 'from' ? from : to;
  const through = along === 0 ? to : from;
  const rest = Math.max(0, Math.abs(point.amps) - through);
  const farSide = along === 0 ? 'to' : 'from';
  return side === farSide ? through : rest;
}

/** Current in the wire whose heat is judged, A. */
export const carriedBy = (point: ShortPoint, trial: Trial): number =>
  trial.carrier === trial.fault.wire
    ? sideAmps(point, trial.fault.along, trial.side)
    : Math.abs(point.wireAmps(trial.carrier));

export const currentsOf = (point: ShortPoint, trial: Trial): FaultCurrents => ({
  wire: carriedBy(point, trial),
  device: (id) => point.partAmps(id, 0),
});

/** Below this a side carries nothing worth a trial, A. */
const NOTHING = 1e-3;

/**
 * All trials of a wire: far ends (and the middle, where both ends are fed) at the least and at the greatest current through the
 * whole wire, the near ends at the greatest, and the corners between.
 */
export function trialsOf(
  op: Operation,
  wire: LaidWire,
  devices: readonly ClearingDevice[],
): readonly Trial[] {
  const fed = fedEnds(op, wire);
  const { near, far } = spots(fed);
  const least = far.flatMap((along) => leastTrials(op, wire, along, fed));
  const greatest = [...new Set([...near, ...far])].flatMap((along) =>
    intos(op, wire, along).flatMap((into) =>
      solvedTrials(op, greatestCase(wire.id, along, into), 'greatest'),
    ),
  );
  const floor = leastPerDevice(least, devices);
  const corners = near.flatMap((along) =>
    intos(op, wire, along).flatMap((into) => cornerTrials(op, wire, along, into, devices, floor)),
  );
  return [...least, ...greatest, ...corners];
}

/**
 * Trials of a return conductor: the shorts between a wire and it, at the far end of the wire, that it has to carry back.
 */
export function returnTrials(
  op: Operation,
  back: LaidWire,
  devices: readonly ClearingDevice[],
): readonly Trial[] {
  const trials: Trial[] = [];
  for (const wire of servedBy(op, back.id)) {
    const fed = fedEnds(op, wire);
    for (const along of spots(fed).far) {
      if (along === 0.5) continue;
      for (const into of intos(op, wire, along)) {
        if (into.type === 'chassis') continue;
        const least = batterySets(op, fed).map((set) => leastCase(op, wire.id, along, into, set));
        const most = greatestCase(wire.id, along, into);
        const base: readonly Trial[] = [
          ...least.map((fault) => carried(fault, 'least', back.id, solvedIn(op, fault))),
          carried(most, 'greatest', back.id, solvedIn(op, most)),
        ];
        const floor = leastPerDevice(base.slice(0, -1), devices);
        const corners = cornerTrials(op, wire, along, into, devices, floor);
        trials.push(
          ...base,
          ...corners.map((t) => ({ ...carried(t.fault, 'corner', back.id, t), corner: t.corner })),
        );
      }
    }
  }
  return trials.filter((t) => carriedBy(t.point, t) > NOTHING);
}

/** What flows in a fault, as it stands and later. */
type Flowing = Pick<Trial, 'point' | 'without'>;

const carried = (fault: ShortCase, type: Trial['type'], carrier: Id, { point, without }: Flowing): Trial => ({
  fault,
  type,
  side: 'from',
  near: false,
  carrier,
  corner: null,
  point,
  without,
});

const solvedIn = (op: Operation, fault: ShortCase): Flowing => ({
  point: op.short(fault),
  without: (open) => op.short({ ...fault, open }),
});

/**
 * Wires whose own return is this one, fed by a battery through a device: a lead before the device is judged by its distance,
 * and so is what its return would have to carry. Cranking cables are left out.
 */
export const servedBy = (op: Operation, back: Id): readonly LaidWire[] => serving(op).get(back) ?? [];

const serving: (op: Operation) => ReadonlyMap<Id, readonly LaidWire[]> = perOperation((op) => {
  const bare = new Set(exposuresOf(op).flatMap((e) => (e.source.stiff ? [e.wire] : [])));
  const served = new Map<Id, LaidWire[]>();
  for (const w of op.wires.values()) {
    const back = ownReturn(op, w)?.wire;
    if (back === undefined || bare.has(w.id) || crankingWires(op).has(w.id) || !fedByBattery(op, w)) continue;
    served.set(back, [...(served.get(back) ?? []), w]);
  }
  return served;
});

export function fedByBattery(op: Operation, wire: LaidWire): boolean {
  const fed = fedEnds(op, wire);
  return [...fed.from, ...fed.to].some((s) => s.stiff);
}
function leastTrials(
  op: Operation,
  wire: LaidWire,
  along: ShortCase['along'],
  fed: FedEnds,
): readonly Trial[] {
  return intos(op, wire, along).flatMap((into) =>
    batterySets(op, fed).flatMap((set) =>
      solvedTrials(op, leastCase(op, wire.id, along, into, set), 'least'),
    ),
  );
}

const solvedTrials = (op: Operation, fault: ShortCase, type: Trial['type']): readonly Trial[] =>
  bothSides(fault, type, solvedIn(op, fault));

function bothSides(
  fault: ShortCase,
  type: Trial['type'],
  { point, without }: Flowing,
  corner: Id | null = null,
): readonly Trial[] {
  return SIDES.filter((side) => sideAmps(point, fault.along, side) > NOTHING).map((side) => ({
    fault,
    type,
    side,
    near: isNear(fault.along, side),
    carrier: fault.wire,
    corner,
    point,
    without,
  }));
}

const SIDES = ['from', 'to'] as const;

/** At an end of the wire the side up to it is no longer than the joint. */
const isNear = (along: ShortCase['along'], side: Side): boolean =>
  (along === 0 && side === 'from') || (along === 1 && side === 'to');

/** The least current through each device over the least faults, A: below it no corner is tried. */
function leastPerDevice(
  least: readonly Trial[],
  devices: readonly ClearingDevice[],
): ReadonlyMap<Id, number> {
  const floor = new Map<Id, number>();
  for (const trial of least) {
    const { point } = trial;
    for (const d of devices) {
      const current = Math.abs(point.partAmps(d.id, 0));
      if (current > NOTHING) floor.set(d.id, Math.min(floor.get(d.id) ?? Infinity, current));
    }
  }
  return floor;
}

/** A corner of a device's slow edge, A, and the greatest current that a short there drives through it. */
interface Corner {
  readonly device: Id;
  readonly amps: number;
  readonly most: number;
}

function cornerTrials(
  op: Operation,
  wire: LaidWire,
  along: ShortCase['along'],
  into: Into,
  devices: readonly ClearingDevice[],
  floor: ReadonlyMap<Id, number>,
): readonly Trial[] {
  const bolted = op.short(greatestCase(wire.id, along, into));
  const corners = devices.flatMap((d): readonly Corner[] => {
    const most = Math.abs(bolted.partAmps(d.id, 0));
    if (d.band === null || most <= NOTHING) return [];
    const listed = slowCornerAmps(d.band, d.rating, floor.get(d.id) ?? 0, most);
    return listed.map((amps) => ({ device: d.id, amps, most }));
  });
  if (corners.length === 0) return [];
  const line = new FaultLine(op, { wire: wire.id, along, into }, farthest(op, wire, corners));
  return corners.flatMap((corner) => {
    const contact = line.contactFor(corner.device, corner.amps * AIM) ?? contactFor(line, corner);
    if (contact === null) return [];
    const fault = greatestCase(wire.id, along, into, contact);
    const flowing = { point: line.at(contact), without: (open: readonly Id[]) => line.at(contact, open) };
    return bothSides(fault, 'corner', flowing, corner.device);
  });
}

/**
 * A resistance beyond that of every corner, Ω: a device takes no more than the fault's whole current, which falls as volts over
 * resistance. In steps, so that wires with one return ask for the same points.
 */
function farthest(op: Operation, wire: LaidWire, corners: readonly Corner[]): number {
  const most = Math.max(...corners.map((c) => 1 / c.amps - 1 / c.most));
  return 2 ** Math.ceil(Math.log2(Math.max(most * nominalInto(op, wire) * ABOVE_NOMINAL, LEAST_FAR)));
}

/** Far enough from the least resistance that anything has, Ω. */
const LEAST_FAR = 1e-3;

/** Batteries and chargers stand above nominal by no more than this. */
const ABOVE_NOMINAL = 1.3;

/** Nominal volts of the batteries that feed the wire, the greatest. */
function nominalInto(op: Operation, wire: LaidWire): number {
  const fed = fedEnds(op, wire);
  const systems = [...fed.from, ...fed.to].map((source) => {
    const stores = op.parts.get(source.part)?.ability.stores;
    return nominalOf(op, stores === undefined ? null : (stores.system ?? stores.role));
  });
  return Math.max(...systems);
}

/** Aimed a hair above the listed point, so that rounding does not fall below it. */
const AIM = 1 + 1e-7;
const ROUNDS = 6;

/**
 * The resistance at the place of the short that brings a device to the current of its corner (Ω); null: none does. The
 * reciprocal of the current is straight in that resistance for a linear net, so the secant on it ends at once there.
 */
function contactFor(line: FaultLine, { device, amps }: Corner): number | null {
  const wanted = 1 / (amps * AIM);
  const reciprocal = (ohms: number): number => 1 / Math.abs(line.at(ohms).partAmps(device, 0));
  let low = { ohms: 0, y: reciprocal(0) };
  let high = { ohms: (wanted - low.y) * GUESS_VOLTS, y: 0 };
  high = { ...high, y: reciprocal(high.ohms) };
  for (let round = 0; round < ROUNDS; round += 1) {
    const slope = (high.y - low.y) / (high.ohms - low.ohms);
    if (!Number.isFinite(slope) || slope <= 0) return null;
    const ohms = high.ohms + (wanted - high.y) / slope;
    if (!(ohms >= 0)) return null;
    low = high;
    high = { ohms, y: reciprocal(ohms) };
    if (Math.abs(high.y / wanted - 1) < CLOSE) return ohms;
  }
  return Math.abs(high.y / wanted - 1) < LOOSE ? high.ohms : null;
}

const GUESS_VOLTS = 13;
const CLOSE = 1e-8;
const LOOSE = 1e-3;

/** Figures that the fault currents rest on. */
export function faultBases(op: Operation, wire: LaidWire): readonly Basis[] {
  const net = netOf(op);
  const reached = feeding(net, wire.from);
  const bases: Basis[] = [];
  for (const part of op.parts.values()) {
    const s = part.ability.stores;
    if (s === undefined || !reached.has(`${part.id}.${s.plus}`)) continue;
    for (const field of ['resistance', 'fault-resistance']) {
      const basis = field in part.kind.fields ? part.read.quantity(field) : null;
      if (basis !== null) bases.push(basis);
    }
  }
  for (const part of op.parts.values()) {
    const spread = part.ability.section?.spread ?? null;
    if (spread !== null) bases.push(spread);
  }
  const length = wire.length;
  return length === null ? bases : [...bases, length];
}
