/** Conductor sizes to choose from, and the changes that lay a thicker one. */
import type { Build, Id, Operation, Remedy } from '../../contracts/index.ts';
import type { Size } from '../../quantity/index.ts';
import { parseSize } from '../../quantity/index.ts';

const METRIC = [1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120].map((mm2) => `${mm2} mm2`);
const GAUGE = [16, 14, 12, 10, 8, 6, 4, 2, 1]
  .map((n) => `${n} AWG`)
  .concat(['1/0 AWG', '2/0 AWG', '3/0 AWG', '4/0 AWG']);

/** The workshop's own stock, else the trade's standard sizes; thinnest first. */
export function sizesOf(build: Build): readonly Size[] {
  const { sizes } = build.stock;
  const list =
    sizes.length > 0 ? sizes : (build.practice === 'north-america' ? GAUGE : METRIC).flatMap(readSize);
  return list.toSorted((a, b) => a.areaMm2 - b.areaMm2);
}

function readSize(text: string): readonly Size[] {
  const read = parseSize(text);
  return read.ok ? [read.size] : [];
}

const MOST_OFFERED = 3;

/** Every wire of the list that is thinner than a size is laid in that size: the next three sizes above the thinnest. */
export function thicker(op: Operation, wires: readonly Id[]): readonly Remedy[] {
  const areas = [...new Set(wires)]
    .map((id) => ({ id, area: op.wires.get(id)?.areaMm2 ?? 0 }))
    .filter((w) => w.area > 0);
  const thinnest = Math.min(...areas.map((w) => w.area));
  return sizesOf(op.build)
    .filter((size) => size.areaMm2 > thinnest * 1.001)
    .slice(0, MOST_OFFERED)
    .map((size) => {
      const changed = areas.filter((w) => w.area < size.areaMm2 * 0.999).map((w) => w.id);
      return {
        title: `${size.name} for ${changed.join(', ')}`,
        changes: changed.map((id) => ({ set: ['wires', id, 'size'], to: size.text })),
      };
    });
}
