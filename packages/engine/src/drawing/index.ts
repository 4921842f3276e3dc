/** Drawings: a build as a map of the vehicle, on paper and on screen; positions for tests, SVG for people. */
export { subjectOf } from './subject-of.ts';
export type {
  Subject as DrawingSubject,
  SubjectPart,
  SubjectPlace,
  SubjectRoute,
  SubjectWire,
  View,
  WireView,
} from './subject.ts';
export {
  makeDraughtsman,
  type Draughtsman,
  type Overview,
  type Screen,
  type ScreenOptions,
  type Vehicle as VehicleDrawing,
  type VehicleOptions,
} from './draughtsman.ts';
export { outlineMap, type MapOptions } from './vehicle/map.ts';
export type { Book, BookOptions, BookPage } from './book.ts';
export { NO_ORDER, readOrder, type Order, type PageOrder, type ViewOrder } from './order.ts';
export { rearranged, type Rearrangement } from './rearrange.ts';
export type { Elk, ElkGraph } from './sheet/elk.ts';
export { draftReason } from './draft.ts';
export { asFile } from './svg.ts';
