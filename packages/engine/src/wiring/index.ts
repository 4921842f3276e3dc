/** Wires as laid: ways, lengths, resistance, air, bundles, continuous current. */
export { airAt, type AirKind } from './ambient.ts';
export { ampacityAt, ampacityOf, firstFigure, tableValue } from './ampacity.ts';
export {
  aloneCounts,
  bundles,
  BUNDLE_FROM,
  greatestCounts,
  type BundleCounts,
  type Bundles,
} from './bundle.ts';
export { layWires } from './lay.ts';
