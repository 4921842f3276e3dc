/**
 * Circuit elements: what a kind of part contributes to the network, and all that the network ever sees.
 *
 * `N` is the name of a node: a kind writes terminal names (or private names of its own inner nodes), the network
 * works with whole numbers. Units are SI throughout: volts, amperes, ohms, watts, siemens.
 *
 * Sign convention, once for all: a current is positive when it flows from `a` to `b` *through* the element,
 * so a load has a positive current and a discharging battery (a = +, b = -) a negative one.
 */
export type ElementOf<N> =
  | ResistorElement<N>
  | PiecesElement<N>
  | HoldElement<N>
  | PowerElement<N>
  | ConverterElement<N>;

/** A resistance, or a contact: `ohms` is at least 1e-5; `Infinity` is an open contact (conductance exactly zero). */
export interface ResistorElement<N> {
  readonly type: 'resistor';
  readonly a: N;
  readonly b: N;
  readonly ohms: number;
}

/**
 * A monotone, piecewise-linear current I(V): battery, diode, source with a current limit, load with a cut-out.
 *
 * `points` are [volts, amperes] pairs with rising volts and never falling amperes; `below` and `above` are the
 * slopes (siemens, >= 0) of the straight lines before the first and after the last point.
 */
export interface PiecesElement<N> {
  readonly type: 'pieces';
  readonly a: N;
  readonly b: N;
  readonly points: readonly (readonly [volts: number, amperes: number])[];
  readonly below: number;
  readonly above: number;
}

/**
 * A regulator: holds `volts` between its sense nodes by a current that it sends out of `a` (that is, flowing from b to a
 * inside it) of at least `least` and at most `greatest` amperes. An alternator has least = 0 (it never absorbs);
 * an ideal voltage source has -Infinity and Infinity. Three regimes: at `least`, regulating, at `greatest`.
 */
export interface HoldElement<N> {
  readonly type: 'hold';
  readonly a: N;
  readonly b: N;
  readonly senseA: N;
  readonly senseB: N;
  readonly volts: number;
  readonly least: number;
  readonly greatest: number;
}

/**
 * A constant power: `watts` / v above `knee` volts, a resistance of knee^2 / watts below it (so that a solution always
 * exists), never more than `limit` amperes.
 */
export interface PowerElement<N> {
  readonly type: 'power';
  readonly a: N;
  readonly b: N;
  readonly watts: number;
  readonly knee: number;
  readonly limit: number;
}

/** Output reduction when the input falls: none, down to a held input voltage, or linear between two input voltages. */
export type LowInput =
  | { readonly type: 'none' }
  | { readonly type: 'holds'; readonly volts: number }
  | { readonly type: 'reduces'; readonly from: number; readonly to: number };

/**
 * A dc converter (dc charger): two ports tied by power.
 *
 * When `on` is false the input is a resistance of `idleOhms` that also draws `standbyAmps` (above 1 V, below it falls to 0),
 * and the output is open.
 * When on, the output gives I = min(`current`, what the low-input rule leaves, what the input limit leaves), then
 * regulates to `volts` at the sense nodes; it never absorbs. Input power = output power / efficiency + `standbyAmps` * input volts.
 * The input current is never above `inputLimit`; below `lowest` volts it goes on as a resistance through the origin
 * (inputLimit * v / lowest), the output following the power there is.
 *
 * `demand` (watts, greatest power): when given the output voltage does not matter: the unit asks for this power at its
 * input, scaled down by the same rules, and gives the same share of `current` at its output as a current source.
 */
export interface ConverterElement<N> {
  readonly type: 'converter';
  readonly inA: N;
  readonly inB: N;
  readonly outA: N;
  readonly outB: N;
  readonly senseA: N;
  readonly senseB: N;
  readonly on: boolean;
  readonly idleOhms: number;
  readonly standbyAmps: number;
  readonly volts: number;
  readonly current: number;
  /** Efficiency as [share of rated current, efficiency] pairs with rising shares: linear between, flat outside. */
  readonly efficiency: readonly (readonly [share: number, eta: number])[];
  readonly ratedCurrent: number;
  readonly inputLimit: number;
  readonly lowest: number;
  readonly lowInput: LowInput;
  readonly demand: number | null;
}
