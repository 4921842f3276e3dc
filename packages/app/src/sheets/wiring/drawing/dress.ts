/** Dresses the wires of a drawing: thickness, hollow or filled, chevrons, sleeve, marker band. Nothing is laid out again. */
import { chevronGap, PX_PER_MM, strokeOf, type WireLook } from './look.ts';
import {
  along,
  lengthOf,
  type Measured,
  type MeasuredPart,
  type MeasuredWire,
  type Point,
} from './measure.ts';
import type { Spot } from './spots.ts';
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
}

export function dress(measured: Measured, { looks, picked, scale, sleeves }: Dress): void {
  // Thinner than at 100 % when the drawing is smaller, but never too thin to be told apart.
  const zoom = Math.min(1, scale / PX_PER_MM);
  const mm = (px: number): number => px / scale;
  for (const wire of measured.wires.values()) {
    const look = looks.get(wire.id);
    const isPicked = picked.has(wire.id);
    const sleeve = sleeves.get(wire.id) ?? null;
    // Its points may have another order than the line in which it is drawn.
    const words = JSON.stringify([look ?? null, isPicked, scale, sleeve, wire.points]);
    if (!dressesAnew(wire.group, words)) continue;
    wire.group.classList.toggle('picked', isPicked);
    if (look !== undefined) dressWire(wire, look, { zoom, mm, sleeves, picked: isPicked });
  }
  for (const part of measured.parts.values()) {
    const isPicked = picked.has(part.id);
    if (!dressesAnew(part.group, isPicked ? JSON.stringify([scale, part.box]) : '')) continue;
    part.group.classList.toggle('picked', isPicked);
    if (isPicked) part.group.prepend(bandOf(part, mm));
  }
}

interface How {
  readonly zoom: number;
  readonly mm: (px: number) => number;
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
  const chevrons = chevronsOf(own, look, how);
  if (chevrons !== '')
    after.push(worn('path', { d: chevrons, class: 'worn chevrons', 'stroke-width': mm(1.8) }));
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

function chevronsOf(points: readonly Point[], look: WireLook, { zoom, mm }: How): string {
  const gap = chevronGap(look.amps);
  const length = lengthOf(points);
  if (gap === null || length < mm(14)) return '';
  const step = mm(gap * Math.max(0.6, zoom));
  const count = Math.max(1, Math.floor(length / step));
  const arm = mm(Math.max(4.2, 5.5 * zoom + (strokeOf(look.areaMm2) * zoom) / 2.6));
  const paths: string[] = [];
  for (let i = 0; i < count; i += 1) {
    const { x, y, degrees } = along(points, (length * (i + 0.5)) / count);
    const turn = ((look.amps < 0 ? degrees + 180 : degrees) * Math.PI) / 180;
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    const at = (dx: number, dy: number): string =>
      `${(x + dx * cos - dy * sin).toFixed(2)} ${(y + dx * sin + dy * cos).toFixed(2)}`;
    paths.push(`M${at(-arm * 0.55, -arm)}L${at(arm * 0.45, 0)}L${at(-arm * 0.55, arm)}`);
  }
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
