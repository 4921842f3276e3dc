/** The checks, one line each, in the order in which findings are listed. */
import type { Check } from '../contracts/index.ts';
import { automaticReset } from './automatic-reset.ts';
import { backFeed } from './back-feed.ts';
import { batteryOpens } from './battery-opens.ts';
import { batteryOverVolts } from './battery-over-volts.ts';
import { bladeHolder } from './blade-holder.ts';
import { chatter } from './chatter.ts';
import { chargerHeat } from './charger-heat.ts';
import { chargerNegative } from './charger-negative.ts';
import { chargeSum } from './charge-sum.ts';
import { circularCharging } from './circular-charging.ts';
import { clearing } from './clearing.ts';
import { coldCharge } from './cold-charge.ts';
import { conductor } from './conductor.ts';
import { connected } from './connected.ts';
import { contacts } from './contacts.ts';
import { converterLimit } from './converter-limit.ts';
import { drain } from './drain.ts';
import { drop } from './drop.ts';
import { enableVolts } from './enable-volts.ts';
import { enable } from './enable.ts';
import { hunting } from './hunting.ts';
import { inputWindow } from './input-window.ts';
import { interrupting } from './interrupting.ts';
import { isolation } from './isolation.ts';
import { jointHeat } from './joint-heat.ts';
import { guard } from './guard.ts';
import { byEye } from './by-eye.ts';
import { chargeVolts } from './charge-volts.ts';
import { partRating } from './part-rating.ts';
import { maker } from './maker.ts';
import { mechanicalSize } from './mechanical-size.ts';
import { midpoint } from './midpoint.ts';
import { noStart } from './no-start.ts';
import { nuisance } from './nuisance.ts';
import { outputDrop } from './output-drop.ts';
import { polarity } from './polarity.ts';
import { protectedReach } from './protected.ts';
import { ratingWindow } from './rating-window.ts';
import { rating } from './rating.ts';
import { reachHand } from './reach-hand.ts';
import { returnMedium } from './return-medium.ts';
import { selectivity } from './selectivity.ts';
import { sensor } from './sensor.ts';
import { shuntShare } from './shunt-share.ts';
import { solved } from './solved.ts';
import { sparks } from './sparks.ts';
import { stillLive } from './still-live.ts';
import { studLugs } from './stud-lugs.ts';
import { supplyPointLimit } from './supply-point-limit.ts';
import { surplus } from './surplus.ts';
import { venting } from './venting.ts';
import { voltageRating } from './voltage-rating.ts';
import { wetting } from './wetting.ts';

export const checks = [
  solved,
  connected,
  protectedReach,
  rating,
  interrupting,
  clearing,
  automaticReset,
  ratingWindow,
  nuisance,
  selectivity,
  bladeHolder,
  conductor,
  jointHeat,
  contacts,
  wetting,
  partRating,
  voltageRating,
  polarity,
  mechanicalSize,
  studLugs,
  reachHand,
  sparks,
  venting,
  hunting,
  chatter,
  inputWindow,
  drop,
  outputDrop,
  maker,
  enable,
  enableVolts,
  backFeed,
  stillLive,
  noStart,
  drain,
  surplus,
  converterLimit,
  supplyPointLimit,
  chargeSum,
  coldCharge,
  chargerHeat,
  circularCharging,
  batteryOverVolts,
  batteryOpens,
  guard,
  chargeVolts,
  midpoint,
  shuntShare,
  sensor,
  returnMedium,
  isolation,
  chargerNegative,
  // The last: by then all that the others rest on has been read.
  byEye,
] as const satisfies readonly Check[];
