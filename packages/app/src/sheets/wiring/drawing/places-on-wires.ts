/** Figures and sleeves on wires: figures first, since they say more; each where it meets nothing. */
import type { LiveReading } from '@loomwright/engine';
import { printValue } from '@loomwright/engine';
import { PX_PER_MM, type WireLook } from './look.ts';
import type { Box, Measured } from './measure.ts';
import { boxAt, freeSpot, type Spot } from './spots.ts';

export interface Placed {
  readonly figures: ReadonlyMap<string, Spot & { readonly text: string }>;
  readonly sleeves: ReadonlyMap<string, Spot>;
  /** Room that they take. */
  readonly taken: readonly Box[];
}

export const NOTHING: Placed = { figures: new Map(), sleeves: new Map(), taken: [] };

const FIGURE_PX = 13.5;

/** Nothing is placed on a drawing seen from afar. */
export function placeOnWires(
  measured: Measured,
  looks: ReadonlyMap<string, WireLook>,
  reading: LiveReading | null,
  { scale, least }: { readonly scale: number; readonly least: number },
): Placed {
  if (scale < least) return NOTHING;
  const zoom = Math.min(1, scale / PX_PER_MM);
  const figures = new Map<string, Spot & { readonly text: string }>();
  const sleeves = new Map<string, Spot>();
  const taken: Box[] = [];
  for (const wire of measured.wires.values()) {
    const amps = Math.abs(reading?.wires[wire.id]?.amps ?? 0);
    if (amps < 0.05) continue;
    const text = printValue(amps, 'A');
    const wanted = {
      half: (text.length * FIGURE_PX * 0.27) / scale,
      up: 20 / scale,
      down: -2 / scale,
      level: true,
    };
    const spot = freeSpot(measured, wire, wanted, taken);
    if (spot === null) continue;
    taken.push(boxAt(spot, true, wanted));
    figures.set(wire.id, { ...spot, text });
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
    taken.push(boxAt(spot, Math.abs(Math.sin((spot.degrees * Math.PI) / 180)) < 0.01, wanted));
    sleeves.set(wire.id, spot);
  }
  return { figures, sleeves, taken };
}
