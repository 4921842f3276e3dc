/** A size or a length in the units that were chosen, to stand beside how it is written. Empty where that says it already. */
import { formatQuantity, inOtherSystem, parseQuantity, parseSize } from '@loomwright/engine';

type Units = 'metric' | 'imperial';

export function sizeBeside(size: string, units: Units): string {
  const read = parseSize(size);
  if (!read.ok || read.band !== undefined) return '';
  return (read.size.family === 'metric') === (units === 'metric') ? '' : inOtherSystem(read.size);
}

export function lengthBeside(length: string, units: Units): string {
  const read = parseQuantity(length, 'length', { band: false });
  if (!read.ok || /\bc?m$/.test(length.trim()) === (units === 'metric')) return '';
  return formatQuantity(read.value, 'length', { units });
}
