export { CORNERS, cornerOf, shoreIn, sunIn, sameFacts } from './corners.ts';
export { conditionId, handSets, handsText, judgedSet, makeCondition } from './judged.ts';
export type { Hands } from './judged.ts';
export { envelopeOf, setPointAt } from './set-point.ts';
export type { Envelope } from './set-point.ts';
export { nominalHouse, nominalVehicle, statesOf, variableVoltage, vehicleFacts } from './states.ts';
export {
  handChoices,
  handsOfState,
  positionWords,
  stateOfHands,
  turned,
  type HandChoice,
  type HandName,
  type StateOfHands,
  type VehicleHands,
} from './vehicle-hands.ts';
