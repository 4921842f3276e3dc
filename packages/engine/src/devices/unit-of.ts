/** The base unit of a quantity, told by the text in which it was typed. */
import { baseUnit, dimensions, parseQuantity } from '../quantity/index.ts';

const known = new Map<string, string>();
const MOST = 5000;

/** A plain number before what may be a unit. */
const AFTER_NUMBER = /^[+-]?\d+(?:\.\d+)? ?(?=[^\d.,/–-])/;

/** `"40 A"` gives "A", `"8 mΩ"` gives "Ω", `"12 cm"` gives "m"; "" for a plain factor and for what is no quantity. */
export function unitOf(text: string): string {
  const found = known.get(text);
  if (found !== undefined) return found;
  // What a number is does not matter for its unit, and few units are ever written.
  const typed = text.replace(AFTER_NUMBER, '1 ');
  const unit = known.get(typed) ?? unitIn(typed);
  if (known.size >= MOST) known.clear();
  known.set(typed, unit).set(text, unit);
  return unit;
}

function unitIn(text: string): string {
  const dimension = dimensions.find((each) => {
    const read = parseQuantity(text, each, { min: Number.NEGATIVE_INFINITY, never: true });
    return read.ok && read.unit !== '';
  });
  return dimension === undefined ? '' : baseUnit(dimension);
}
