/** What a press on the drawing means: the nearest terminal, part or wire within reach. */
import { awayFrom, distance, type Box, type Measured, type Point } from './measure.ts';

export type Hit =
  | { readonly type: 'part'; readonly id: string }
  | { readonly type: 'wire'; readonly id: string; readonly at: Point }
  | { readonly type: 'terminal'; readonly id: string };

/** Reach of a wire, px: its band is 24 px wide. */
const WIRE_REACH = 12;
const TERMINAL_REACH = 16;

/** `terminals`: only terminals are looked for, the nearest wins however near a part is. */
export function hitAt(measured: Measured, p: Point, scale: number, terminals: boolean): Hit | null {
  if (terminals) {
    const near = nearestTerminal(measured, p, TERMINAL_REACH / scale);
    if (near !== null) return { type: 'terminal', id: near };
  }
  const part = smallest(measured, p);
  if (part !== null) return { type: 'part', id: part };
  let best: { readonly id: string; readonly away: number } | null = null;
  for (const wire of measured.wires.values()) {
    const away = wire.label !== null && inside(wire.label, p) ? 0 : awayFrom(wire.points, p);
    if (away <= WIRE_REACH / scale && (best === null || away < best.away)) best = { id: wire.id, away };
  }
  if (best !== null) return { type: 'wire', id: best.id, at: p };
  const near = wide(measured, p, 10 / scale);
  return near === null ? null : { type: 'part', id: near };
}

export function nearestTerminal(measured: Measured, p: Point, reach: number): string | null {
  let best: { readonly id: string; readonly away: number } | null = null;
  for (const [id, at] of measured.terminals) {
    const away = distance(at, p);
    if (away <= reach && (best === null || away < best.away)) best = { id, away };
  }
  return best?.id ?? null;
}

const inside = (box: Box, { x, y }: Point, air = 0): boolean =>
  x >= box.left - air && x <= box.right + air && y >= box.top - air && y <= box.bottom + air;

const area = ({ left, right, top, bottom }: Box): number => (right - left) * (bottom - top);

function smallest(measured: Measured, p: Point): string | null {
  const under = [...measured.parts.values()].filter(({ box }) => inside(box, p));
  return under.toSorted((a, b) => area(a.box) - area(b.box))[0]?.id ?? null;
}

function wide(measured: Measured, p: Point, air: number): string | null {
  const near = [...measured.parts.values()].filter(({ box }) => inside(box, p, air));
  return near.toSorted((a, b) => area(a.box) - area(b.box))[0]?.id ?? null;
}

export type Way = 'ArrowLeft' | 'ArrowRight' | 'ArrowUp' | 'ArrowDown';

/** The next thing that way: near ahead counts, far aside counts double. null: there is none. */
export function nextThatWay(
  spots: ReadonlyMap<string, Point>,
  from: Point,
  way: Way,
  except: string | null,
): string | null {
  let best: { readonly id: string; readonly cost: number } | null = null;
  for (const [id, { x, y }] of spots) {
    if (id === except) continue;
    const [dx, dy] = [x - from.x, y - from.y];
    const ahead = way === 'ArrowLeft' ? -dx : way === 'ArrowRight' ? dx : way === 'ArrowUp' ? -dy : dy;
    const aside = Math.abs(way === 'ArrowLeft' || way === 'ArrowRight' ? dy : dx);
    if (ahead <= 0.5) continue;
    const cost = ahead + 2 * aside;
    if (best === null || cost < best.cost) best = { id, cost };
  }
  return best?.id ?? null;
}
