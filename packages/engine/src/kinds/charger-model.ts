/** What a dc charger's fields mean in numbers: thresholds, power, what limits its input. */
import type { Basis, FieldContext, Given, LowInput, Sourced, ValueReader } from '../contracts/index.ts';
import { chargerEfficiency, chargerHighestVoltage } from '../reference/index.ts';
import {
  ask,
  asGiven,
  derived,
  isStated,
  member,
  memory,
  nominalOf,
  practice,
  scaled,
  seen,
  textOf,
} from './figures.ts';
import type { LowInput as LowInputValue, Threshold } from '../quantity/index.ts';

export type Mode = 'voltage' | 'signal' | 'signal-and-voltage';
const MODES: readonly Mode[] = ['voltage', 'signal', 'signal-and-voltage'];

export const modeOf = (read: ValueReader): Mode | null => read.choice('enable') as Mode | null;

/** Nominal volts at the input: of `input-system`, else of the vehicle. */
export const inputNominal = (read: ValueReader, about: FieldContext = read.about): number =>
  nominalOf(about, textOf(read, 'input-system') ?? 'vehicle');

/** Nominal volts at the output: of `output-system`, else of the house. */
export const outputNominal = (read: ValueReader, about: FieldContext = read.about): number =>
  nominalOf(about, textOf(read, 'output-system') ?? 'house');

/** A set voltage per 12 V of the system: 14.4 V, twice at 24 V, fourfold at 48 V. */
export const setDefault = (read: ValueReader, about: FieldContext): Sourced =>
  scaled(chargerHighestVoltage, outputNominal(read, about) / 12);

/** Highest voltage that it charges to, V. */
export function setVolts(read: ValueReader): Basis {
  const raw = read.raw('voltage');
  return certain(
    read.resolve(
      'voltage.absorption',
      asGiven(member(raw, 'absorption')) ?? asGiven(member(raw, 'float')),
      setDefault(read, read.about),
      ask('highest output voltage of {part}', 'up'),
    ),
  );
}

/** Float voltage, V, when stated. */
export const floatVolts = (read: ValueReader): Basis | null =>
  read.resolve(
    'voltage.float',
    asGiven(member(read.raw('voltage'), 'float')),
    null,
    ask('float voltage of {part}'),
  );

/** Rated output current for solving: as stated, else a usual one, so that a drawing of an unfinished build has numbers. */
export function solvedCurrent(read: ValueReader): Basis {
  const scale = 12 / outputNominal(read);
  return certain(
    read.resolve(
      'current',
      asGiven(read.raw('current')),
      memory(30 * scale, 'A', 'a usual charger', [15 * scale, 60 * scale]),
      ask('rated current of {part}', 'up'),
    ),
  );
}

type Which = 'starts' | 'stops';

/** Published thresholds for each 12 V of the input, V: sensing by voltage, with a run signal. */
const THRESHOLDS: Readonly<Record<Which, Readonly<Record<Mode, Sourced>>>> = {
  starts: {
    voltage: seen(13.3, 'V', "several makers' manuals, voltage sensing"),
    signal: seen(12.3, 'V', "one maker's manual, with run signal"),
    'signal-and-voltage': seen(13.3, 'V', "several makers' manuals, voltage sensing"),
  },
  stops: {
    voltage: seen(12.8, 'V', "several makers' manuals, voltage sensing"),
    signal: seen(12.0, 'V', "one maker's manual, with run signal"),
    'signal-and-voltage': seen(12.8, 'V', "several makers' manuals, voltage sensing"),
  },
};

/** Published delays, s (common practice). */
const DELAYS: Readonly<Record<Which, Sourced>> = {
  starts: practice(15, 's', 'common practice, no source', [5, 60]),
  stops: practice(5, 's', 'common practice, no source', [3, 60]),
};

const isThreshold = (raw: unknown): raw is Threshold =>
  typeof raw === 'object' && raw !== null && 'voltage' in raw && isStated(raw.voltage);

