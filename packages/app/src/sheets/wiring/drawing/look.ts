/** How a wire looks: its copper, whether it is live, what flows, what colour it has. Screen pixels at 100 %. */
import type { DrawingSubject, LiveReading } from '@loomwright/engine';

export interface WireLook {
  /** mm² of copper; null: not known yet. */
  readonly areaMm2: number | null;
  readonly negative: boolean;
  readonly fill: 'live' | 'dead' | 'hunting' | 'plain';
  /** From its `from` end to its `to` end, A. */
  readonly amps: number;
  /** IEC 60757 letters. */
  readonly colours: readonly string[];
}

/** 100 %: lettering of 2.9 mm stands 13 px high. */
export const PX_PER_MM = 13 / 2.9;

/** Below so many pixels a millimetre only designations are written. */
export const FAR = 3.4;

export const strokeOf = (areaMm2: number | null): number =>
  areaMm2 === null ? 2 : Math.max(1.5, 1.2 * Math.sqrt(areaMm2));

/** Distance of chevrons; null: none is drawn. */
export const chevronGap = (amps: number): number | null =>
  Math.abs(amps) < 0.05 ? null : Math.max(36, 110 - 14 * Math.log2(1 + Math.abs(amps)));

const LETTERS = new Set(['BK', 'BN', 'RD', 'OG', 'YE', 'GN', 'BU', 'VT', 'GY', 'WH', 'PK', 'TQ']);

function coloursOf(text: string): readonly string[] {
  const pairs = text.match(/../g) ?? [];
  return pairs.length > 0 && pairs.every((pair) => LETTERS.has(pair)) ? pairs.slice(0, 2) : [];
}

/** Looks of all wires. `reading`: of the state on view; null: none is known. `hunting`: wires that come and go. */
export function looksOf(
  subject: DrawingSubject,
  reading: LiveReading | null,
  hunting: ReadonlySet<string>,
): ReadonlyMap<string, WireLook> {
  const looks = new Map<string, WireLook>();
  for (const wire of subject.wires.values()) {
    const now = reading?.wires[wire.id];
    const negative = wire.view === 'negative';
    const live =
      now === undefined || negative
        ? 'plain'
        : now.liveFrom || now.liveTo || Math.abs(now.amps) >= 0.05
          ? 'live'
          : 'dead';
    looks.set(wire.id, {
      areaMm2: wire.areaMm2,
      negative,
      fill: hunting.has(wire.id) ? 'hunting' : live,
      amps: now?.amps ?? 0,
      colours: coloursOf(wire.colour),
    });
  }
  return looks;
}
