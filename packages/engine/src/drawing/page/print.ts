/** A page as SVG: bands, parts, wires, routes; on paper with frame and title block, on screen as large as the drawing is. */
import type { Id } from '../../contracts/index.ts';
import { colourWords } from '../colours.ts';
import { LINE_WEIGHT, n, path, text, type Ink } from '../ink.ts';
import { dashOf, labelInk, wayOf, weightOf } from '../sheet/wire-ink.ts';
import { nodeInk } from '../sheet/node-ink.ts';
import { heightOf, movedBy, nodeById, type PlacedNode, type PlacedWire } from '../sheet/picture.ts';
import type { Subject, SubjectWire, View } from '../subject.ts';
import { idOf, printInk, svgRoot, tag } from '../svg.ts';
import { textWidth } from '../text/measure.ts';
import { PLACE_LINE, PLACE_SIZE, type Banded, type Dimension } from './bands.ts';
import { frameInk, type Block } from './frame-ink.ts';
import { footHeight, freeOn, namesHeight, ROUTE_ROW, type Paper } from './paper.ts';

export interface PrintOptions {
  readonly subject: Subject;
  readonly view: View;
  /** `see 2/C2` by part. */
  readonly references: ReadonlyMap<Id, string>;
  /** Before every id, where two drawings share a page. */
  readonly prefix: string;
}

export const VIEW_TITLES: Readonly<Record<View, string>> = {
  power: 'Power, positive side',
  control: 'Control and enable',
  negative: 'Negative and bonds',
  all: 'All wires',
};

/** Room around a drawing on screen, mm. */
const AROUND = 3;

export function printOnPaper(page: Banded, options: PrintOptions, paper: Paper, block: Block): string {
  const free = freeOn(paper, block.draft !== null);
  const settled = settledOn(page, free);
  const label = `${options.subject.title}: ${VIEW_TITLES[options.view]}, page ${block.page} of ${block.pages}`;
  const body = bodyOf(settled, options, free.top, free.top + free.height - footHeight(page));
  const ground = tag('rect', { class: 'ground', width: paper.width, height: paper.height, fill: '#fff' });
  const frame = tag(
    'g',
    { class: 'frame', 'aria-hidden': 'true' },
    printInk(frameInk(paper, options.subject, block)),
  );
  return svgRoot(paper.width, paper.height, label, ground + frame + body);
}

/** The drawing in the middle of what is free, under the names. */
export function settledOn(
  page: Banded,
  free: { readonly left: number; readonly top: number; readonly width: number; readonly height: number },
): Banded {
  const left = Math.min(...page.bands.map((b) => b.left));
  const right = Math.max(...page.bands.map((b) => b.right));
  const dx = free.left + (free.width - (right - left)) / 2 - left;
  const names = namesHeight(page);
  const room = free.height - names - footHeight(page) - 2;
  const top = topOf(page);
  const dy = free.top + names + Math.max(0, (room - heightOf(page.picture)) / 2) - top;
  return shifted(page, dx, dy);
}

const topOf = (page: Banded): number =>
  Math.min(
    ...page.picture.nodes.map((node) => node.y),
    ...page.picture.wires.map((w) => w.label.y - w.edge.label.up),
    ...page.picture.wires.flatMap((w) => w.points.map((p) => p.y)),
  );

function shifted(page: Banded, dx: number, dy: number): Banded {
  const across = <T extends { readonly left: number; readonly right: number }>(each: T): T => ({
    ...each,
    left: each.left + dx,
    right: each.right + dx,
  });
  return {
    ...page,
    picture: movedBy(page.picture, dx, dy),
    bands: page.bands.map(across),
    routes: page.routes.map(across),
  };
}

/** On screen: anchored at the first band's left edge, so that an edit at the tail moves nothing at the nose. */
export function printOnScreen(page: Banded, options: PrintOptions): string {
  const left = Math.min(...page.bands.map((b) => b.left));
  const right = Math.max(...page.bands.map((b) => b.right));
  const moved = shifted(page, AROUND - left, AROUND + namesHeight(page) - topOf(page));
  const foot = AROUND + namesHeight(page) + heightOf(page.picture) + 3;
  const label = `${options.subject.title}: ${VIEW_TITLES[options.view]}`;
  const height = foot + footHeight(page) + AROUND;
  return svgRoot(right - left + 2 * AROUND, height, label, bodyOf(moved, options, AROUND, foot));
}

function bodyOf(page: Banded, options: PrintOptions, top: number, bottom: number): string {
  const nodes = nodeById(page.picture);
  return [
    bandsSvg(page, options, top, bottom),
    tag('g', { class: 'routes' }, printInk(page.routes.flatMap((route) => dimensionInk(route, bottom)))),
    ...page.picture.wires.map((wire) => wireSvg(wire, nodes, options)),
    ...inReadingOrder(page.picture.nodes).map((node) => nodeSvg(node, options)),
  ].join('');
}

