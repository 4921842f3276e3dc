/** The voltage that the vehicle's supply holds at the posts: its envelope per state. */
import type { Basis, CornerFacts, Generates, Sourced, StateFacts } from '../contracts/index.ts';
import type { Values } from '../devices/values.ts';

export interface Envelope {
  readonly least: Basis;
  readonly typical: Basis;
  readonly greatest: Basis;
}

/** Section "running volts": per 12 V block; fixed voltage, variable or unknown supply, overrun of a variable one. */
const FIXED = [13.5, 14.2, 14.8] as const;
const VARIABLE = [12.2, 13.8, 15.2] as const;
const OVERRUN_GREATEST = 16;

/**
 * Envelope of the set point in a state, first that exists: the survey's posts, the supply's own set point, the published
 * running volts (alternator.csv; typical: common practice). null when the supply is off.
 */
export function envelopeOf(
  state: StateFacts,
  supplies: readonly Generates[],
  values: Values,
  about: {
    readonly nominal: number;
    readonly variable: boolean;
    readonly unknownSupply: boolean;
    readonly hottestAir: number;
    readonly coldestAir: number;
  },
): Envelope | null {
  if (state.supply === 'off') return null;
  const own = supplies.map((g) => g.setPoint?.(state, about) ?? null).find((e) => e !== null) ?? null;
  const blocks = about.nominal / 12;
  const row = about.variable || about.unknownSupply ? VARIABLE : FIXED;
  const greatest = about.variable && state.recovering ? OVERRUN_GREATEST : row[2];
  const fallback = (which: 'min' | 'typical' | 'max', volts: number, typical: boolean): Basis => {
    const sourced: Sourced = {
      value: volts * blocks,
      unit: 'V',
      prov: typical ? 'practice' : 'seen',
      source: typical ? 'common practice, no source' : 'service literature: charging voltages of vehicles',
    };
    return must(
      values.resolve(`survey.${state.id}.posts.${which}`, null, sourced, {
        label: `${which === 'min' ? 'least' : which === 'max' ? 'greatest' : 'typical'} volts at the battery posts while ${state.label}`,
        how: 'measure at the posts, engine running, lights and fan on',
        effort: 'engine',
        slack: 'down',
      }),
    );
  };
  const least = state.posts.min ?? own?.least ?? fallback('min', row[0], false);
  const typical = state.posts.typical ?? own?.typical ?? between(state, fallback('typical', row[1], true));
  const most = state.posts.max ?? own?.greatest ?? fallback('max', greatest, false);
  return ordered(least, typical, most);
}

/** A typical value that nobody measured lies inside what was measured. */
function between(state: StateFacts, typical: Basis): Basis {
  const { min, max } = state.posts;
  const value = Math.min(
    Math.max(typical.sourced.value, min?.sourced.value ?? -Infinity),
    max?.sourced.value ?? Infinity,
  );
  return value === typical.sourced.value ? typical : { ...typical, sourced: { ...typical.sourced, value } };
}

/** Where only some of the three are known, the others give way. */
function ordered(least: Basis, typical: Basis, greatest: Basis): Envelope {
  const low = least.sourced.value <= typical.sourced.value ? least : typical;
  const high = greatest.sourced.value >= typical.sourced.value ? greatest : typical;
  return { least: low, typical, greatest: high };
}

/** The set point that a corner takes. */
export function setPointAt(envelope: Envelope, corner: CornerFacts): Basis {
  return envelope[corner.source];
}

function must(basis: Basis | null): Basis {
  if (basis === null) throw new Error('a published running voltage exists for every state');
  return basis;
}