/** The stated threshold of one mode; a plain one serves every mode. */
function statedFor(
  read: ValueReader,
  which: Which,
  mode: Mode,
): { readonly path: string; readonly value: Threshold } | null {
  const raw = read.raw(which);
  if (isThreshold(raw)) return { path: which, value: raw };
  const own = member(raw, mode);
  return isThreshold(own) ? { path: `${which}.${mode}`, value: own } : null;
}

/** The mode that is solved: as stated; else by signal where something is wired to the enable terminal. */
export const solvedMode = (read: ValueReader, enableWired: boolean): Mode =>
  modeOf(read) ?? (enableWired ? 'signal' : 'voltage');

/**
 * Start or stop threshold of a mode, V at the input. A unit that wants signal and voltage, without a pair of its own,
 * compares the voltage as in voltage mode.
 */
export function threshold(read: ValueReader, which: Which, mode: Mode): Basis {
  const stated =
    statedFor(read, which, mode) ??
    (mode === 'signal-and-voltage' ? statedFor(read, which, 'voltage') : null);
  const path = stated?.path ?? `${which}.${mode}`;
  return certain(
    read.resolve(
      path,
      stated?.value.voltage ?? null,
      scaled(THRESHOLDS[which][mode], inputNominal(read) / 12),
      ask(
        which === 'starts' ? 'start threshold of {part}' : 'stop threshold of {part}',
        which === 'starts' ? 'down' : 'up',
      ),
    ),
  );
}

/** How long the threshold must hold, ms. */
export function delayMs(read: ValueReader, which: Which, mode: Mode): number {
  const stated =
    statedFor(read, which, mode) ??
    (mode === 'signal-and-voltage' ? statedFor(read, which, 'voltage') : null);
  const basis = certain(
    read.resolve(
      `${which}.delay`,
      stated?.value.delay ?? null,
      DELAYS[which],
      ask(which === 'starts' ? 'start delay of {part}' : 'stop delay of {part}'),
    ),
  );
  return Math.max(100, Math.round(basis.sourced.value * 1000));
}

/** The lowest stop threshold that can rule: that of its mode, and where it wants both, that of either if stated. */
function lowestStop(read: ValueReader, mode: Mode): Basis {
  const own = threshold(read, 'stops', mode);
  if (mode !== 'signal-and-voltage') return own;
  return MODES.filter((other) => statedFor(read, 'stops', other) !== null)
    .map((other) => threshold(read, 'stops', other))
    .reduce((low, next) => (next.sourced.value < low.sourced.value ? next : low), own);
}

/** What it does when its input falls, with the voltages as bases. */
export function lowInput(read: ValueReader): { readonly rule: LowInput; readonly volts: Basis | null } {
  const raw = read.raw('low-input') as LowInputValue | 'unknown' | null;
  if (typeof raw !== 'object' || raw === null || raw.behaviour === 'stops')
    return { rule: { type: 'none' }, volts: null };
  const at = (name: string, given: Given): Basis =>
    certain(read.resolve(`low-input.${name}`, given, null, ask('voltage at which {part} gives way', 'up')));
  if (raw.behaviour === 'holds') {
    const volts = at('holds', raw.at);
    return { rule: { type: 'holds', volts: volts.sourced.value }, volts };
  }
  const from = at('from', raw.from);
  const to = at('to', raw.to);
  const high = Math.max(from.sourced.value, to.sourced.value + 0.001);
  return { rule: { type: 'reduces', from: high, to: to.sourced.value }, volts: from };
}

type Points = readonly (readonly [share: number, eta: number])[];

/** Efficiency as [share of rated current, efficiency]. */
export function efficiency(read: ValueReader): { readonly points: Points; readonly full: Basis } {
  const raw = read.raw('efficiency');
  const asked = ask('efficiency of {part}', 'down');
  const table = Array.isArray(raw) ? efficiencyTable(raw as readonly (readonly unknown[])[]) : [];
  const last = table.at(-1);
  const full = certain(
    read.resolve(
      'efficiency',
      last === undefined ? asGiven(raw) : { value: last[1], text: 'as given' },
      chargerEfficiency,
      asked,
    ),
  );
  return { points: last === undefined ? [[1, full.sourced.value]] : table, full };
}

