/** Where the needles and clamps of the probes stand on a drawing, and the room that they take. */
import { along, type Box, type Measured, type MeasuredWire, type Point } from '../wiring/drawing/measure.ts';
import { freeSpot } from '../wiring/drawing/spots.ts';
import type { Probe } from './probes.ts';

/** From the middle of a clamp to the outside of its ring, and to the foot of its letter's plate. */
const RING_PX = 17;
const PLATE_PX = 36;

/** What the needles and clamps of the probes cover. */
export function needleRooms(measured: Measured, probes: readonly Probe[], scale: number): readonly Box[] {
  const [side, long] = [14 / scale, 48 / scale];
  return probes.flatMap((probe): readonly Box[] => {
    if (probe.type === 'clamp') {
      const wire = measured.wires.get(probe.wire ?? '');
      if (wire === undefined) return [];
      const { x, y } = clampPoint(measured, wire, scale);
      const [ring, plate] = [RING_PX / scale, PLATE_PX / scale];
      return [{ left: x - ring, right: x + ring, top: y - ring, bottom: y + plate }];
    }
    const [plus, minus] = [pointOf(measured, probe.plus), pointOf(measured, probe.minus)];
    const up = plus === null || minus === null || plus.y <= minus.y;
    return [[plus, up] as const, [minus, !up] as const].flatMap(([at, above]) =>
      at === null
        ? []
        : [
            {
              left: at.x - 2 * side,
              right: at.x + side / 2,
              top: above ? at.y - long : at.y,
              bottom: above ? at.y : at.y + long,
            },
          ],
    );
  });
}

/** Where the ring goes round the wire: clear of words, symbols and other wires where there is such a stretch. */
export function clampPoint(measured: Measured, wire: MeasuredWire, scale: number): Point {
  const wanted = { half: PLATE_PX / scale, up: RING_PX / scale, down: PLATE_PX / scale, level: false };
  return freeSpot(measured, wire, wanted, []) ?? along(wire.points, wire.length * 0.38);
}

/** Where a spot of a probe is on this drawing; a wire's end a little way along the wire. */
export function spotPoint(measured: Measured, spot: string): Point | null {
  const [wire, end] = spot.split('@');
  if (end === undefined) return measured.terminals.get(spot) ?? null;
  const laid = measured.wires.get(wire ?? '');
  if (laid === undefined) return null;
  const inward = Math.min(5, laid.length * 0.2);
  return along(laid.points, end === 'from' ? inward : laid.length - inward);
}

export const pointOf = (measured: Measured, spot: string | null): Point | null =>
  spot === null ? null : spotPoint(measured, spot);
