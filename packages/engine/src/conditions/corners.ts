/** The six paired corners. */
import type { CornerFacts, CornerId, StateId } from '../contracts/index.ts';

export const CORNERS: readonly CornerFacts[] = [
  {
    id: 'typical-quiet',
    source: 'typical',
    air: 'typical',
    vehicleBattery: 'full',
    houseBattery: 'half',
    busy: false,
    ratedOutput: false,
  },
  {
    id: 'typical-busy',
    source: 'typical',
    air: 'typical',
    vehicleBattery: 'full',
    houseBattery: 'half',
    busy: true,
    ratedOutput: false,
  },
  {
    id: 'weak',
    source: 'least',
    air: 'hottest',
    vehicleBattery: 'low',
    houseBattery: 'low',
    busy: true,
    ratedOutput: true,
  },
  {
    id: 'strong',
    source: 'greatest',
    air: 'coldest',
    vehicleBattery: 'full',
    houseBattery: 'full',
    busy: false,
    ratedOutput: false,
  },
  {
    id: 'cold',
    source: 'least',
    air: 'coldest',
    vehicleBattery: 'low',
    houseBattery: 'low',
    busy: true,
    ratedOutput: false,
  },
  {
    id: 'every-source',
    source: 'typical',
    air: 'typical',
    vehicleBattery: 'full',
    houseBattery: 'half',
    busy: false,
    ratedOutput: false,
  },
];

export function cornerOf(id: CornerId): CornerFacts {
  const corner = CORNERS.find((c) => c.id === id);
  if (corner === undefined) throw new Error(`no corner ${id}`);
  return corner;
}

const SHORE_ALLOWED: ReadonlySet<StateId> = new Set(['parked', 'woken', 'plugged-in', 'stored']);

/** House shore power is present only in the corner of every source, where the vehicle stands. */
export const shoreIn = (state: StateId, corner: CornerId): boolean =>
  corner === 'every-source' && SHORE_ALLOWED.has(state);

export const sunIn = (corner: CornerId): boolean => corner === 'every-source';

/** True when two corners differ in their name only. */
export const sameFacts = (a: CornerFacts, b: CornerFacts): boolean =>
  JSON.stringify({ ...a, id: '' }) === JSON.stringify({ ...b, id: '' });
