/** Wires as laid: ways, lengths, resistance, air, bundles, continuous current. */
export { airAt, type AirKind } from './ambient.ts';
export { ampacityOf, ampsAt, tableValue, type SegmentAmps } from './ampacity.ts';
export { bundles, BUNDLE_FROM, type BundleCounts, type Bundles, type CountsInOrder } from './bundle.ts';
export { layWires } from './lay.ts';
