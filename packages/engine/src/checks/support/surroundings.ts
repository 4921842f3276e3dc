/** Air and place of a part. */
import type { Basis, CornerFacts, Operation, Placed } from '../../contracts/index.ts';

const cornerWith = (op: Operation, air: CornerFacts['air']): CornerFacts | undefined =>
  op.corners.find((c) => c.air === air);

/** Hottest air at a part's place, °C. */
export function hottestAt(op: Operation, part: Placed): Basis | null {
  const corner = cornerWith(op, 'hottest');
  return corner === undefined ? null : op.air(part.at, corner);
}

export const placeLabel = (op: Operation, place: string | null): string => {
  if (place === null) return 'no place given';
  return op.build.places.get(place)?.label ?? place;
};
