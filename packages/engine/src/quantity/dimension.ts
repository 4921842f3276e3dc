/**
 * Dimensions of the quantities of a build.
 *
 * Every dimension has one base unit, in which the engine computes: SI, with the trade's own choices where it
 * never uses
 * the SI unit (copper area in mm², charge in Ah, energy in Wh, temperature in °C).
 */
export type Dimension =
  | 'length'
  | 'area'
  | 'voltage'
  | 'current'
  | 'power'
  | 'charge'
  | 'energy'
  | 'resistance'
  | 'let-through'
  | 'temperature'
  | 'temperature-difference'
  | 'gradient'
  | 'time'
  | 'share'
  | 'factor'
  | 'mass'
  | 'torque';
