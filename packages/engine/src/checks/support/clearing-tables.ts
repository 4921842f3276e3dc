/** Short circuits of a wire by the ampacity tables in turn, and what the answer rests on. */
import type { Ampacity, Basis, Judgement, LaidWire, Operation } from '../../contracts/index.ts';
import type { ClearingDevice } from '../../devices/index.ts';
import { basesOf } from './ampacity.ts';
import { devicesFor, trialsOf, unratedFor, type Trial } from './clearing-cases.ts';
import { curvesOf, runTrials, type Governed } from './clearing-run.ts';

export interface ByTable {
  readonly ampacity: Ampacity | null;
  readonly run: Governed;
}

/** By the first table under which it passes, else by the first; null: nothing to try. */
export function byTables(
  op: Operation,
  wire: LaidWire,
  trials: readonly Trial[],
  devices: readonly ClearingDevice[],
): ByTable | null {
  const tables = op.ampacity(wire.id);
  let first: ByTable | null = null;
  for (const ampacity of tables.length > 0 ? tables : [null]) {
    const run = runTrials(op, wire, trials, devices, ampacity);
    if (run === null) return null;
    const tried = { ampacity, run };
    if (passes(run)) return tried;
    first ??= tried;
  }
  return first;
}

const passes = (run: Governed): boolean => run.worst.ending === 'steady' || run.worst.ending === 'withstood';

/** Ampacity where a steady temperature decides, k and the curves where an opening time does. */
export function clearingLimits(
  op: Operation,
  wire: LaidWire,
  ampacity: Ampacity | null,
  run: Governed,
): Judgement['limits'] {
  const adiabatic = run.all.some((r) => r.ending !== 'steady');
  const steady = run.all.some((r) => r.ending === 'steady');
  return [...(steady ? basesOf(ampacity) : []), ...(adiabatic ? [wire.k, ...curvesOf(op, run.all)] : [])];
}

/** What a wire fed from devices rests on where every short on it is cleared in time; null: it is not, or nobody can say. */
export function clearedBy(op: Operation, wire: LaidWire): readonly Basis[] | null {
  if (wire.areaMm2 === null || wire.length === null || unratedFor(op, wire).length > 0) return null;
  const devices = devicesFor(op, wire);
  const found = byTables(op, wire, trialsOf(op, wire, devices), devices);
  if (found === null || !passes(found.run)) return null;
  return clearingLimits(op, wire, found.ampacity, found.run) ?? [];
}