/** Nose to tail, then from the top. */
const inReadingOrder = (nodes: readonly PlacedNode[]): readonly PlacedNode[] =>
  nodes.toSorted((a, b) => a.node.place - b.node.place || a.x - b.x || a.y - b.y);

function bandsSvg(page: Banded, { subject }: PrintOptions, top: number, bottom: number): string {
  return page.bands
    .map((band) => {
      const width = band.right - band.left;
      const tint = tag('rect', {
        class: 'band',
        x: band.left,
        y: top,
        width,
        height: bottom - top,
        fill: '#f1efe9',
      });
      const rule = path(`M${n(band.left)} ${n(top)}H${n(band.right)}`, LINE_WEIGHT.rule);
      const name = band.name.map((words, i): Ink => ({
        ...text(band.left + 1.2, top + 4 + i * PLACE_LINE, [{ text: words, strong: true }]),
        size: PLACE_SIZE,
      }));
      return tag(
        'g',
        { class: 'place', 'data-place': subject.places[band.place]?.id ?? '' },
        tint + printInk([rule, ...name]),
      );
    })
    .join('');
}

/** A route as a dimension: arrows at both ends, its words in a gap of the line. */
function dimensionInk({ left, right, row, text: words }: Dimension, bottom: number): readonly Ink[] {
  const y = bottom + 2.2 + row * ROUTE_ROW;
  const middle = (left + right) / 2;
  const half = textWidth(words) / 2 + 0.8;
  const room = right - left > 2 * half + 6;
  const line = room
    ? `M${n(left)} ${n(y)}H${n(middle - half)}M${n(middle + half)} ${n(y)}H${n(right)}`
    : `M${n(left)} ${n(y)}H${n(right)}`;
  return [
    path(`${line}M${n(left)} ${n(y - 1)}v2M${n(right)} ${n(y - 1)}v2`, LINE_WEIGHT.dimension),
    path(`M${n(left)} ${n(y)}l2-.6v1.2ZM${n(right)} ${n(y)}l-2-.6v1.2Z`, 0, { fill: 'ink' }),
    text(middle, room ? y + 1 : y - 0.6, [{ text: words, strong: false }], 'middle'),
  ];
}

export function wireSvg(wire: PlacedWire, nodes: ReadonlyMap<Id, PlacedNode>, options: PrintOptions): string {
  const own = wire.edge.wire;
  const points = wayOf(wire, nodes);
  const d = points.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${n(x)} ${n(y)}`).join('');
  const id = idOf(options.prefix, own.assumed ? own.id : own.number);
  const line = tag('path', {
    id,
    class: `wire ${own.view}`,
    d,
    fill: 'none',
    stroke: 'currentColor',
    'stroke-width': weightOf(own.areaMm2),
    'stroke-dasharray': dashOf(own, options.view === 'negative' ? 'negatives' : 'all'),
    'stroke-linejoin': 'round',
  });
  const label = tag('g', { id: `${id}L`, class: 'wire-label' }, printInk(labelInk(wire)));
  return tag(
    'g',
    { role: 'img', 'aria-label': spokenWire(own, options.subject), 'data-wire': own.id },
    line + label,
  );
}

/** `W3, 25 mm² red, feed breaker to charger, 4.6 m`. */
export function spokenWire(wire: SubjectWire, subject: Subject): string {
  const name = (id: Id): string => subject.parts.get(id)?.name ?? id;
  const size = /^[\d.]+$/.test(wire.size)
    ? `${wire.size} mm²`
    : wire.size === '?'
      ? 'size not known'
      : wire.size;
  const ends = `${name(wire.from.part)} ${wire.from.terminal} to ${name(wire.to.part)} ${wire.to.terminal}`;
  return [
    wire.number,
    `${size} ${colourWords(wire.colour)}`.trim(),
    ends,
    wire.length,
    wire.rating === '' ? '' : `protected at ${wire.rating}`,
  ]
    .filter((words) => words !== '')
    .join(', ');
}

export function nodeSvg(placed: PlacedNode, options: PrintOptions): string {
  const { part } = placed.node;
  const ink = nodeInk(placed, options.references.get(part.id) ?? '');
  const plate = part.symbol.plate?.join(' ') ?? '';
  const label = [part.designation, part.name, part.title, plate].filter((words) => words !== '').join(', ');
  return tag(
    'g',
    {
      id: idOf(options.prefix, part.designation),
      class: 'part',
      role: 'img',
      'aria-label': label,
      'data-part': part.id,
    },
    printInk(ink),
  );
}
