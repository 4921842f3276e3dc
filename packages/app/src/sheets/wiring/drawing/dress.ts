/** Dresses the wires of a drawing: thickness, hollow or filled, chevrons, sleeve, marker band. Nothing is laid out again. */
import { chevronGap, PX_PER_MM, strokeOf, type WireLook } from './look.ts';
import {
  along,
  lengthOf,
  type Box,
  type Measured,
  type MeasuredPart,
  type MeasuredWire,
  type Point,
} from './measure.ts';
import { meets, wordsAlong, type Spot } from './spots.ts';
import { dressesAnew } from './worn.ts';

const SVG = 'http://www.w3.org/2000/svg';

export interface Dress {
  readonly looks: ReadonlyMap<string, WireLook>;
  /** Wires and parts with the marker behind them. */
  readonly picked: ReadonlySet<string>;
  /** Pixels per millimetre now. */
  readonly scale: number;
  /** Where sleeves stand. */
  readonly sleeves: ReadonlyMap<string, Spot>;
  /** Room that figures and sleeves take. */
  readonly taken: readonly Box[];
}

export function dress(measured: Measured, { looks, picked, scale, sleeves, taken }: Dress): void {
  // Thinner than at 100 % when the drawing is smaller, but never too thin to be told apart.
  const zoom = Math.min(1, scale / PX_PER_MM);
  const mm = (px: number): number => px / scale;
  for (const wire of measured.wires.values()) {
    const look = looks.get(wire.id);
    const isPicked = picked.has(wire.id);
    const sleeve = sleeves.get(wire.id) ?? null;
    const chevrons = look === undefined ? [] : chevronsOn(measured, wire, look, { zoom, mm }, taken);
    // Its points may have another order than the line in which it is drawn.
    const words = JSON.stringify([look ?? null, isPicked, scale, sleeve, wire.points, chevrons]);
    if (!dressesAnew(wire.group, words)) continue;
    wire.group.classList.toggle('picked', isPicked);
    if (look !== undefined) dressWire(wire, look, { zoom, mm, sleeves, chevrons, picked: isPicked });
  }
  for (const part of measured.parts.values()) {
    const isPicked = picked.has(part.id);
    if (!dressesAnew(part.group, isPicked ? JSON.stringify([scale, part.box]) : '')) continue;
    part.group.classList.toggle('picked', isPicked);
    if (isPicked) part.group.prepend(bandOf(part, mm));
  }
}

interface Sizes {
  readonly zoom: number;
  readonly mm: (px: number) => number;
}

interface How extends Sizes {
  /** How far along the wire chevrons stand. */
  readonly chevrons: readonly number[];
  readonly sleeves: ReadonlyMap<string, Spot>;
  readonly picked: boolean;
}

function dressWire({ id, group, line, points }: MeasuredWire, look: WireLook, how: How): void {
  const { zoom, mm } = how;
  const hollow = look.fill === 'dead' || look.fill === 'hunting';
  const px = Math.max(hollow ? 3.8 : 1.5, strokeOf(look.areaMm2) * zoom);
  line.setAttribute('stroke-width', String(mm(px)));
  line.classList.toggle('unknown', look.areaMm2 === null);
  const dashes = look.areaMm2 === null ? [5, 4.5] : look.negative ? [16 * zoom, 4 * zoom] : null;
  if (dashes === null) line.removeAttribute('stroke-dasharray');
  else line.setAttribute('stroke-dasharray', dashes.map(mm).join(' '));
  if (how.picked) {
    const band = worn('path', {
      d: line.getAttribute('d') ?? '',
      class: 'worn marker',
      'stroke-width': mm(px + 14 * zoom),
    });
    group.prepend(band);
  }
  const after: SVGElement[] = [];
  const d = line.getAttribute('d') ?? '';
  if (hollow && look.areaMm2 !== null)
    after.push(worn('path', { d, class: 'worn core', 'stroke-width': mm(px - 2.2) }));
  if (look.fill === 'hunting') {
    const stripe = mm(26 * zoom);
    after.push(
      worn('path', {
        d,
        class: 'worn hunting',
        'stroke-width': mm(px),
        'stroke-dasharray': `${stripe} ${stripe}`,
      }),
    );
  }
  const shift = shiftOf(group);
  const own = points.map(({ x, y }) => ({ x: x - shift.x, y: y - shift.y }));
  if (how.chevrons.length > 0)
    after.push(
      worn('path', { d: chevronsOf(own, look, how), class: 'worn chevrons', 'stroke-width': mm(1.8) }),
    );
  const sleeve = how.sleeves.get(id);
  if (sleeve !== undefined && look.colours.length > 0) after.push(sleeveOf(sleeve, shift, look.colours, how));
  line.after(...after);
}

