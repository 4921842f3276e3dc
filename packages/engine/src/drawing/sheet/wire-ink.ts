/** Wires as drawn: from part to part, as thick as their copper tells, with their label. */
import type { SubjectWire } from '../subject.ts';
import { text, type TextInk } from '../ink.ts';
import { LINE } from '../text/measure.ts';
import { ABOVE, BELOW } from './label.ts';
import { contactOf } from './node-ink.ts';
import { cleaner, type PlacedNode, type PlacedWire } from './picture.ts';
import type { Id } from '../../contracts/index.ts';
import type { Point } from './elk.ts';

/** Line weights on paper tell three classes of size: from 10 mm², from 2.5 mm², thinner. mm. */
export function weightOf(areaMm2: number | null): number {
  if (areaMm2 === null) return 0.35;
  if (areaMm2 >= 10) return 0.9;
  return areaMm2 >= 2.5 ? 0.5 : 0.35;
}

/** Dashes, mm: not known yet; negative. */
export const UNKNOWN_DASH = '1.3 1.2';
export const NEGATIVE_DASH = '4.2 1.05';

export function dashOf(wire: SubjectWire, among: 'negatives' | 'all'): string | null {
  if (wire.assumed || wire.areaMm2 === null) return UNKNOWN_DASH;
  return wire.view === 'negative' && among === 'all' ? NEGATIVE_DASH : null;
}

/** The whole way from contact to contact. */
export function wayOf(wire: PlacedWire, nodes: ReadonlyMap<Id, PlacedNode>): readonly Point[] {
  const source = nodes.get(wire.edge.source.node);
  const target = nodes.get(wire.edge.target.node);
  if (source === undefined || target === undefined) return wire.points;
  return cleaner([
    contactOf(source, wire.edge.source.port),
    ...wire.points,
    contactOf(target, wire.edge.target.port),
  ]);
}

export function labelInk({ edge, label }: PlacedWire): readonly TextInk[] {
  const { above, below } = edge.label;
  return [
    ...above.map((line, i) => text(label.x, label.y - ABOVE - (above.length - 1 - i) * LINE, line, 'middle')),
    ...below.map((line, i) => text(label.x, label.y + BELOW + i * LINE, line, 'middle')),
  ];
}
