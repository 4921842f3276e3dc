/** Where everything stands on a drawing, read from its SVG: wires as corners, parts as boxes, terminals as points. Millimetres. */
import type { DrawingSubject } from '@loomwright/engine';
import { Boxes } from './boxes.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface MeasuredWire {
  readonly id: string;
  /** From its `from` end to its `to` end. */
  readonly points: readonly Point[];
  readonly length: number;
  /** Its words; null: it has none here. */
  readonly label: Box | null;
  readonly group: SVGGElement;
  readonly line: SVGPathElement;
}

export interface MeasuredPart {
  readonly id: string;
  /** Symbol or outline, without its words. */
  readonly box: Box;
  /** With them. */
  readonly whole: Box;
  /** Where its designation is written. */
  readonly title: Point & { readonly anchor: string };
  readonly group: SVGGElement;
}

export interface MeasuredPlace {
  readonly id: string;
  readonly box: Box;
}

export interface Measured {
  readonly wires: ReadonlyMap<string, MeasuredWire>;
  readonly parts: ReadonlyMap<string, MeasuredPart>;
  readonly places: readonly MeasuredPlace[];
  /** Names of places. */
  readonly words: readonly Box[];
  /** Each terminal that has a wire here: where that wire meets it. Several wires may meet one at several points. */
  readonly terminals: ReadonlyMap<string, Point>;
  /** The same where all of it stands where it stood. */
  readonly shape: string;
  /** False: the room of some words was guessed, and is still to be measured. */
  readonly sure: boolean;
}

export const EMPTY: Measured = {
  wires: new Map(),
  parts: new Map(),
  places: [],
  words: [],
  terminals: new Map(),
  shape: '',
  sure: true,
};

const boxes = new Boxes();

/** `guess`: words that are new may be taken to need the room of those that stood there; see `sure`. */
export function measure(svg: SVGSVGElement, subject: DrawingSubject, guess = false): Measured {
  boxes.begin(guess);
  const shift = shiftOf(svg);
  const among = `${svg.closest('.drawing-stage')?.className ?? ''} ${shift.x} ${shift.y}`;
  const parts = new Map<string, MeasuredPart>();
  for (const group of svg.querySelectorAll<SVGGElement>('g[data-part]')) {
    const id = group.dataset['part'] ?? '';
    const own = boxes.of(group, 'part', among, () => ({
      box: moved(boxOf(group), shift),
      whole: moved(toBox(group.getBBox()), shift),
      title: titleOf(group, shift),
    }));
    parts.set(id, { id, ...own, group });
  }
  const wires = new Map<string, MeasuredWire>();
  const terminals = new Map<string, Point>();
  for (const group of svg.querySelectorAll<SVGGElement>('g[data-wire]')) {
    const wire = wireOf(group, subject, parts, { shift, among });
    if (wire === null) continue;
    wires.set(wire.id, wire);
    const drawn = subject.wires.get(wire.id);
    const [first, last] = [wire.points[0], wire.points.at(-1)];
    if (drawn === undefined || first === undefined || last === undefined) continue;
    terminals.set(`${drawn.from.part}.${drawn.from.terminal}`, first);
    terminals.set(`${drawn.to.part}.${drawn.to.terminal}`, last);
  }
  const places = [...svg.querySelectorAll<SVGGElement>('g.place')].map((group) => ({
    id: group.dataset['place'] ?? '',
    box: boxes.of(group, 'place', among, () => moved(toBox(group.getBBox()), shift)),
  }));
  const words = [...svg.querySelectorAll<SVGGElement>('g.place, g.places')].flatMap((group) =>
    boxes.of(group, 'words', among, () =>
      [...group.querySelectorAll('text')].map((text) => moved(toBox(text.getBBox()), shift)),
    ),
  );
  const shape = shapeOf(parts, wires, words);
  return { wires, parts, places, words, terminals, shape, sure: !boxes.guessed };
}

function shapeOf(parts: Measured['parts'], wires: Measured['wires'], words: Measured['words']): string {
  const boxes = [...parts.values()].map(({ id, box, whole, title }) => [id, box, whole, title]);
  const lines = [...wires.values()].map(({ id, points, label }) => [id, points, label]);
  return JSON.stringify([boxes, lines, words]);
}

/** The whole drawing may stand in a moved group. */
function shiftOf(svg: SVGSVGElement): Point {
  const group = svg.querySelector('g[data-wire], g[data-part]')?.parentElement;
  const found = /translate\(([-\d.]+)[ ,]([-\d.]+)\)/.exec(group?.getAttribute('transform') ?? '');
  return { x: Number(found?.[1] ?? 0), y: Number(found?.[2] ?? 0) };
}

const moved = (box: Box, by: Point): Box => ({
  left: box.left + by.x,
  right: box.right + by.x,
  top: box.top + by.y,
  bottom: box.bottom + by.y,
});

const toBox = ({ x, y, width, height }: DOMRect): Box => ({
  left: x,
  top: y,
  right: x + width,
  bottom: y + height,
});

export const joined = (a: Box, b: Box): Box => ({
  left: Math.min(a.left, b.left),
  top: Math.min(a.top, b.top),
  right: Math.max(a.right, b.right),
  bottom: Math.max(a.bottom, b.bottom),
});

