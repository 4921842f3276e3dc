/** Figures and sleeves on wires: figures first, since they say more; each where it meets nothing. */
import type { LiveReading } from '@loomwright/engine';
import { printValue } from '@loomwright/engine';
import { PX_PER_MM, type WireLook } from './look.ts';
import type { Box, Measured, MeasuredWire } from './measure.ts';
import { besideUpright, boxAt, freeSpot, isLevel, type Spot } from './spots.ts';

export interface Placed {
  readonly figures: ReadonlyMap<string, Spot & { readonly text: string }>;
  readonly sleeves: ReadonlyMap<string, Spot>;
  /** Room that they take. */
  readonly taken: readonly Box[];
}

export const NOTHING: Placed = { figures: new Map(), sleeves: new Map(), taken: [] };

const FIGURE_PX = 13.5;
/** Of words above a line: from their foot to it. */
const FOOT_PX = 7;
/** Of words beside a line: from it to them; a thick line and its chevrons have room. */
const BESIDE_PX = 14;

interface At {
  readonly scale: number;
  /** On a drawing seen from farther, px for each mm, nothing is placed. */
  readonly least: number;
  /** Where nothing is to stand. */
  readonly kept: readonly Box[];
}

export function placeOnWires(
  measured: Measured,
  looks: ReadonlyMap<string, WireLook>,
  reading: LiveReading | null,
  { scale, least, kept }: At,
): Placed {
  if (scale < least) return { ...NOTHING, taken: kept };
  const zoom = Math.min(1, scale / PX_PER_MM);
  const figures = new Map<string, Spot & { readonly text: string }>();
  const sleeves = new Map<string, Spot>();
  const taken: Box[] = [...kept];
  for (const wire of measured.wires.values()) {
    const amps = Math.abs(reading?.wires[wire.id]?.amps ?? 0);
    if (amps < 0.05) continue;
    const text = printValue(amps, 'A');
    const spot = figureSpot(measured, wire, text, scale, taken);
    if (spot === null) continue;
    taken.push(spot.box);
    figures.set(wire.id, { ...spot.at, text });
  }
  for (const wire of measured.wires.values()) {
    if ((looks.get(wire.id)?.colours.length ?? 0) === 0) continue;
    const wanted = {
      half: (14 * zoom) / scale,
      up: (8 * zoom) / scale,
      down: (8 * zoom) / scale,
      level: false,
    };
    const spot = freeSpot(measured, wire, wanted, taken);
    if (spot === null) continue;
    taken.push(boxAt(spot, isLevel(spot.degrees), wanted));
    sleeves.set(wire.id, spot);
  }
  return { figures, sleeves, taken };
}

/** Above a level run, else beside an upright one: the middle of the words' foot, and the room that they take. */
function figureSpot(
  measured: Measured,
  wire: MeasuredWire,
  text: string,
  scale: number,
  taken: readonly Box[],
): { readonly at: Spot; readonly box: Box } | null {
  const half = (text.length * FIGURE_PX * 0.27) / scale;
  const wanted = { half, up: 20 / scale, down: -2 / scale, level: true };
  const above = freeSpot(measured, wire, wanted, taken);
  if (above !== null)
    return { at: { ...above, y: above.y - FOOT_PX / scale }, box: boxAt(above, true, wanted) };
  const tall = (FIGURE_PX * 1.3) / scale;
  const beside = besideUpright(measured, wire, { half, tall, air: BESIDE_PX / scale }, taken);
  if (beside === null) return null;
  const box = {
    left: beside.x - half,
    right: beside.x + half,
    top: beside.y - tall / 2,
    bottom: beside.y + tall / 2,
  };
  return { at: { ...beside, y: beside.y + (FIGURE_PX * 0.36) / scale }, box };
}
