/** The vehicle view as SVG: outline, floor, names of places, parts, wires. */
import type { Id } from '../../contracts/index.ts';
import { LINE_WEIGHT, n, path, text, type Ink } from '../ink.ts';
import { nodeSvg, wireSvg, type PrintOptions } from '../page/print.ts';
import { boxOf, labelBox, nodeById, type Box } from '../sheet/picture.ts';
import type { Subject } from '../subject.ts';
import { printInk, svgRoot, tag } from '../svg.ts';
import { ASCENT, DESCENT, textWidth } from '../text/measure.ts';
import { bodyPath, wheelsPath, type Profile } from './profile.ts';
import type { VehicleView } from './view.ts';

const AROUND = 6;
const NOTHING: ReadonlyMap<Id, string> = new Map();

export function printVehicle(view: VehicleView, subject: Subject, prefix: string): string {
  const { arranged, picture, profile } = view;
  const options: PrintOptions = { subject, view: 'all', references: NOTHING, prefix };
  const nodes = nodeById(picture);
  const outline = [
    path(bodyPath(profile), LINE_WEIGHT.symbol),
    path(wheelsPath(profile), LINE_WEIGHT.symbol),
    path(`M${n(profile.left - 3)} ${n(profile.floor)}H${n(profile.right + 3)}`, 0.7),
    path(hatch(profile), LINE_WEIGHT.dimension),
  ];
  const inside = [
    tag('g', { class: 'outline', 'aria-hidden': 'true' }, printInk(outline)),
    tag('g', { class: 'places' }, printInk(placeNames(view, subject))),
    ...picture.wires.map((wire) => wireSvg(wire, nodes, options)),
    ...picture.nodes.map((node) => nodeSvg(node, options)),
  ].join('');
  const top = -arranged.over - AROUND;
  const height = arranged.floor + Math.max(arranged.under, profile.wheel) + AROUND - top;
  const moved = tag('g', { transform: `translate(${AROUND} ${n(-top)})` }, inside);
  return svgRoot(
    arranged.width + 2 * AROUND,
    height,
    `${subject.title}: parts where they sit in the vehicle`,
    moved,
  );
}

/** Short slants under the floor line: the body that is everywhere. */
function hatch({ left, right, floor }: Profile): string {
  const strokes: string[] = [];
  for (let x = left; x < right; x += 5) strokes.push(`M${n(x)} ${n(floor + 0.4)}l-1.4 1.8`);
  return strokes.join('');
}

/** The name of a place over its parts where there is room, else under them. */
function placeNames({ places, picture }: VehicleView, subject: Subject): readonly Ink[] {
  const taken: Box[] = [
    ...picture.nodes.map(boxOf),
    ...picture.wires.map(labelBox),
    ...picture.wires.flatMap((wire) =>
      wire.points.slice(1).map((b, i) => {
        const a = wire.points[i] ?? b;
        return {
          left: Math.min(a.x, b.x) - 0.3,
          right: Math.max(a.x, b.x) + 0.3,
          top: Math.min(a.y, b.y) - 0.3,
          bottom: Math.max(a.y, b.y) + 0.3,
        };
      }),
    ),
  ];
  return places.flatMap(({ place, box }): readonly Ink[] => {
    const label = subject.places.find((each) => each.id === place)?.label ?? place;
    const width = textWidth(label);
    for (const y of [box.top - 2, box.top - 5, box.bottom + ASCENT + 1.5, box.top - 8]) {
      for (const x of [box.left, (box.left + box.right - width) / 2, box.right - width]) {
        const own: Box = { left: x, right: x + width, top: y - ASCENT, bottom: y + DESCENT };
        if (
          taken.some(
            (each) =>
              own.left < each.right &&
              each.left < own.right &&
              own.top < each.bottom &&
              each.top < own.bottom,
          )
        )
          continue;
        taken.push(own);
        return [text(x, y, [{ text: label, strong: false }])];
      }
    }
    return [];
  });
}
