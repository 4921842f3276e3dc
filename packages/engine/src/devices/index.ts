/** Numbers of devices and conductors: heat, opening times, clearing, greatest flow; values under an assumption. */
export {
  clear,
  type Clearing,
  type ClearingCase,
  type ClearingDevice,
  type ClearingStep,
  type FaultCurrents,
} from './clearing.ts';
export {
  ADIABATIC_SECONDS,
  atTemperature,
  currentForTemperature,
  heatFraction,
  MODEL_LOAD_LIMIT,
  steadyCelsius,
  steadyTemperature,
  withstandLetThrough,
  withstandSeconds,
  type SteadyTemperature,
} from './heat.ts';
export { FlowNet, maxFlow, type Flow, type FlowLink } from './max-flow.ts';
export { nineDigits } from './round.ts';
export { fastSeconds, slowCornerAmps, slowCorners, slowSeconds } from './time-current.ts';
export { makeValues, NOMINAL, pushed, type Values } from './values.ts';