function boxOf(group: SVGGElement): Box {
  const shapes = [...group.children].filter((child) => child.tagName !== 'text') as SVGGraphicsElement[];
  const boxes = (shapes.length === 0 ? [group] : shapes).map((shape) => {
    const own = toBox(shape.getBBox());
    const at = /translate\(([-\d.]+)[ ,]([-\d.]+)\)/.exec(shape.getAttribute('transform') ?? '');
    if (at === null) return own;
    // A glyph that lies on its side keeps its middle.
    const turned = /rotate/.test(shape.getAttribute('transform') ?? '');
    const wide = turned ? { left: own.top, right: own.bottom, top: own.left, bottom: own.right } : own;
    return moved(wide, { x: Number(at[1]), y: Number(at[2]) });
  });
  return boxes.reduce(joined);
}

function titleOf(group: SVGGElement, shift: Point): MeasuredPart['title'] {
  const strong = group.querySelector<SVGTSpanElement>('tspan[font-weight]');
  const text = strong?.parentElement;
  const y = Number(text?.getAttribute('y') ?? 0) + shift.y;
  // It may stand in one line with its plate: where it stands itself is asked, not where the line is anchored.
  if (strong !== null && strong.getNumberOfChars() > 0)
    return {
      x: strong.getStartPositionOfChar(0).x + strong.getComputedTextLength() / 2 + shift.x,
      y,
      anchor: 'middle',
    };
  return {
    x: Number(text?.getAttribute('x') ?? 0) + shift.x,
    y,
    anchor: text?.getAttribute('text-anchor') ?? 'start',
  };
}

function wireOf(
  group: SVGGElement,
  subject: DrawingSubject,
  parts: ReadonlyMap<string, MeasuredPart>,
  { shift, among }: { readonly shift: Point; readonly among: string },
): MeasuredWire | null {
  const id = group.dataset['wire'] ?? '';
  const line = group.querySelector<SVGPathElement>('path.wire');
  const drawn = subject.wires.get(id);
  if (line === null || drawn === undefined) return null;
  const points = boxes.of(line, 'corners', among, () => {
    const found = [...(line.getAttribute('d') ?? '').matchAll(/([-\d.]+)[ ,]([-\d.]+)/g)];
    return found.map(([, x, y]) => ({ x: Number(x) + shift.x, y: Number(y) + shift.y }));
  });
  const [from, to] = [parts.get(drawn.from.part)?.box, parts.get(drawn.to.part)?.box];
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return null;
  const kept =
    from === undefined ||
    to === undefined ||
    away(first, from) + away(last, to) <= away(first, to) + away(last, from);
  const label = group.querySelector<SVGGElement>('.wire-label');
  return {
    id,
    points: kept ? points : points.toReversed(),
    length: lengthOf(points),
    label:
      label === null ? null : boxes.of(group, 'label', among, () => moved(toBox(label.getBBox()), shift)),
    group,
    line,
  };
}

const away = ({ x, y }: Point, box: Box): number =>
  Math.max(box.left - x, x - box.right, 0) + Math.max(box.top - y, y - box.bottom, 0);

export const lengthOf = (points: readonly Point[]): number =>
  points.slice(1).reduce((sum, b, i) => sum + distance(points[i] ?? b, b), 0);

export const distance = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

/** The point so far along a way, and the direction there. */
export function along(points: readonly Point[], at: number): Point & { readonly degrees: number } {
  let left = at;
  for (let i = 1; i < points.length; i += 1) {
    const [a, b] = [points[i - 1], points[i]];
    if (a === undefined || b === undefined) break;
    const span = distance(a, b);
    if (left <= span || i === points.length - 1) {
      const share = span === 0 ? 0 : Math.min(1, Math.max(0, left / span));
      const degrees = (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI;
      return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share, degrees };
    }
    left -= span;
  }
  return { x: points[0]?.x ?? 0, y: points[0]?.y ?? 0, degrees: 0 };
}

/** Shortest way from a point to a line of corners. */
export function awayFrom(points: readonly Point[], p: Point): number {
  let least = Infinity;
  for (let i = 1; i < points.length; i += 1) {
    const [a, b] = [points[i - 1], points[i]];
    if (a === undefined || b === undefined) continue;
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const squared = dx * dx + dy * dy;
    const t = squared === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / squared));
    least = Math.min(least, Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy));
  }
  return least;
}

/** The same drawing where words on wires are not shown; `far`: and of parts only designations, so many mm high. */
export function withoutLabels(measured: Measured, far: number | null): Measured {
  const wires = new Map([...measured.wires].map(([id, wire]) => [id, { ...wire, label: null }]));
  if (far === null) return { ...measured, wires };
  const parts = new Map(
    [...measured.parts].map(([id, part]) => [id, { ...part, whole: joined(part.box, titleBox(part, far)) }]),
  );
  return { ...measured, wires, parts };
}

/** Room of a designation of two or three letters. */
function titleBox({ title: { x, y, anchor } }: MeasuredPart, high: number): Box {
  const wide = 1.9 * high;
  const left = anchor === 'middle' ? x - wide / 2 : anchor === 'end' ? x - wide : x;
  return { left, right: left + wide, top: y - high, bottom: y + 0.2 * high };
}
