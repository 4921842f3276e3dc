/**
 * Elements that, with the numbers they have, are one straight line of current against voltage: a source of current with a
 * conductance, no port needed. Most of what is off is of this sort; a load on its last piece is, as long as that is where
 * its voltage ends up.
 */
import type { ElementOf, PiecesElement } from '../contracts/element.ts';

type Element = ElementOf<number>;

/** What an element is to a compiled circuit: its code in the circuit's key. */
export const RESISTOR = 0;
/** A known current without conductance: joins nothing. */
export const CURRENT = 1;
export const LINE = 2;
export const CURVED = 3;

/** Role of an element as it is. */
export function roleOf(element: Element): number {
  if (element.type === 'resistor') return RESISTOR;
  if (!isStraight(element)) return CURVED;
  return siemensOf(element) === 0 ? CURRENT : LINE;
}

/** Role of a load that is taken to stand on its last piece. */
export function loadRole(element: Element): number {
  return siemensOf(element) === 0 ? CURRENT : LINE;
}

/** True for an element whose current is `ampsOf + siemensOf x (volts - voltsOf)` at every voltage, and 0 at any output. */
function isStraight(element: Element): boolean {
  switch (element.type) {
    case 'pieces':
      return (element.points.length === 1 && element.below === element.above) || carriesNothing(element);
    case 'hold':
      return element.least === 0 && element.greatest === 0;
    case 'power':
      return element.watts === 0;
    case 'converter':
      return !element.on && element.standbyAmps === 0;
    default:
      return false;
  }
}

/** True for a curve that is zero everywhere: a load that is off. */
export function carriesNothing(element: PiecesElement<number>): boolean {
  if (element.below !== 0 || element.above !== 0) return false;
  for (const [, amps] of element.points) if (amps !== 0) return false;
  return true;
}

/** True for a load of several pieces: no current below its first point, some at and above its last. */
export function isLoad(element: Element): boolean {
  if (element.type !== 'pieces' || element.below !== 0) return false;
  const { points } = element;
  return points.length > 1 && points[0]![1] === 0 && points[points.length - 1]![1] > 0;
}

/** Slope of the last piece, siemens. */
export function siemensOf(element: Element): number {
  if (element.type === 'pieces') return element.above;
  return element.type === 'converter' ? 1 / element.idleOhms : 0;
}

/** Beginning of the last piece, volts. */
export function voltsOf(element: Element): number {
  return element.type === 'pieces' ? element.points[element.points.length - 1]![0] : 0;
}

/** Current at the beginning of the last piece, amperes. */
export function ampsOf(element: Element): number {
  return element.type === 'pieces' ? element.points[element.points.length - 1]![1] : 0;
}

/** What a straight element does at a voltage, in the words of `Point.regime`. */
export function straightRegime(element: Element, volts: number): string {
  switch (element.type) {
    case 'pieces':
      return String(segmentAt(element, volts));
    case 'hold':
      return 'least';
    case 'power':
      return 'constant-power';
    default:
      return 'off';
  }
}

/** A straight line has one piece; a load taken for a known current stands on its last one; a load that is off on any. */
function segmentAt(element: PiecesElement<number>, volts: number): number {
  const { points } = element;
  if (points.length === 1) return 0;
  if (!carriesNothing(element)) return points.length;
  let segment = 0;
  while (segment < points.length && volts > points[segment]![0]) segment += 1;
  return segment;
}
