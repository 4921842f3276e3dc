/** The checks, one line each, in the order in which findings are listed. */
import type { Check } from '../contracts/index.ts';
import { backFeed } from './back-feed.ts';
import { batteryOverVolts } from './battery-over-volts.ts';
import { chargeSum } from './charge-sum.ts';
import { circularCharging } from './circular-charging.ts';
import { clearing } from './clearing.ts';
import { coldCharge } from './cold-charge.ts';
import { conductor } from './conductor.ts';
import { contacts } from './contacts.ts';
import { converterLimit } from './converter-limit.ts';
import { drain } from './drain.ts';
import { drop } from './drop.ts';
import { enableVolts } from './enable-volts.ts';
import { enable } from './enable.ts';
import { hunting } from './hunting.ts';
import { inputWindow } from './input-window.ts';
import { interrupting } from './interrupting.ts';
import { jointHeat } from './joint-heat.ts';
import { midpoint } from './midpoint.ts';
import { noStart } from './no-start.ts';
import { outputDrop } from './output-drop.ts';
import { protectedReach } from './protected.ts';
import { rating } from './rating.ts';
import { returnMedium } from './return-medium.ts';
import { sensor } from './sensor.ts';
import { shuntShare } from './shunt-share.ts';
import { stillLive } from './still-live.ts';
import { supplyPointLimit } from './supply-point-limit.ts';
import { surplus } from './surplus.ts';
import { wetting } from './wetting.ts';

export const checks = [
  protectedReach,
  rating,
  interrupting,
  clearing,
  conductor,
  jointHeat,
  contacts,
  wetting,
  hunting,
  inputWindow,
  drop,
  outputDrop,
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
  circularCharging,
  batteryOverVolts,
  midpoint,
  shuntShare,
  sensor,
  returnMedium,
] as const satisfies readonly Check[];
