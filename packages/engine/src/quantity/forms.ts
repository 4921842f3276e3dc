/**
 * Phrases made of quantities only: plates, thresholds, low-input behaviour, pauses, one-sided limits.
 * Every parser returns the parts or one sentence that says what to write instead.
 */
import { parseQuantity } from './parse.ts';
import type { Amount, Quantity, Refusal } from './parse.ts';
import { normalise, quoted } from './text.ts';
import type { Dimension } from './units.ts';

/** The parts of a phrase, or why it was not understood. */
export type Form<T> = { readonly ok: true; readonly value: T } | Refusal;

const refuse = (message: string): Refusal => ({ ok: false, message });
const good = <T>(value: T): Form<T> => ({ ok: true, value });

/** Only what a build keeps. */
function amount(quantity: Quantity): Amount {
  const { value, band, text } = quantity;
  return band === undefined ? { value, text } : { value, band, text };
}

/** An alternator's plate in the marking of ISO 8854, `I_L/I_R A U_T V`. */
export interface Plate {
  /** Output at idling speed, A. */
  readonly idle: number;
  /** Rated output, A. */
  readonly rated: number;
  /** Test voltage, V. */
  readonly volts: number;
}

const PLATE = /^([\d.,]+) ?A? ?\/ ?([\d.,]+) ?A ?,? ?([\d.,]+) ?V$/i;

/** Reads `70/150 A 13.5 V`. The first current (idling) may not exceed the second. */
export function parsePlate(text: string): Form<Plate> {
  const match = PLATE.exec(normalise(text));
  if (match === null)
    return refuse(`${quoted(text)} is not an alternator plate: write it such as 70/150 A 13.5 V`);
  const idle = parseQuantity(`${match[1] ?? ''} A`, 'current', { band: false });
  const rated = parseQuantity(`${match[2] ?? ''} A`, 'current', { band: false });
  const volts = parseQuantity(`${match[3] ?? ''} V`, 'voltage', { band: false });
  if (!idle.ok) return idle;
  if (!rated.ok) return rated;
  if (!volts.ok) return volts;
  if (idle.value > rated.value) {
    return refuse(
      `${quoted(text)}: the first current (idling) is the smaller one on a plate: write it such as 70/150 A 13.5 V`,
    );
  }
  if (rated.value <= 0 || volts.value <= 0)
    return refuse(`${quoted(text)}: a plate has no zero: write it such as 70/150 A 13.5 V`);
  return good({ idle: idle.value, rated: rated.value, volts: volts.value });
}

/** A voltage with an optional delay. */
export interface Threshold {
  readonly voltage: Amount;
  /** How long the condition must hold, s. */
  readonly delay?: Amount;
}

/** Reads `13.3 V after 15 s` or `12.8 V`; both parts may be bands. */
export function parseThreshold(text: string): Form<Threshold> {
  const plain = normalise(text);
  const match = /^(.*?) ?\bafter\b ?(.*)$/i.exec(plain);
  const voltage = parseQuantity(match === null ? plain : (match[1] ?? ''), 'voltage', { min: 0 });
  if (!voltage.ok) return refuse(`${voltage.message} (a threshold is written such as 13.3 V after 15 s)`);
  if (match === null) return good({ voltage: amount(voltage) });
  const delay = parseQuantity(match[2] ?? '', 'time');
  return delay.ok ? good({ voltage: amount(voltage), delay: amount(delay) }) : delay;
}

/** What a converter does when its input falls. */
export type LowInput =
  | { readonly behaviour: 'stops' }
  | { readonly behaviour: 'holds'; readonly at: Amount }
  | { readonly behaviour: 'reduces'; readonly from: Amount; readonly to: Amount };

/** Reads `stops`, `holds 12.9 V` or `reduces from 13.0 V to 12.0 V`. */
export function parseLowInput(text: string): Form<LowInput> {
  const plain = normalise(text);
  if (/^stops$/i.test(plain)) return good<LowInput>({ behaviour: 'stops' });
  const holds = /^holds (?:at )?(.+)$/i.exec(plain);
  if (holds !== null) {
    const at = parseQuantity(holds[1] ?? '', 'voltage', { min: 0 });
    return at.ok ? good<LowInput>({ behaviour: 'holds', at: amount(at) }) : at;
  }
  const reduces = /^reduces from (.+?) to (.+)$/i.exec(plain);
  if (reduces !== null) return parseReduces(reduces[1] ?? '', reduces[2] ?? '', text);
  return refuse(`${quoted(text)}: write stops, holds 12.9 V, or reduces from 13.0 V to 12.0 V`);
}