/** Coordinates of the group in which it stands. */
function shiftOf(group: SVGGElement): Point {
  const found = /translate\(([-\d.]+)[ ,]([-\d.]+)\)/.exec(
    group.parentElement?.getAttribute('transform') ?? '',
  );
  return { x: Number(found?.[1] ?? 0), y: Number(found?.[2] ?? 0) };
}

function worn(name: string, attributes: Readonly<Record<string, string | number>>): SVGElement {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  return element;
}

/** Half of a chevron's extent, mm. */
const armOf = (look: WireLook, { zoom, mm }: Sizes): number =>
  mm(Math.max(4.2, 5.5 * zoom + (strokeOf(look.areaMm2) * zoom) / 2.6));

/** Shares of the distance between two chevrons by which one gives way to words, nearest first. */
const WAYS_OUT = [0, 0.15, -0.15, 0.3, -0.3, 0.45, -0.45];

/**
 * How far along the wire its chevrons stand: evenly, but clear of words and symbols; one that cannot is left out, the last one not:
 * the way of the current is to be seen.
 */
function chevronsOn(
  measured: Measured,
  wire: MeasuredWire,
  look: WireLook,
  sizes: Sizes,
  taken: readonly Box[],
): readonly number[] {
  const { zoom, mm } = sizes;
  const gap = chevronGap(look.amps);
  const { points } = wire;
  const length = lengthOf(points);
  if (gap === null || length < mm(14)) return [];
  const count = Math.max(1, Math.floor(length / mm(gap * Math.max(0.6, zoom))));
  const arm = armOf(look, sizes);
  const blocked = wordsAlong(measured, wire, arm, taken);
  const isClear = (at: number): boolean => {
    const { x, y } = along(points, at);
    const box = { left: x - arm, right: x + arm, top: y - arm, bottom: y + arm };
    return !blocked.some((other) => meets(box, other));
  };
  const step = length / count;
  const places: number[] = [];
  for (let i = 0; i < count; i += 1) {
    const way = WAYS_OUT.find((share) => isClear(step * (i + 0.5 + share)));
    if (way !== undefined) places.push(Number((step * (i + 0.5 + way)).toFixed(2)));
  }
  return places.length > 0 ? places : [Number((length / 2).toFixed(2))];
}

function chevronsOf(points: readonly Point[], look: WireLook, how: How): string {
  const arm = armOf(look, how);
  const paths = how.chevrons.map((place) => {
    const { x, y, degrees } = along(points, place);
    const turn = ((look.amps < 0 ? degrees + 180 : degrees) * Math.PI) / 180;
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    const at = (dx: number, dy: number): string =>
      `${(x + dx * cos - dy * sin).toFixed(2)} ${(y + dx * sin + dy * cos).toFixed(2)}`;
    return `M${at(-arm * 0.55, -arm)}L${at(arm * 0.45, 0)}L${at(-arm * 0.55, arm)}`;
  });
  return paths.join('');
}

/** Across the line where nothing else stands. */
function sleeveOf(spot: Spot, shift: Point, colours: readonly string[], { zoom, mm }: How): SVGElement {
  const [long, wide] = [mm(24 * zoom), mm(13 * zoom)];
  const sleeve = worn('g', {
    class: 'worn sleeve',
    transform: `translate(${spot.x - shift.x} ${spot.y - shift.y}) rotate(${spot.degrees})`,
  });
  colours.forEach((colour, i) => {
    const part = long / colours.length;
    const rect = worn('rect', {
      x: -long / 2 + i * part,
      y: -wide / 2,
      width: part,
      height: wide,
      class: 'insulation',
    });
    rect.style.setProperty('fill', `var(--ins-${colour})`);
    sleeve.append(rect);
  });
  sleeve.append(
    worn('rect', {
      x: -long / 2,
      y: -wide / 2,
      width: long,
      height: wide,
      class: 'edge',
      rx: mm(2),
      'stroke-width': mm(1.2),
    }),
  );
  return sleeve;
}

function bandOf({ box, group }: MeasuredPart, mm: (px: number) => number): SVGElement {
  const shift = shiftOf(group);
  const air = mm(7);
  return worn('rect', {
    class: 'worn marker-box',
    x: box.left - shift.x - air,
    y: box.top - shift.y - air,
    width: box.right - box.left + 2 * air,
    height: box.bottom - box.top + 2 * air,
  });
}
