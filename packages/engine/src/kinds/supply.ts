/** What the two vehicle supplies have in common: they hold the posts up to a limit and never absorb. */
import type { Basis, Generates, HoldElement, Surroundings, ValueReader } from '../contracts/index.ts';
import { ownOrPost, post } from './circuit.ts';
import { derived } from './figures.ts';

/** A supply that nobody gave a limit is solved as stiff as this, A; its surplus verdicts stay open. */
export const STIFF_AMPS = 1000;

/** Spread of a regulator's set point for each 12 V block, V (engine technical manual: 14.4 V plus or minus 0.3 V at 20 °C). */
const SET_POINT_SPREAD = 0.3;

/** The hottest that a regulator gets, °C. */
const HOT_REGULATOR = 80;

/** Temperature at which a set point is stated, °C. */
const SET_POINT_AT = 20;

/** The regulator between the supply's terminals, sensing at the battery's posts or at its own terminals. */
export function holding(
  at: Surroundings,
  options: {
    readonly feeds: boolean;
    readonly limit: number;
    readonly volts: number;
    readonly senseOwn: boolean;
  },
): HoldElement<string> {
  const a = ownOrPost(at, '+');
  const b = ownOrPost(at, '-');
  const feeds = options.feeds && !at.opened && at.mode !== 'fault-least';
  return {
    type: 'hold',
    a,
    b,
    senseA: options.senseOwn ? a : post(at, '+'),
    senseB: options.senseOwn ? b : post(at, '-'),
    volts: options.volts,
    least: 0,
    greatest: feeds ? options.limit : 0,
  };
}

/** The envelope of a stated set point: least hot less 0.3 V, greatest at the coldest air plus 0.3 V (for each 12 V block). */
export function statedEnvelope(
  read: ValueReader,
  nominal: number,
  coldestAir: number,
): ReturnType<NonNullable<Generates['setPoint']>> {
  const stated = read.given('set-point') ? read.quantity('set-point') : null;
  if (stated === null) return null;
  const gradient = read.quantity('gradient');
  const volts = stated.sourced.value;
  const spread = (SET_POINT_SPREAD * nominal) / 12;
  const slope = gradient?.sourced.value ?? 0;
  const from = gradient === null ? [stated] : [stated, gradient];
  const named = (which: string, value: number): Basis =>
    derived(`set-point-${which}`, `${which} set point`, value, 'V', from);
  return {
    least: named('least', volts + slope * (HOT_REGULATOR - SET_POINT_AT) - spread),
    typical: stated,
    greatest: named('greatest', volts + slope * (coldestAir - SET_POINT_AT) + spread),
  };
}
