/**
 * Opening times of fuses and breakers. A band has two edges, straight in log I against log t between listed points: by the
 * slow one the device has surely opened, before the fast one it has surely not.
 */
import type { TimeCurrentBand } from '../contracts/index.ts';
import { nineDigits } from './round.ts';

type Point = readonly [multiple: number, seconds: number];

/** From this multiple of the rating up a stated clearing I²t rules. */
export const CLEARING_FROM = 10;
/** Families whose data end at or below this multiple give no opening time above it. */
export const LAST_FIGURE_AT = 2;

const CLOSE = 1e-9;

/**
 * Slow edge: seconds by which the device has surely opened at `multiple` times its rating.
 * Infinity below the first point; null where there is no figure (families whose data end early).
 * `rating` in A is needed only for a stated clearing I²t.
 */
export function slowSeconds(band: TimeCurrentBand, multiple: number, rating: number): number | null {
  const points = band.slow;
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) return withoutPoints(band, multiple, rating);
  if (multiple < first[0] * (1 - CLOSE)) return Infinity;
  if (multiple > last[0] * (1 + CLOSE)) return beyondLast(band, last, multiple, rating);
  return nineDigits(between(points, multiple));
}

/** A device of which only the clearing I²t is known opens surely from ten times its rating; below that nothing is known. */
function withoutPoints(band: TimeCurrentBand, multiple: number, rating: number): number | null {
  if (multiple <= band.hold) return Infinity;
  if (band.clearing === null || multiple < CLEARING_FROM) return null;
  return nineDigits(clearingSeconds(band.clearing, multiple, rating));
}

const clearingSeconds = (clearing: number, multiple: number, rating: number): number => {
  const amps = multiple * rating;
  return clearing / (amps * amps);
};

function beyondLast(band: TimeCurrentBand, last: Point, multiple: number, rating: number): number | null {
  if (band.clearing !== null) return nineDigits(towardsClearing(band.clearing, last, multiple, rating));
  if (band.beyond === 'flat') return last[1];
  return multiple <= LAST_FIGURE_AT * (1 + CLOSE) ? last[1] : null;
}

/** Past the last point of a band with a stated I²t; never longer than at that last point. */
function towardsClearing(clearing: number, last: Point, multiple: number, rating: number): number {
  if (multiple >= CLEARING_FROM * (1 - CLOSE)) {
    return Math.min(last[1], clearingSeconds(clearing, multiple, rating));
  }
  const start: Point = [Math.max(last[0], LAST_FIGURE_AT), last[1]];
  if (multiple <= start[0]) return last[1];
  const end: Point = [CLEARING_FROM, Math.min(last[1], clearingSeconds(clearing, CLEARING_FROM, rating))];
  return onLine(start, end, multiple);
}

/**
 * Fast edge: seconds before which the device has surely not opened.
 * Infinity ("never") at and below the hold; constant I²t from there to the first point and above the last; null: not known.
 */
export function fastSeconds(band: TimeCurrentBand, multiple: number): number | null {
  const listed = band.fast ?? [];
  if (multiple <= holdOf(band, listed) * (1 + CLOSE)) return Infinity;
  const points = listed.filter((point) => Number.isFinite(point[1]));
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) return null;
  if (multiple < first[0]) return nineDigits(constantHeat(first, multiple));
  if (multiple > last[0]) return nineDigits(constantHeat(last, multiple));
  return nineDigits(between(points, multiple));
}

/** The hold: as stated, or the highest multiple at which the fast edge says "never". */
function holdOf(band: TimeCurrentBand, listed: readonly Point[]): number {
  return listed.reduce((hold, [m, seconds]) => (seconds === Infinity ? Math.max(hold, m) : hold), band.hold);
}

const constantHeat = ([m, seconds]: Point, multiple: number): number =>
  seconds * (m / multiple) * (m / multiple);

/**
 * The multiples at which the slow edge has a corner: its listed points, and ten times the rating where a clearing I²t is
 * stated. Between two of them the edge is one straight line.
 */
export function slowCorners(band: TimeCurrentBand): readonly number[] {
  const corners = band.slow.map(([multiple]) => multiple);
  const last = corners.at(-1) ?? 0;
  if (band.clearing !== null && last < CLEARING_FROM) corners.push(CLEARING_FROM);
  return corners;
}

/** Currents (A) at the corners of the slow edge that lie strictly between two currents: where clearing is tried besides its ends. */
export function slowCornerAmps(
  band: TimeCurrentBand,
  rating: number,
  least: number,
  greatest: number,
): readonly number[] {
  return slowCorners(band)
    .map((multiple) => multiple * rating)
    .filter((amps) => amps > least * (1 + CLOSE) && amps < greatest * (1 - CLOSE));
}

function between(points: readonly Point[], multiple: number): number {
  for (let i = 1; i < points.length; i += 1) {
    const a = points[i - 1];
    const b = points[i];
    if (a !== undefined && b !== undefined && multiple < b[0] * (1 - CLOSE)) return onLine(a, b, multiple);
  }
  return points.at(-1)?.[1] ?? Infinity;
}

/** Straight in log I - log t. A line towards "never" is "never" up to its end. */
function onLine(a: Point, b: Point, multiple: number): number {
  if (multiple <= a[0] * (1 + CLOSE)) return a[1];
  if (!Number.isFinite(a[1]) || !Number.isFinite(b[1])) return Infinity;
  const share = Math.log(multiple / a[0]) / Math.log(b[0] / a[0]);
  return a[1] * Math.exp(share * Math.log(b[1] / a[1]));
}
