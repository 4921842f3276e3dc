/** The small outline of a vehicle with its places as spots: the map that heads a sheet, and the picture beside a step. */
import type { Id } from '../../contracts/index.ts';
import { LINE_WEIGHT, n, path, text, type Ink } from '../ink.ts';
import type { Subject } from '../subject.ts';
import { idOf, printInk, svgRoot, tag } from '../svg.ts';
import { CAPITALS, clipped, LINE, textWidth, wrap } from '../text/measure.ts';
import { bodyPath, plainProfile, spotsOf, wheelsPath, type Profile, type Spot } from './profile.ts';

export interface MapOptions {
  /** mm */
  readonly width: number;
  /** Place that is meant, filled; the others are open rings. */
  readonly here?: Id;
  readonly prefix?: string;
}

const SPOT = 1.3;
/** A van is about this much longer than it is high. */
const LENGTH_BY_HEIGHT = 2.6;

export function outlineMap(subject: Subject, options: MapOptions): string {
  const { width } = options;
  const height = width / LENGTH_BY_HEIGHT;
  const profile = plainProfile(4, width - 4, 6, 6 + height * 0.78);
  const spots = spotsOf(subject.places, subject.vehicleLength, profile);
  const names = namesInk(spots, profile, width);
  const bottom = Math.max(profile.floor + profile.wheel, names.bottom) + 2;
  const body = [
    path(bodyPath(profile), LINE_WEIGHT.symbol),
    path(wheelsPath(profile), LINE_WEIGHT.symbol),
    path(`M${n(profile.left - 2)} ${n(profile.floor)}H${n(profile.right + 2)}`, LINE_WEIGHT.rule),
  ];
  const marks = spots.map((spot) => spotSvg(spot, options)).join('');
  return svgRoot(
    width,
    bottom,
    `${subject.title}: places from nose to tail`,
    printInk([...body, ...names.ink]) + marks,
  );
}

function spotSvg({ place, x, y }: Spot, { here, prefix = '' }: MapOptions): string {
  const filled = here === undefined || here === place.id;
  const dot = tag('circle', {
    cx: x,
    cy: y,
    r: SPOT,
    fill: filled && place.known ? 'currentColor' : '#fff',
    stroke: 'currentColor',
    'stroke-width': 0.4,
    class: filled ? 'spot' : 'spot paper',
  });
  return tag(
    'g',
    {
      id: idOf(`${prefix}place-`, place.id),
      class: 'place',
      'data-place': place.id,
      role: 'img',
      'aria-label': place.label,
    },
    dot,
  );
}

/** Numbered under the floor line from nose to tail, so that no name is ever written over another. */
function namesInk(
  spots: readonly Spot[],
  profile: Profile,
  width: number,
): { readonly ink: readonly Ink[]; readonly bottom: number } {
  const ink: Ink[] = spots.map(({ x, y }, i) =>
    text(x + SPOT + 0.6, y + CAPITALS / 2, [{ text: String(i + 1), strong: true }]),
  );
  const top = profile.floor + profile.wheel + 4;
  let [x, y] = [profile.left, top];
  spots.forEach(({ place }, i) => {
    const name = clipped(wrap(place.label, width - 14), 1)[0] ?? '';
    const own = textWidth(`${i + 1}`, 'strong') + 0.9 + textWidth(name) + 4;
    if (x > profile.left && x + own > width - 2) [x, y] = [profile.left, y + LINE + 0.5];
    ink.push(
      text(x, y, [
        { text: String(i + 1), strong: true },
        { text: name, strong: false },
      ]),
    );
    x += own;
  });
  return { ink, bottom: y };
}
