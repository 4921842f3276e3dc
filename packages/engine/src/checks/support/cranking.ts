/** The cable of the vehicle's own cranking motor: the vehicle maker's, and exempt from overcurrent rules. */
import type { Id, LaidWire, Operation, Placed } from '../../contracts/index.ts';
import { fedSide, netOf } from './conductors.ts';
import { perOperation } from './memo.ts';
import { refOf } from './refs.ts';

/** Wires that lead from a battery to nothing but a cranking motor (33 CFR 183.455 and 183.460 leave them out). */
export const crankingWires: (op: Operation) => ReadonlySet<Id> = perOperation((op) => {
  const motors = [...op.parts.values()].filter((p) => cranks(p));
  if (motors.length === 0) return new Set<Id>();
  return new Set([...op.wires.values()].filter((w) => leadsOnlyTo(op, w, motors)).map((w) => w.id));
});

function cranks(part: Placed): boolean {
  const c = part.ability.consumes;
  return c?.ofVehicle === true && Array.isArray(c.schedule) && c.schedule.includes('cranking');
}

/** From one end of the wire, with the wire cut, only motors of these are reached, and no device, source or other user. */
function leadsOnlyTo(op: Operation, wire: LaidWire, motors: readonly Placed[]): boolean {
  const net = netOf(op);
  if (net.isReturn(wire.from) || net.isReturn(wire.to)) return false;
  return [wire.from, wire.to].some((end) => {
    const reached = fedSide(net, end, wire.id);
    const has = (part: Placed, terminal: string): boolean => reached.has(refOf(part.id, terminal));
    if (!motors.some((m) => has(m, m.ability.consumes?.plus ?? ''))) return false;
    return ![...op.parts.values()].some((part) => !motors.includes(part) && uses(part, (t) => has(part, t)));
  });
}

/** The part protects, feeds or draws at one of these terminals. */
function uses(part: Placed, at: (terminal: string) => boolean): boolean {
  const { protects, stores, generates, converts, consumes, signals } = part.ability;
  const terminals = [
    protects?.from,
    protects?.to,
    stores?.plus,
    generates?.plus,
    converts?.inPlus,
    converts?.outPlus,
    consumes?.plus,
    signals?.out,
  ];
  return terminals.some((t) => t !== undefined && at(t));
}
