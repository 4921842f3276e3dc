/** Whether a wire that was just drawn, and the parts that changed with it, lie clear of all else. */
import type { Id } from '../../../contracts/index.ts';
import { crossings, nodeOnNode, wireOnNode, wireOnWire } from '../judge.ts';
import { overlap, wireOutline, type WireOutline } from '../outline.ts';
import { boxOf, type Box, type Picture, type PlacedWire } from '../picture.ts';

/** Crossings of the last wire; null where it, or a part that changed, lies over something or too near to it. */
export function fits(
  picture: Picture,
  changed: ReadonlySet<Id>,
  mayMeet: (at: number) => boolean,
): number | null {
  const last = picture.wires.length - 1;
  const own = wireOutline(picture.wires[last] as PlacedWire);
  const nodes = picture.nodes.map((node) => ({ node, box: boxOf(node) }));
  const inNew = nodes.filter(({ node }) => changed.has(node.node.id));
  let clear = true;
  const tell = (): void => {
    clear = false;
  };
  for (const node of nodes) {
    wireOnNode(own, node, tell);
    if (!clear || besidePart(own, node.box, node.node.node.id)) return null;
    for (const other of inNew) if (other !== node) nodeOnNode(node, other, tell);
  }
  let count = 0;
  for (let i = 0; i < last; i += 1) {
    if (!mayMeet(i)) continue;
    const other = wireOutline(picture.wires[i] as PlacedWire);
    wireOnWire(own, other, tell);
    if (tooNear(own, other)) return null;
    count += crossings(own, other);
    for (const node of inNew) wireOnNode(other, node, tell);
    if (!clear) return null;
  }
  return count;
}

/** Whether a wire may meet one of these boxes once all below a cut has gone down, told without drawing it. */
export function mayMeetIn(start: Picture, down: number, boxes: readonly Box[]): (at: number) => boolean {
  return (at) => {
    const { around } = wireOutline(start.wires[at] as PlacedWire);
    const reach = inflated({ ...around, bottom: around.bottom + down }, NEAR.lines + 0.1);
    return boxes.some((box) => overlap(reach, box));
  };
}

const NEAR = { lines: 1.4, part: 0.9, label: 0.4 } as const;

const inflated = (box: Box, by: number): Box => ({
  left: box.left - by,
  right: box.right + by,
  top: box.top - by,
  bottom: box.bottom + by,
});

/** Lines of two wires that run side by side and are hard to tell apart, or a line close to the words of another wire. */
function tooNear(a: WireOutline, b: WireOutline): boolean {
  if (!overlap(inflated(a.around, NEAR.lines), b.around)) return false;
  for (const s of a.segments) {
    const wide = inflated(s.box, NEAR.lines);
    for (const t of b.segments) if (s.level === t.level && overlap(wide, inflated(t.box, 0.02))) return true;
    if (overlap(inflated(s.box, NEAR.label), b.label)) return true;
  }
  return b.segments.some((t) => overlap(inflated(t.box, NEAR.label), a.label));
}

function besidePart(wire: WireOutline, box: Box, id: Id): boolean {
  return wire.segments.some((s) => !s.ends.includes(id) && overlap(inflated(s.box, NEAR.part), box));
}