const efficiencyTable = (rows: readonly (readonly unknown[])[]): Points =>
  rows
    .flatMap(([share, eta]) =>
      isStated(share) && isStated(eta) && eta.value > 0 ? [[share.value, eta.value] as const] : [],
    )
    .toSorted((a, b) => a[0] - b[0]);

/** Greatest power that it can ask for, W: set voltage x rated current / efficiency, and what it draws itself. */
export function greatestPower(read: ValueReader, current: Basis): Basis {
  const volts = setVolts(read);
  const { full } = efficiency(read);
  const own = read.number('standby', 0) * inputNominal(read);
  const value = (volts.sourced.value * current.sourced.value) / full.sourced.value + own;
  return derived('greatest-power', 'greatest power of the charger', value, 'W', [current, volts, full]);
}

/** What the maker prints beside the charger's input, such as `input`. */
export const printedBy = (read: ValueReader, name: string): Basis | null =>
  read.resolve(
    `maker.${name}`,
    asGiven(member(read.raw('maker'), name)),
    null,
    ask(`${name} that the maker of {part} prints`),
  );

/** Greatest continuous input current that feed and device are judged by, A: the larger of the computed and the printed one. */
export function greatestInput(read: ValueReader, current: Basis, mode: Mode): Basis {
  const computed = computedInput(read, current, mode);
  const printed = printedBy(read, 'input');
  return printed !== null && printed.sourced.value > computed.sourced.value ? printed : computed;
}

/**
 * Greatest continuous input current as computed, A: greatest power over the voltage that it goes down to at full power: the stop
 * threshold, or the voltage from which it gives way; never below its minimum; never above a stated input limit.
 */
export function computedInput(read: ValueReader, current: Basis, mode: Mode): Basis {
  const power = greatestPower(read, current);
  const stop = lowestStop(read, mode);
  const gives = lowInput(read).volts;
  const minimum = certain(read.quantity('minimum'));
  const at = [stop, minimum, ...(gives === null ? [] : [gives])].reduce((high, next) =>
    next.sourced.value > high.sourced.value ? next : high,
  );
  const value = power.sourced.value / at.sourced.value;
  const limit = read.quantity('input-limit');
  const label = 'greatest continuous input current of the charger';
  if (limit !== null && limit.sourced.value < value)
    return derived('greatest-input', label, limit.sourced.value, 'A', [limit]);
  return derived('greatest-input', label, value, 'A', [power, at]);
}

/** Highest volts that a net reaches for each volt of its nominal, and the lowest at which a battery takes a charge. */
const MOST_PER_VOLT = 16 / 12;
const LEAST_PER_VOLT = 1;

/** Current that it can give for good, A: as rated; less where a stated input limit at the net's highest volts allows less. */
export function greatestOutput(read: ValueReader, current: Basis): Basis {
  const limit = read.quantity('input-limit');
  if (limit === null) return current;
  const { full } = efficiency(read);
  const watts = limit.sourced.value * inputNominal(read) * MOST_PER_VOLT * full.sourced.value;
  const value = watts / (outputNominal(read) * LEAST_PER_VOLT);
  if (value >= current.sourced.value) return current;
  return derived('greatest-output', 'output that the input limit of the charger leaves', value, 'A', [
    limit,
    full,
  ]);
}

/** What the input never takes more than, A: as stated, else full power at the minimum voltage. */
export function inputLimit(read: ValueReader, current: Basis): number {
  const stated = read.quantity('input-limit');
  const atMinimum = greatestPower(read, current).sourced.value / read.number('minimum', 10.5);
  return stated?.sourced.value ?? atMinimum;
}

/** Share of the output left at an air temperature: 1 up to `derates`, half 20 K above (memory), flat beyond. */
export function heatShare(read: ValueReader, air: number): number {
  const above = (air - read.number('derates', 45)) / 20;
  return 1 - 0.5 * Math.min(1, Math.max(0, above));
}

function certain(basis: Basis | null): Basis {
  if (basis === null) throw new Error('a charger figure was given or has a default');
  return basis;
}
