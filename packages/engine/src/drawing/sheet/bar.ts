/** Bars and boxes with taps at other heights. */
import { BAR, type Frame } from './frame.ts';
import type { PlacedNode } from './picture.ts';

/** A terminal keeps this from the edge of its box, mm. */
export const FROM_EDGE = 3;

/** A bar from just over its highest tap to just under its lowest, its text above it. */
export function stretched(placed: PlacedNode, ports: ReadonlyMap<string, number>): PlacedNode {
  const { node, frame } = placed;
  const ys = [...ports.values()];
  const top = Math.min(...ys) - BAR.over - frame.core.y;
  const span = Math.max(...ys) - Math.min(...ys) + 2 * BAR.over;
  const foot = frame.height - frame.core.y - frame.core.height;
  const moved: Frame = {
    width: frame.width,
    height: frame.core.y + span + foot,
    ports: new Map([...ports].map(([id, y]) => [id, y - top])),
    core: { ...frame.core, height: span },
  };
  return { node, frame: moved, x: placed.x, y: placed.y + top };
}
