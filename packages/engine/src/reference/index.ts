/** Published tables and the look-ups on them; every figure says where it comes from. */
export { ampacityTable33cfr } from './ampacity-33cfr.ts';
export { ampacityIec, IEC_HOTTEST_AIR_C, type IecMethod } from './ampacity-iec.ts';
export { ampacityIso13297 } from './ampacity-iso.ts';
export { type Ampacity, type AmpacityFigure } from './ampacity.ts';
export {
  aluminiumResistivity20,
  copperCladFactor,
  copperDensity,
  copperFactor,
  copperMeltingC,
  copperResistivity20,
  copperTemperatureCoefficient,
  strandingFactor,
} from './copper.ts';
export {
  ambientFactor,
  bundleFactor,
  engineSpaceFactor,
  insulatedWallFactor,
  smallConductorDensity,
} from './factors.ts';
export {
  breakerCurve,
  fuseCurve,
  fuseFamilies,
  type BreakerCurveName,
  type FuseFamily,
  type TimeCurve,
  type TimePoint,
} from './fuse-curve.ts';
export {
  adiabaticK,
  adiabaticKFormula,
  adiabaticTime,
  insulation,
  insulationNames,
  type Insulation,
  type InsulationName,
} from './insulation.ts';
export { resistancePerMetre20, STRAND_OF, type Strand } from './resistance.ts';
export { chemistries, restVoltage, restVoltagePoints, type Chemistry } from './rest-voltage.ts';
export {
  isFigure,
  noFigure,
  weakest,
  type Figure,
  type NoFigure,
  type Prov,
  type Sourced,
} from './sourced.ts';
export { standardRatings } from './standard-ratings.ts';
export { type Table } from './table.ts';
