/** The slow edge beyond its last listed point, where a listed time held flat would be far off. */
import type { Placed, TimeCurrentBand } from '../../contracts/index.ts';

/** Least opening time of a breaker: its mechanism has to move and its arc to go out. s (common practice, no source) */
const BREAKER_LEAST = 0.01;
/** A fuse has no mechanism, s. */
const FUSE_LEAST = 0.001;

/**
 * Above its last listed point a device that works by heat lets through no more I²t than there (a fuse element or a bimetal that
 * loses no heat in so short a time: t falls as I^-2), down to the time that a breaker's mechanism takes. A stated clearing I²t,
 * or data that end early, stay as they are.
 */
export function melting(part: Placed | undefined, band: TimeCurrentBand | null): TimeCurrentBand | null {
  const last = band?.slow.at(-1);
  const type = part?.ability.protects?.type;
  if (band === null || last === undefined || type === undefined) return band;
  const least = type === 'fuse' ? FUSE_LEAST : BREAKER_LEAST;
  if (band.clearing !== null || band.beyond !== 'flat' || last[1] <= least) return band;
  return { ...band, slow: [...band.slow, [last[0] * Math.sqrt(last[1] / least), least]] };
}

/**
 * As `melting`, only where the times are a family's published limits and end with them (600 % for blade fuses): held flat they
 * would burn every short wire behind a small fuse beside a battery. A curve that the build gives is taken as it stands, and
 * breakers stay flat.
 */
export function publishedMelting(
  part: Placed | undefined,
  band: TimeCurrentBand | null,
): TimeCurrentBand | null {
  const isFuse = part?.ability.protects?.type === 'fuse';
  return isFuse && band !== null && band.basis.path.startsWith('table:') ? melting(part, band) : band;
}
