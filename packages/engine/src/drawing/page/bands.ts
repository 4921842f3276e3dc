/** Places as upright bands, nose left, tail right, with white between them; routes as dimensions from band to band. */
import type { Subject } from '../subject.ts';
import { clipped, textWidth, wrap } from '../text/measure.ts';
import { boxOf, type Picture } from '../sheet/picture.ts';
import type { Point } from '../sheet/elk.ts';

/** Names of places are lettered a little larger, mm. */
export const PLACE_SIZE = 3.4;
export const PLACE_LINE = 3.9;
/** Inside a band at each side of its parts, and of its name. */
const INSIDE = 2;
const NAME_INSIDE = 1.2;
/** White between bands. */
const BETWEEN = 4;
const NAME_LINES = 4;
/** A word is not broken before it is this wide. */
const WORD = 24;

export interface Band {
  /** Index of the place. */
  readonly place: number;
  readonly left: number;
  readonly right: number;
  readonly name: readonly string[];
}

export interface Dimension {
  readonly left: number;
  readonly right: number;
  /** From the top. */
  readonly row: number;
  readonly text: string;
}

export interface Banded {
  readonly picture: Picture;
  readonly bands: readonly Band[];
  readonly routes: readonly Dimension[];
  readonly routeRows: number;
}

/** Sets the bands, moves what is aft of a band tail-wards where it stands too close, and lays the routes under them. */
export function banded(picture: Picture, subject: Subject): Banded {
  const places = [...new Set(picture.nodes.map((n) => n.node.place))].toSorted((a, b) => a - b);
  let moved = picture;
  const bands: Band[] = [];
  for (const place of places) {
    const boxes = moved.nodes.filter((n) => n.node.place === place).map(boxOf);
    const own = {
      left: Math.min(...boxes.map((b) => b.left)),
      right: Math.max(...boxes.map((b) => b.right)),
    };
    const label = subject.places[place]?.label ?? '';
    const width = Math.max(own.right - own.left + 2 * INSIDE, leastWidth(label));
    const before = bands.at(-1);
    const wanted = before === undefined ? -Infinity : before.right + BETWEEN;
    const middle = (own.left + own.right) / 2;
    const dx = Math.max(0, wanted - (middle - width / 2));
    if (dx > 0) moved = pushed(moved, own.left - 0.01, dx);
    const left = middle + dx - width / 2;
    bands.push({ place, left, right: left + width, name: nameLines(label, width) });
  }
  const routes = routesOf(subject, bands);
  return { picture: moved, bands, routes: routes.list, routeRows: routes.rows };
}

/** Everything right of `x` by `dx`. */
function pushed(picture: Picture, x: number, dx: number): Picture {
  const move = (point: Point): Point => (point.x > x ? { x: point.x + dx, y: point.y } : point);
  return {
    nodes: picture.nodes.map((n) => (n.x > x ? { ...n, x: n.x + dx } : n)),
    wires: picture.wires.map((w) => ({ ...w, points: w.points.map(move), label: move(w.label) })),
  };
}

const nameWidth = (text: string): number => textWidth(text, 'strong', PLACE_SIZE);

/** So wide that no word is broken and the name takes four lines at most. */
export function leastWidth(label: string): number {
  const words = label.split(/\s+/);
  let width = Math.min(WORD, Math.max(...words.map(nameWidth)));
  while (wrap(label, width, 'strong', PLACE_SIZE).length > NAME_LINES && width < 3 * WORD) width += 2;
  return width + 2 * NAME_INSIDE;
}

const nameLines = (label: string, width: number): readonly string[] =>
  clipped(wrap(label, width - 2 * NAME_INSIDE + 0.01, 'strong', PLACE_SIZE), NAME_LINES);

function routesOf(
  subject: Subject,
  bands: readonly Band[],
): { readonly list: readonly Dimension[]; readonly rows: number } {
  const middle = new Map(bands.map((band) => [subject.places[band.place]?.id, (band.left + band.right) / 2]));
  const spans = subject.routes.flatMap((route) => {
    const [a, b] = [middle.get(route.from), middle.get(route.to)];
    return a === undefined || b === undefined
      ? []
      : [{ left: Math.min(a, b), right: Math.max(a, b), text: route.text }];
  });
  const rows: { readonly left: number; readonly right: number }[][] = [];
  const list = spans
    .toSorted(
      (a, b) => a.right - a.left - (b.right - b.left) || a.left - b.left || (a.text < b.text ? -1 : 1),
    )
    .map((span) => {
      const free = rows.findIndex((row) =>
        row.every((r) => r.right <= span.left + 0.01 || r.left >= span.right - 0.01),
      );
      const row = free < 0 ? rows.push([]) - 1 : free;
      rows[row]?.push(span);
      return { ...span, row };
    });
  return { list, rows: rows.length };
}

export const nameRows = (bands: readonly Band[]): number =>
  Math.max(1, ...bands.map((band) => band.name.length));
