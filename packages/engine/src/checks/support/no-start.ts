/** How long the vehicle battery can be drawn on before it no longer starts the engine. */
import type {
  Basis,
  Id,
  Operation,
  Placed,
  Solved,
  StateFacts,
  StateId,
  Step,
  Stores,
} from '../../contracts/index.ts';
import { chargers, charges } from './charger.ts';
import { present, step } from './judgement.ts';
import { clearlyLess, isCycling, whole } from './worst.ts';
import { A, Ah, whereWords } from './words.ts';

/** What the vehicle itself draws in a state: as surveyed, else what a part says, else the default. */
export function vehicleLoadOf(op: Operation, facts: StateFacts): Basis {
  const own = [...op.parts.values()].find((p) => p.ability.vehicleLoad !== undefined);
  return own?.ability.vehicleLoad?.(facts) ?? facts.surveyedLoad ?? facts.ownLoad;
}

export interface Battery {
  readonly part: Placed;
  readonly stores: Stores;
  readonly plus: string;
  readonly minus: string;
}

export const batteries = (op: Operation, role?: 'vehicle' | 'house'): readonly Battery[] =>
  [...op.parts.values()].flatMap((part) => {
    const { stores } = part.ability;
    if (stores === undefined || (role !== undefined && stores.role !== role)) return [];
    return [{ part, stores, plus: `${part.id}.${stores.plus}`, minus: `${part.id}.${stores.minus}` }];
  });

export const batteryById = (op: Operation, id: Id): Battery => {
  const found = batteries(op).find((b) => b.part.id === id);
  if (found === undefined) throw new Error(`no battery ${id}`);
  return found;
};

/** Net current into the battery, A: > 0 charges it. Of a cycle the mean. */
export const netAmps = (s: Solved, b: Battery): number => s.terminalAmps(b.part.id, b.stores.plus);

/** The condition of a state that empties the battery soonest. */
export interface Discharge {
  readonly solved: Solved;
  /** Net discharge current, A, > 0. */
  readonly amps: number;
  readonly reserve: Basis;
  /** Time to no-start, s. */
  readonly seconds: number;
}

const CORNERS: ReadonlySet<string> = new Set(['weak', 'every-source']);

/**
 * The shortest time to no-start of a state: reserve / net discharge current, over the weak corner and that of every source, all
 * hand positions and all outcomes (of a cycle the mean). While the vehicle's supply runs only where it is at its limit:
 * a set point below the rest voltage is control, not loss. null: the battery is not drawn on, or its reserve is unknown.
 */
export function shortest(op: Operation, battery: Battery, state: StateId): Discharge | null {
  const reserve = battery.stores.noStartReserve;
  if (reserve === null) return null;
  let worst: Discharge | null = null;
  for (const solved of whole(op)) {
    if (solved.condition.state !== state || !CORNERS.has(solved.condition.corner)) continue;
    const amps = -netAmps(solved, battery);
    if (!(amps > 1e-6) || !counts(op, solved)) continue;
    const seconds = (reserve.sourced.value / amps) * 3600;
    if (worst === null || clearlyLess(seconds, worst.seconds)) worst = { solved, amps, reserve, seconds };
  }
  return worst;
}

/** With the supply on only where it gives all it can. A cycle passes through its limit or it would not drain. */
function counts(op: Operation, solved: Solved): boolean {
  const facts = op.stateFacts(solved.condition.state);
  if (facts === null || facts.supply === 'off') return true;
  const supplies = [...op.parts.values()].filter((p) => p.ability.generates?.role === 'vehicle-supply');
  return (
    isCycling(solved) || supplies.length === 0 || supplies.some((p) => solved.regime(p.id, 0) === 'greatest')
  );
}

/** Working lines of a discharge. */
export function dischargeSteps(d: Discharge, battery: Battery): readonly Step[] {
  return [
    step('reserve for a start', d.reserve.sourced.source, d.reserve.sourced.value, 'Ah', {
      about: [battery.part.id],
    }),
    step(
      isCycling(d.solved)
        ? 'mean current drawn from the battery over a cycle'
        : 'current drawn from the battery',
      whereWords(d.solved),
      d.amps,
      'A',
      { about: [battery.part.id] },
    ),
    step('time to no-start', `${Ah(d.reserve.sourced.value)} / ${A(d.amps)}`, d.seconds, 's'),
  ];
}

/** What the time rests on: reserve, own load of the vehicle, the chargers that run. */
export function dischargeBases(op: Operation, d: Discharge): readonly Basis[] {
  const facts = op.stateFacts(d.solved.condition.state);
  const running = chargers(op).filter((c) => charges(d.solved, c));
  return present([
    d.reserve,
    facts === null ? null : vehicleLoadOf(op, facts),
    facts?.output,
    ...running.flatMap((c) => [c.does.current, c.does.efficiency]),
  ]);
}
