/** What the checks look at in an operating point, with the way in which it is worse. */
import type { Operation, Placed, Solved } from '../../packages/engine/src/contracts/index.ts';
import { BRIEF_STATE } from '../../packages/engine/src/checks/support/loading.ts';

export interface Measure {
  /** What it is of: `input/charger`. */
  readonly id: string;
  /** Greater is worse. */
  readonly value: number;
}

/** Loads and chargers count as drawing from this current on, A. */
const DRAWS = 0.01;

export function measures(op: Operation, s: Solved): readonly Measure[] {
  const list: Measure[] = [];
  const add = (id: string, value: number | null | undefined): void => {
    if (value !== null && value !== undefined && Number.isFinite(value)) list.push({ id, value });
  };
  const state = op.stateFacts(s.condition.state);
  const lasts = (state?.lasts.sourced.value ?? 0) >= BRIEF_STATE;
  for (const p of op.parts.values()) {
    ofCharger(op, s, p, add);
    ofBattery(op, s, p, add);
    const { protects, consumes, across } = p.ability;
    if (protects !== undefined && lasts) add(`device/${p.id}`, Math.abs(s.partMost(p.id, 0)));
    for (const [a, b] of across ?? []) {
      const range = s.voltsRange(`${p.id}.${a}`, `${p.id}.${b}`);
      if (range !== null) add(`terminals/${p.id}`, Math.max(...range.map(Math.abs)));
    }
    if (consumes !== undefined && !consumes.ofVehicle && consumes.minus !== null && op.posts !== null) {
      const at = s.volts(`${p.id}.${consumes.plus}`, `${p.id}.${consumes.minus}`);
      if (s.terminalAmps(p.id, consumes.plus) > DRAWS) add(`drop/${p.id}`, dropOf(op, s, at));
    }
  }
  if (lasts) for (const id of op.wires.keys()) add(`wire/${id}`, s.wireRms(id));
  return list;
}

/** Volts lost on the way from whichever battery stands highest. */
function dropOf(op: Operation, s: Solved, at: number | null): number | null {
  const sources = [...op.parts.values()].flatMap((p) => {
    const { stores } = p.ability;
    if (stores === undefined) return [];
    const volts = s.volts(`${p.id}.${stores.plus}`, `${p.id}.${stores.minus}`);
    return volts === null || at === null ? [] : [volts - at];
  });
  const positive = sources.filter((v) => v >= 0);
  return positive.length === 0 ? null : Math.min(...positive);
}

function ofCharger(
  op: Operation,
  s: Solved,
  p: Placed,
  add: (id: string, value: number | null) => void,
): void {
  const { converts } = p.ability;
  if (converts === undefined) return;
  const input = s.voltsRange(`${p.id}.${converts.inPlus}`, `${p.id}.${converts.inMinus}`);
  if (input !== null && s.outcome === 'settled' && s.isOn(p.id)) add(`input/${p.id}`, -input[0]);
  if (input !== null) add(`terminals/${p.id}`, input[1]);
  const enable = converts.enable;
  if (enable !== null) {
    const range = s.voltsRange(`${p.id}.${enable.plus}`, `${p.id}.${enable.minus}`);
    if (range !== null) add(`enable/${p.id}`, Math.max(...range.map(Math.abs)));
  }
  const running = op.stateFacts(s.condition.state)?.running === true;
  add(`charges with the engine off/${p.id}`, !running && s.charging(p.id) ? 1 : 0);
  add(`hunts/${p.id}`, (s.cycle?.duty.get(p.id) ?? 0) > 0 && (s.cycle?.duty.get(p.id) ?? 1) < 1 ? 1 : 0);
}

/** Amperes out of a vehicle battery, by state: the time to no-start is the reserve over them. */
function ofBattery(op: Operation, s: Solved, p: Placed, add: (id: string, value: number) => void): void {
  const { stores } = p.ability;
  if (stores?.role !== 'vehicle') return;
  const supply = op.stateFacts(s.condition.state)?.supply ?? 'off';
  const limited = [...op.parts.values()].some(
    (q) => q.ability.generates?.role === 'vehicle-supply' && s.regime(q.id, 0) === 'greatest',
  );
  if (supply === 'off' || limited)
    add(`drain/${p.id}/${s.condition.state}`, Math.max(0, -s.terminalAmps(p.id, stores.plus)));
}
