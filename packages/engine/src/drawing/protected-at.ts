/** What stands on a wire's label about its protection. */
import type { Id, LaidWire, Operation } from '../contracts/index.ts';
import { exposuresOf } from '../checks/support/exposure.ts';
import { sustainedInto } from '../checks/support/flow.ts';
import { netOf } from '../checks/support/conductors.ts';
import { partOf } from '../checks/support/refs.ts';
import { formatQuantity, NO_BREAK_SPACE } from '../quantity/index.ts';

export const NO_FUSE = `no${NO_BREAK_SPACE}fuse`;

/**
 * The sustained current that protective devices allow into each wire, printed; `no fuse` where a battery reaches it before any
 * device; nothing where the only device that limits it stands at its own end, where sources limit themselves, on returns, and
 * where the rating is not known.
 */
export function ratingTexts(op: Operation): ReadonlyMap<Id, string> {
  const net = netOf(op);
  const bare = new Set(exposuresOf(op).flatMap((e) => (e.source.stiff ? [e.wire] : [])));
  return new Map(
    [...op.wires.values()].map((wire) => {
      if (net.isReturn(wire.from) || net.isReturn(wire.to)) return [wire.id, ''];
      return [wire.id, ratingText(op, wire, bare.has(wire.id))];
    }),
  );
}

const isDevice = (op: Operation, part: Id): boolean => op.parts.get(part)?.ability.protects !== undefined;

function ratingText(op: Operation, wire: LaidWire, bare: boolean): string {
  const ends = [partOf(wire.from), partOf(wire.to)];
  if (bare) return ends.some((end) => isDevice(op, end)) ? '' : NO_FUSE;
  const flow = sustainedInto(op, wire);
  if (flow === null || !Number.isFinite(flow.amps)) return '';
  const devices = flow.limits.map((limit) => limit.part).filter((part) => isDevice(op, part));
  if (devices.every((part) => ends.includes(part))) return '';
  return formatQuantity(flow.amps, 'current', { trim: true });
}
