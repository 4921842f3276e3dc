/**
 * Elements that, with the numbers they have, are one straight line of current against voltage: a source of current with a
 * conductance, no port needed. Most of what is off is of this sort.
 */
import type { ElementOf } from '../contracts/element.ts';

/** True for an element whose current is `ampsOf + siemensOf x (volts - voltsOf)` at every voltage, and 0 at any output. */
function isStraight(element: ElementOf<number>): boolean {
  switch (element.type) {
    case 'pieces':
      return element.points.length === 1 && element.below === element.above;
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

/** What an element is to a compiled circuit: its code in the circuit's key. */
export const RESISTOR = 0;
/** A known current without conductance: joins nothing. */
export const CURRENT = 1;
export const LINE = 2;
export const CURVED = 3;

export function roleOf(element: ElementOf<number>): number {
  if (element.type === 'resistor') return RESISTOR;
  if (!isStraight(element)) return CURVED;
  return siemensOf(element) === 0 ? CURRENT : LINE;
}

export function siemensOf(element: ElementOf<number>): number {
  if (element.type === 'pieces') return element.below;
  return element.type === 'converter' ? 1 / element.idleOhms : 0;
}

export function voltsOf(element: ElementOf<number>): number {
  return element.type === 'pieces' ? element.points[0]![0] : 0;
}

export function ampsOf(element: ElementOf<number>): number {
  return element.type === 'pieces' ? element.points[0]![1] : 0;
}

/** What a straight element does, in the words of `Point.regime`. */
export function straightRegime(element: ElementOf<number>): string {
  switch (element.type) {
    case 'hold':
      return 'least';
    case 'power':
      return 'constant-power';
    case 'converter':
      return 'off';
    default:
      return '0';
  }
}