function parseReduces(first: string, second: string, text: string): Form<LowInput> {
  const to = parseQuantity(second, 'voltage', { min: 0 });
  if (!to.ok) return to;
  const from = parseQuantity(/^[\d.,]+$/.test(first) ? `${first} ${to.unit}` : first, 'voltage', { min: 0 });
  if (!from.ok) return from;
  if (from.value <= to.value)
    return refuse(`${quoted(text)}: it reduces from the higher to the lower voltage`);
  return good<LowInput>({ behaviour: 'reduces', from: amount(from), to: amount(to) });
}

/** A pause that repeats, both s. */
export interface Sampling {
  readonly pause: Amount;
  readonly every: Amount;
}

/** Reads `5 s every 3 min`; the pause is shorter than its period. */
export function parseSampling(text: string): Form<Sampling> {
  const match = /^(.+?) every (.+)$/i.exec(normalise(text));
  if (match === null)
    return refuse(`${quoted(text)}: write a pause and how often it comes, such as 5 s every 3 min`);
  const pause = parseQuantity(match[1] ?? '', 'time');
  const every = parseQuantity(match[2] ?? '', 'time');
  if (!pause.ok) return pause;
  if (!every.ok) return every;
  if (pause.value >= every.value)
    return refuse(`${quoted(text)}: the pause must be shorter than the time between pauses`);
  return good({ pause: amount(pause), every: amount(every) });
}

/** One side of a value. */
export interface OneSided {
  readonly side: 'below' | 'above';
  readonly limit: Amount;
}

/** Reads `below 0 °C` or `above 15.6 V`, of the dimensions allowed (told by the unit). */
export function parseOneSided(text: string, allowed: readonly Dimension[]): Form<OneSided> {
  const match = /^(below|above) (.+)$/i.exec(normalise(text));
  if (match === null)
    return refuse(`${quoted(text)}: write below or above and a value, such as below 0 °C or above 15.6 V`);
  const side = (match[1] ?? '').toLowerCase() === 'below' ? 'below' : 'above';
  let refusal: Refusal | undefined;
  for (const dimension of allowed) {
    const limit = parseQuantity(match[2] ?? '', dimension);
    if (limit.ok) return good<OneSided>({ side, limit: amount(limit) });
    refusal ??= limit;
  }
  return refusal ?? refuse(`${quoted(text)}: no such value is expected here`);
}

/** The resistance of a protective device: in Ω, or as the voltage lost at its rated current. */
export type DeviceResistance = { readonly ohms: Amount } | { readonly voltsAtRating: Amount };

/** Reads `2 mΩ` or `0.1 V/rating` (`75..150 mV/rating`). */
export function parseDeviceResistance(text: string): Form<DeviceResistance> {
  const match = /^(.+?) ?\/ ?rating$/i.exec(normalise(text));
  if (match === null) {
    const ohms = parseQuantity(text, 'resistance');
    return ohms.ok
      ? good<DeviceResistance>({ ohms: amount(ohms) })
      : refuse(`${ohms.message}, or the voltage lost at the rating, such as 0.1 V/rating`);
  }
  const voltsAtRating = parseQuantity(match[1] ?? '', 'voltage', { min: 0 });
  return voltsAtRating.ok ? good<DeviceResistance>({ voltsAtRating: amount(voltsAtRating) }) : voltsAtRating;
}

/** Opening times of a protective device at one current, s; Infinity = never opens. */
export interface OpeningTimes {
  readonly fastest: number;
  readonly slowest: number;
}

/**
 * Reads `4..40 s`, `never..14400 s` (no fast edge: it may not open sooner than never, and must have opened by
 * 14400 s),
 * `3600 s..never` (holds at least that long) or one time for both edges.
 */
export function parseOpeningTimes(text: string): Form<OpeningTimes> {
  const time = parseQuantity(text, 'time', { never: true });
  if (!time.ok) return time;
  const [fastest, slowest] = time.band ?? [time.value, time.value];
  return good({ fastest, slowest });
}
