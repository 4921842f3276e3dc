/** What the vehicle's supply has left in a running state. */
import type { Basis, Operation, Placed, StateFacts } from '../../contracts/index.ts';
import type { Charger } from './charger.ts';
import { vehicleLoadOf } from './no-start.ts';
import { charges, greatestPower, vehicleFed } from './charger.ts';
import { feedOf, loadTerminals } from './feed.ts';
import { present } from './judgement.ts';
import { perOperation } from './memo.ts';
import { feedLost, feedOhms } from './loop.ts';
import { whole } from './worst.ts';

export interface Draw {
  readonly part: Placed;
  readonly amps: number;
  /** How it was had. */
  readonly how: string;
  readonly bases: readonly Basis[];
}

export const supplies = (op: Operation): readonly Placed[] =>
  [...op.parts.values()].filter((p) => p.ability.generates?.role === 'vehicle-supply');

/** Supplies of the sort that works in a state: what has a limit while another sort feeds is none of them. */
export function suppliesIn(op: Operation, state: StateFacts): readonly Placed[] {
  const corner = op.corners.find((c) => c.id === 'weak');
  const others = op.states.filter((s) => s.supply !== 'off' && s.supply !== state.supply);
  return supplies(op).filter(
    (p) =>
      corner === undefined || !others.some((s) => (p.ability.generates?.limit(s, corner) ?? null) !== null),
  );
}

/** Least set point of a state, V: what the charger is fed with at worst. */
export function leastPosts(op: Operation, state: StateFacts): number | null {
  const window = op.windows().find((w) => w.state === state.id);
  return window?.envelope[0] ?? state.posts.min?.sourced.value ?? null;
}

/** Chargers that run in a state, at any hand position and corner, at their greatest power behind their loop. */
export function chargerDraws(op: Operation, state: StateFacts): readonly Draw[] {
  return vehicleFed(op).flatMap((c) => {
    const on = whole(op).filter((s) => s.condition.state === state.id && charges(s, c));
    const at = on.find((s) => s.condition.corner === 'weak') ?? on[0];
    if (at === undefined) return [];
    const posts = leastPosts(op, state);
    const amps = inputAmps(c, posts === null ? null : posts - feedLost(at, c), feedOhms(at, c));
    return amps === null ? [] : [{ part: c.part, ...amps, bases: [] }];
  });
}

/** I = P / V with V = (Vs + sqrt(Vs² - 4PR)) / 2; where there is no such point, the most the unit takes. */
function inputAmps(
  c: Charger,
  source: number | null,
  ohms: number,
): { readonly amps: number; readonly how: string } | null {
  const watts = greatestPower(c);
  if (watts === null || source === null) return null;
  const inside = source ** 2 - 4 * watts * ohms;
  const most = c.does.greatestInput?.sourced.value ?? null;
  if (inside < 0)
    return most === null ? null : { amps: most, how: 'the most it takes: no operating point at full output' };
  const volts = (source + Math.sqrt(inside)) / 2;
  return { amps: watts / volts, how: `${Math.round(watts)} W / ${volts.toFixed(2)} V behind its loop` };
}

/** Added loads on the vehicle's net, at rating. */
export const loadDraws: (op: Operation) => readonly Draw[] = perOperation((op) =>
  [...op.parts.values()].flatMap((part) => {
    const c = part.ability.consumes;
    const at = loadTerminals(part);
    if (c === undefined || at === null || c.ofVehicle || c.amps === null) return [];
    const feed = feedOf(op, at.plus, at.minus);
    const vehicle =
      feed?.part.ability.stores?.role === 'vehicle' ||
      feed?.part.ability.generates?.role === 'vehicle-supply';
    return vehicle ? [{ part, amps: c.amps.sourced.value, how: 'at rating', bases: [c.amps] }] : [];
  }),
);

const BATTERY_FIELDS = ['resistance', 'settled-resistance', 'rest'];

/** What the volts at the posts rest on once the supply is at its limit: its output, the vehicle's load, its batteries. */
export function supplyBases(op: Operation, state: StateFacts): readonly Basis[] {
  const corner = op.corners.find((c) => c.id === 'weak');
  const limits = suppliesIn(op, state).map((p) =>
    corner === undefined ? null : (p.ability.generates?.limit(state, corner) ?? null),
  );
  const cells = [...op.parts.values()]
    .filter((p) => p.ability.stores?.role === 'vehicle')
    .flatMap((p) => BATTERY_FIELDS.map((f) => (f in p.kind.fields ? p.read.quantity(f) : null)));
  return present([...limits.flatMap((l) => [l, ...(l?.from ?? [])]), vehicleLoadOf(op, state), ...cells]);
}
