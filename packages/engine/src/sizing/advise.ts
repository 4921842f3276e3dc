/** How large a charger: the rule of "advise". */
import type { Chemistry, SixFacts } from './six.ts';

/** Sizes that are sold, A. */
export const CHARGER_SIZES = [20, 30, 40, 50, 60] as const;

/** Charger efficiency where none is given (makers' sheets, 0.85 to 0.90). */
const EFFICIENCY = 0.88;
/** Highest charging voltage of a 12 V bank for sizing, V. */
const HIGHEST_VOLTS = 14.4;
/** Set point while running, V at 12 V nominal. */
const RUNNING_VOLTS = 14.2;
/** Share of the source voltage that the loop is taken to lose: the usual aim of 3 %. */
const LOOP_SHARE = 0.03;
/** Alternator without a plate (A at 12 V), share of it at hot idle, and the vehicle's own load (A at 12 V): common practice. */
const ALTERNATOR = 120;
const IDLE_SHARE = 0.4;
const OWN_LOAD = 30;
const CONVERTER_OWN_LOAD = 25;

export interface Advice {
  /** A of output. */
  readonly amps: number;
  /** False: not even the smallest fits, and `surplus` less `input` is the deficit. */
  readonly fits: boolean;
  /** A left over at hot idle before the charger; null: the supply's limit is not known. */
  readonly surplus: number | null;
  /** A into the charger at the running set point behind a loop that loses 3 %. */
  readonly input: number;
  /** A that the house battery takes: its limit, else 0.5 C lithium, 0.2 C lead. */
  readonly accepts: number;
}

/** Current into a charger at its greatest power, A; `amps` of output, nominal volts of the system. Charger equation P = V·I/η. */
export function inputAmps(amps: number, nominal: number): number {
  const scale = nominal / 12;
  return (amps * HIGHEST_VOLTS * scale) / EFFICIENCY / (RUNNING_VOLTS * scale * (1 - LOOP_SHARE));
}

/** A that a bank of this chemistry and capacity (Ah) takes when its sheet is not at hand: 0.5 C lithium, 0.2 C lead (common practice). */
export function acceptedAmps(chemistry: Chemistry | null, capacity: number): number {
  return capacity * (chemistry === null || chemistry === 'lifepo4' || chemistry === 'sodium-ion' ? 0.5 : 0.2);
}

/**
 * The largest of 20, 30, 40, 50, 60 A whose input at hot idle fits the nominal surplus and whose output fits what the house
 * battery takes (the least of a band); none: 20 A, with the deficit shown.
 */
export function advise(facts: SixFacts): Advice {
  const surplus = nominalSurplus(facts);
  const accepts = acceptedAmps(facts.chemistry, facts.capacity?.low ?? 100);
  const fitting = CHARGER_SIZES.filter(
    (amps) => amps <= accepts && surplus !== null && inputAmps(amps, facts.system) <= surplus,
  );
  const amps = fitting.at(-1) ?? CHARGER_SIZES[0];
  return { amps, fits: fitting.length > 0, surplus, input: inputAmps(amps, facts.system), accepts };
}

function nominalSurplus(facts: SixFacts): number | null {
  if (facts.supply === 'converter') return facts.addedLimit?.low ?? null;
  // Another system has the same power, not the same amperes.
  const scale = 12 / facts.system;
  const idle = scale * (ALTERNATOR * IDLE_SHARE - OWN_LOAD);
  return facts.supply === null ? Math.min(idle, scale * (ALTERNATOR - CONVERTER_OWN_LOAD)) : idle;
}
