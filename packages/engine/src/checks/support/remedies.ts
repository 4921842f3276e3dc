/** Changes in document notation that several checks offer. */
import type { Change, Id, LaidWire, Operation, Remedy, TerminalRef } from '../../contracts/index.ts';
import { parseSize } from '../../quantity/index.ts';
import { standardRatings } from '../../reference/index.ts';
import { sizesOf } from './sizes.ts';

/** Standard ratings from `least` to `most`, A, smallest first. */
export const ratingsWithin = (least: number, most: number): readonly number[] =>
  standardRatings.value.filter((r) => r >= least * (1 - 1e-9) && r <= most * (1 + 1e-9));

/** Another rating for a device. */
export const rate = (device: Id, rating: number): Remedy => ({
  title: `${rating} A for ${device}`,
  changes: [{ set: ['parts', device, 'rating'], to: `${rating} A` }],
});

/** The three sizes above the wire's own. */
export function thickerOne(op: Operation, wire: LaidWire): readonly Remedy[] {
  const area = wire.areaMm2 ?? 0;
  return sizesOf(op.build)
    .filter((size) => size.areaMm2 > area * 1.001)
    .slice(0, 3)
    .map((size) => ({
      title: `${size.name} for ${wire.id}`,
      changes: [{ set: ['wires', wire.id, 'size'], to: size.text }],
    }));
}

/** The wire is cut near one end and a new fuse put in: part, short lead, the rest of the wire. */
export function fuseAt(
  op: Operation,
  wire: LaidWire,
  near: TerminalRef,
  rating: number,
  family: string,
): Remedy {
  const fuse = freeId(op, `${wire.id}-fuse`, 'parts');
  const lead = freeId(op, `${wire.id}-lead`, 'wires');
  const written = op.build.wires.get(wire.id);
  const place = op.build.parts.get(near.slice(0, near.indexOf('.')))?.at;
  const keep = near === wire.from ? 'from' : 'to';
  const changes: Change[] = [
    {
      add: ['parts', fuse],
      value: { kind: 'fuse', ...(place === undefined ? {} : { at: place }), family, rating: `${rating} A` },
    },
    {
      add: ['wires', lead],
      value: {
        from: near,
        to: `${fuse}.line`,
        size: wire.sizeText === 'unknown' ? 'unknown' : sizeToWrite(wire),
        ...(wire.insulationAssumed ? {} : { insulation: wire.insulation }),
        ...(written?.material === 'cca' ? { material: 'cca' } : {}),
        length: '10 cm',
      },
    },
    { set: ['wires', wire.id, keep], to: `${fuse}.load` },
  ];
  return { title: `${rating} A fuse within 10 cm of ${near}`, changes };
}

/** The wire's size as the document writes it. */
function sizeToWrite(wire: LaidWire): string {
  const plain = wire.sizeText.replaceAll('\u00A0', ' ');
  return parseSize(plain).ok ? plain : 'unknown';
}

function freeId(op: Operation, wanted: string, table: 'parts' | 'wires'): Id {
  const taken = (id: string): boolean => op.build[table].has(id) || (table === 'parts' && op.parts.has(id));
  if (!taken(wanted)) return wanted;
  let n = 2;
  while (taken(`${wanted}-${n}`)) n += 1;
  return `${wanted}-${n}`;
}
