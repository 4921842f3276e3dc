/**
 * The side view of a vehicle, nose left, roof up: one plain profile of our own, stretched to what it has to hold. Where places
 * stand on it: by station along its length, by level between floor and roof.
 */
import { n } from '../ink.ts';
import type { SubjectPlace } from '../subject.ts';

export interface Profile {
  readonly left: number;
  readonly right: number;
  readonly roof: number;
  readonly floor: number;
  /** Where the bonnet ends, and how high it is. */
  readonly bonnet: { readonly end: number; readonly top: number };
  /** Where the roof begins. */
  readonly brow: number;
  readonly wheel: number;
}

/** The proportions of a van, for a given length. */
export function plainProfile(left: number, right: number, roof: number, floor: number): Profile {
  const length = right - left;
  const height = floor - roof;
  return {
    left,
    right,
    roof,
    floor,
    bonnet: { end: left + 0.19 * length, top: floor - 0.5 * height },
    brow: left + 0.31 * length,
    wheel: Math.min(0.085 * length, 0.3 * height),
  };
}

/** Path of the body: bonnet, windscreen, roof, tail; open at the floor, which is a line of its own. */
export function bodyPath({ left, right, roof, floor, bonnet, brow }: Profile): string {
  const round = Math.min(4, (right - left) / 40);
  return [
    `M${n(left)} ${n(floor)}`,
    `V${n(bonnet.top + 3 * round)}`,
    `q0 ${n(-2 * round)} ${n(1.5 * round)} ${n(-2.4 * round)}`,
    `L${n(bonnet.end)} ${n(bonnet.top)}`,
    `L${n(brow - round)} ${n(roof + round)}`,
    `q${n(0.6 * round)} ${n(-round)} ${n(2 * round)} ${n(-round)}`,
    `H${n(right - 2 * round)}`,
    `q${n(2 * round)} 0 ${n(2 * round)} ${n(2 * round)}`,
    `V${n(floor)}`,
  ].join('');
}

/** The lower halves of the wheels, under the floor. */
export function wheelsPath({ left, right, floor, wheel }: Profile): string {
  const length = right - left;
  return [left + 0.15 * length, right - 0.2 * length]
    .map((x) => `M${n(x - wheel)} ${n(floor)}a${n(wheel)} ${n(wheel)} 0 0 0 ${n(2 * wheel)} 0`)
    .join('');
}

/** Height of the body over the floor line at `x`. */
export function ceilingAt(profile: Profile, x: number): number {
  const { bonnet, brow, roof } = profile;
  if (x <= bonnet.end) return bonnet.top;
  if (x >= brow) return roof;
  return bonnet.top + ((x - bonnet.end) / (brow - bonnet.end)) * (roof - bonnet.top);
}

export interface Spot {
  readonly place: SubjectPlace;
  readonly x: number;
  readonly y: number;
}

/** Two spots closer than this stand side by side. */
const BESIDE = 4;

/** Where places stand: station over length, level between roof and floor; engine spaces under the bonnet. */
export function spotsOf(
  places: readonly SubjectPlace[],
  length: number | null,
  profile: Profile,
): readonly Spot[] {
  const stations = places.map((place) => place.station ?? 0);
  const whole = Math.max(length ?? 0, Math.max(0, ...stations) + (length === null ? 0.8 : 0), 1);
  const spots: Spot[] = [];
  places.forEach((place, i) => {
    const share = place.station === null ? (i + 0.5) / places.length : place.station / whole;
    const along = profile.left + Math.min(1, Math.max(0, share)) * (profile.right - profile.left);
    // Whatever the true length of a bonnet: what is on the roof is not drawn before the roof begins.
    const at = place.level === 'roof' && !place.engineSpace ? Math.max(along, profile.brow) : along;
    const y = heightOf(place, profile, at);
    let x = at;
    while (spots.some((spot) => Math.abs(spot.x - x) < BESIDE && Math.abs(spot.y - y) < BESIDE)) x += BESIDE;
    spots.push({ place, x, y });
  });
  return spots;
}

function heightOf(place: SubjectPlace, profile: Profile, x: number): number {
  const { roof, floor, wheel } = profile;
  const ceiling = ceilingAt(profile, x);
  if (place.engineSpace) return profile.bonnet.top + (floor - profile.bonnet.top) * 0.5;
  switch (place.level) {
    case 'roof':
      return roof - 2.5;
    case 'upper':
      return Math.max(ceiling + 4.5, roof + (floor - roof) / 6);
    case 'under floor':
      return floor + 0.5 * wheel;
    default:
      return floor - 3;
  }
}
