/** Units, quantities, wire sizes: reading what people write and printing what they read. */
export { editDistance, nearest } from './nearest.ts';
export {
  formatBand,
  formatQuantity,
  NO_BREAK_SPACE,
  TRUE_MINUS,
  writeQuantity,
  type FormatOptions,
} from './format.ts';
export {
  parseDeviceResistance,
  parseLowInput,
  parseOneSided,
  parseOpeningTimes,
  parsePlate,
  parseSampling,
  parseThreshold,
  type DeviceResistance,
  type Form,
  type LowInput,
  type OneSided,
  type OpeningTimes,
  type Plate,
  type Sampling,
  type Threshold,
} from './forms.ts';
export { inOtherSystem } from './other-system.ts';
export { plainNumber, readNumber, type NumberResult } from './number.ts';
export {
  parseQuantity,
  parseQuantityOf,
  type Amount,
  type Quantity,
  type QuantityOptions,
  type QuantityResult,
  type Refusal,
} from './parse.ts';
export {
  AUTO_AREAS_MM2,
  AWG_AREAS_MM2,
  formatSize,
  parseSize,
  SAE_AREAS_MM2,
  threeFigures,
  type Size,
  type SizeFamily,
  type SizeFound,
  type SizeResult,
} from './size.ts';
export { isUnknown, listed, normalise, quoted } from './text.ts';
export {
  baseUnit,
  dimensionInfo,
  dimensions,
  spellingsOf,
  type Dimension,
  type DimensionInfo,
  type Unit,
} from './units.ts';
