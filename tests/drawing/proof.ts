/** What every picture must keep, whatever it shows: found by looking at positions, not at how they were made. */
import { contactOf, nodeInk } from '../../packages/engine/src/drawing/sheet/node-ink.ts';
import { overlapsOf } from '../../packages/engine/src/drawing/sheet/judge.ts';
import {
  boxOf,
  labelBox,
  nodeById,
  portPoint,
  type Picture,
  type PlacedWire,
} from '../../packages/engine/src/drawing/sheet/picture.ts';
import { labelInk, wayOf } from '../../packages/engine/src/drawing/sheet/wire-ink.ts';
import { printedWidth } from '../../packages/engine/src/drawing/svg.ts';
import type { TextInk } from '../../packages/engine/src/drawing/ink.ts';
import { ASCENT, DESCENT } from '../../packages/engine/src/drawing/text/measure.ts';

export interface Proof {
  readonly faults: readonly string[];
  readonly ends: number;
  /** Greatest distance of a wire's end from its terminal, mm. */
  readonly worstEnd: number;
}

const SAME = 1e-6;

export function prove(picture: Picture): Proof {
  const nodes = nodeById(picture);
  const faults = [...overlapsOf(picture)];
  let worstEnd = 0;
  for (const wire of picture.wires) {
    const way = wayOf(wire, nodes);
    for (const [end, point, next] of [
      [wire.edge.source, way[0], wire.points[0]],
      [wire.edge.target, way.at(-1), wire.points.at(-1)],
    ] as const) {
      const placed = nodes.get(end.node);
      if (placed === undefined || point === undefined || next === undefined) {
        faults.push(`${wire.edge.wire.id} ends nowhere`);
        continue;
      }
      const contact = contactOf(placed, end.port);
      const port = portPoint(placed, end.port);
      worstEnd = Math.max(
        worstEnd,
        Math.hypot(point.x - contact.x, point.y - contact.y),
        Math.hypot(next.x - port.x, next.y - port.y),
      );
    }
    if (way.some((p, i) => i > 0 && !square(p, way[i - 1] ?? p)))
      faults.push(`${wire.edge.wire.id} runs aslant`);
    if (!onOneRun(wire) && !besideUpright(wire))
      faults.push(`label of ${wire.edge.wire.id} is not on one run of its wire`);
    for (const ink of labelInk(wire))
      if (!inside(ink, labelBox(wire))) faults.push(`text of ${wire.edge.wire.id} out of its label`);
  }
  for (const placed of picture.nodes) {
    const texts = nodeInk(placed, '').filter((ink) => ink.type === 'text');
    for (const ink of texts)
      if (!inside(ink, boxOf(placed)))
        faults.push(`text of ${placed.node.id} out of its box: ${ink.line.map((r) => r.text).join(' ')}`);
  }
  return { faults, ends: 2 * picture.wires.length, worstEnd };
}

const square = (a: { x: number; y: number }, b: { x: number; y: number }): boolean =>
  Math.abs(a.x - b.x) < SAME || Math.abs(a.y - b.y) < SAME;

function onOneRun(wire: PlacedWire): boolean {
  const box = labelBox(wire);
  return wire.points.some((b, i) => {
    const a = wire.points[i - 1];
    if (a === undefined || Math.abs(a.y - b.y) > SAME || Math.abs(a.y - wire.label.y) > SAME) return false;
    return Math.min(a.x, b.x) <= box.left + 0.01 && Math.max(a.x, b.x) >= box.right - 0.01;
  });
}

/** Its lines stand close by one upright run, which is at least as long as they are high (only in the vehicle view). */
function besideUpright(wire: PlacedWire): boolean {
  const box = labelBox(wire);
  if (wire.edge.label.below.length > 0) return false;
  return wire.points.some((b, i) => {
    const a = wire.points[i - 1];
    if (a === undefined || Math.abs(a.x - b.x) > SAME) return false;
    const away = Math.min(Math.abs(box.left - b.x), Math.abs(box.right - b.x));
    return away < 1 && Math.min(a.y, b.y) <= box.top + 0.01 && Math.max(a.y, b.y) >= box.bottom - 0.01;
  });
}

function inside(ink: TextInk, box: { left: number; top: number; right: number; bottom: number }): boolean {
  const width = printedWidth(ink);
  const left = ink.anchor === 'start' ? ink.x : ink.anchor === 'end' ? ink.x - width : ink.x - width / 2;
  return (
    left >= box.left - 0.02 &&
    left + width <= box.right + 0.02 &&
    ink.y - ASCENT >= box.top - 0.02 &&
    ink.y + DESCENT <= box.bottom + 0.02
  );
}
