/** The base unit of a quantity, told by the text in which it was typed. */
import { baseUnit, dimensions, parseQuantity } from '../quantity/index.ts';

const known = new Map<string, string>();
const MOST = 5000;

/** `"40 A"` gives "A", `"8 mΩ"` gives "Ω", `"12 cm"` gives "m"; "" for a plain factor and for what is no quantity. */
export function unitOf(text: string): string {
  const found = known.get(text);
  if (found !== undefined) return found;
  const dimension = dimensions.find((each) => {
    const read = parseQuantity(text, each, { min: Number.NEGATIVE_INFINITY, never: true });
    return read.ok && read.unit !== '';
  });
  const unit = dimension === undefined ? '' : baseUnit(dimension);
  if (known.size >= MOST) known.clear();
  known.set(text, unit);
  return unit;
}
