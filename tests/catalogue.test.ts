/**
 * Whole builds with one fault each, and their sound twins: exactly the dangers and faults that follow from what is wrong, and
 * numbers within 2 % of arithmetic by hand. The three formulas of the hand: a constant power P behind a loop R from Vs settles
 * at (Vs + sqrt(Vs² - 4PR)) / 2; it hunts from its start threshold up to Voff + P·R/Voff; a wire withstands (k·S/I)² seconds
 * (IEC 60364-5-54).
 */
import { describe } from 'vitest';
import { judgedAs, type Case } from './judged-as.ts';

const FOLDER = new URL('catalogue/', import.meta.url);

/** Volts at a constant power behind a loop. */
const input = (source: number, watts: number, ohms: number): number =>
  (source + Math.sqrt(source ** 2 - 4 * watts * ohms)) / 2;
const amps = (source: number, watts: number, ohms: number): number => watts / input(source, watts, ohms);
/** Loop of the usual feed: 9 m of 25 mm², 1.5 mΩ of breaker, 1.2 mΩ of joints. */
const USUAL = 9 * 0.78e-3 + 2.7e-3;
/** 30 A at 14.4 V and 14.2 V. */
const W = (30 * 14.4) / 0.88;
const W142 = (30 * 14.2) / 0.88;
const run = (milliohmsPerMetre: number): number => 14 * milliohmsPerMetre * 1e-3 + 5e-3;

const sound: Case = { bad: [], exit: 0 };
const hunts = 'fault hunting/charger';
const onlyRunning = 'enable/charges-only-while-the-engine-runs/charger';

const cases: Readonly<Record<string, Case>> = {
  // 13.9 V: 11.80 V, 41.0 A, 2.10 V; window to 12.8 + 484 x 0.0512 / 12.8 = 14.74 V; 30 x 3 / 33 = 2.73 A.
  'thin-feed-6': {
    bad: [hunts],
    exit: 1,
    numbers: [
      { of: 'hunting/charger', line: 'input with the charger on', is: input(13.9, W142, run(3.3)) },
      { of: 'hunting/charger', line: 'input current then', is: amps(13.9, W142, run(3.3)) },
      {
        of: 'hunting/charger',
        line: 'lost in the loop then',
        is: 13.9 - input(13.9, W142, run(3.3)),
      },
      {
        of: 'hunting/charger',
        line: 'hunting window',
        is: 12.8 + (W142 * run(3.3)) / 12.8 - 13.3,
      },
      { of: 'hunting/charger', line: 'mean output', is: (30 * 3) / 33 },
      { of: 'drop/charger', line: 'drop around the loop', is: 13.4 - input(13.4, W142, run(3.3)) },
    ],
    says: [['hunting/charger', /from 13\.30.V to 14\.74.V/u]],
  },
  // 1.5 mm² at 105 °C: 25 A x 0.93; on average it carries 2.7 A, for good 30 A.
  'hunts-thin-output': {
    bad: ['danger conductor/out', 'danger protected/out/charger', 'danger rating/out', hunts],
    exit: 1,
    numbers: [
      { of: 'conductor/out', is: 30 },
      { of: 'conductor/out', line: 'Greatest solved', is: Math.sqrt((30 * 30 * 3) / 33) },
    ],
  },
  // 13.09 V at 13.9 V, 12.77 V at 13.6 V; window 13.30 to 13.63 V.
  'feed-16': {
    bad: [hunts],
    exit: 1,
    numbers: [
      { of: 'hunting/charger', line: 'input idling', is: input(13.6, W142, run(1.21)) },
      { of: 'hunting/charger', line: 'input driving', is: input(13.9, W142, run(1.21)) },
      { of: 'hunting/charger', line: 'largest loop', is: (12.8 * 0.5) / W142 },
    ],
    says: [['hunting/charger', /from 13\.30.V to 13\.63.V/u]],
  },
  'feed-35': {
    ...sound,
    numbers: [{ of: 'hunting/charger', line: 'input driving', is: input(13.9, W142, run(0.554)) }],
  },
  // Holds 12.9 V: (13.9 - 12.9) / 51.2 mΩ = 19.5 A.
  'feed-6-holds': {
    bad: [],
    exit: 1,
    numbers: [{ of: 'hunting/charger', line: 'input driving', is: 12.9 }],
    says: [['hunting/charger', /does not hunt/u]],
  },
  // From 12.3 to 12.0 + 484 x 0.0512 / 12.0 = 14.07 V; 484 / 12.0 / 0.8 = 50.4 A asks for more than 50 A.
  'run-signal-6': {
    bad: [hunts, 'fault nuisance/feed-breaker', 'fault rating-window/feed-breaker'],
    exit: 1,
    numbers: [{ of: 'nuisance/feed-breaker', is: W142 / 12 / 0.8 }],
    says: [['hunting/charger', /from 12\.30.V to 14\.07.V/u]],
  },
  // From 12.3 to 12.0 + 484 x 0.01964 / 12.0 = 12.79 V, within which it cruises.
  'cruise-16': {
    bad: [hunts],
    exit: 1,
    says: [['hunting/charger', /driving: from 12\.30.V to 12\.79.V/u]],
  },
  'sensed-on-variable-supply': {
    bad: ['fault input-window/charger/driving', 'fault input-window/charger/idling'],
    exit: 1,
  },
  'sensed-in-heat': sound,
  // Posts and charger together: 12.6 V behind 5 mΩ gives 35.8 A beside the supply's 45 A; 20 Ah / 35.8 A = 33.5 min.
  'idle-deficit': {
    bad: ['danger no-start/vehicle-battery/idling', 'danger surplus/idling'],
    exit: 1,
    numbers: [
      { of: 'no-start/vehicle-battery/idling', is: (20 / 35.8) * 3600 },
      { of: 'surplus/idling', is: 45 - 40 - amps(13.6, W, USUAL) },
    ],
  },
  'idle-deficit-short': sound,
  // 491 W at 13.4 V behind 5 m each way of 25 mm², 2.1 mΩ of breaker and joints: 37.6 A; the vehicle's own 70 A are a part's.
  'own-load-by-a-part': {
    ...sound,
    numbers: [{ of: 'surplus/idling', is: 95 - 70 - 37.6 }],
    says: [['surplus/idling', /70\.0.A for the vehicle/u]],
  },
  'road-deficit': {
    bad: ['fault surplus/driving'],
    exit: 1,
    numbers: [{ of: 'surplus/driving', is: 60 - 40 - amps(13.6, W, USUAL) }],
  },
  'terminal-over-limit': {
    bad: ['danger supply-point-limit/body-terminal'],
    exit: 1,
    numbers: [{ of: 'supply-point-limit/body-terminal', is: amps(13.4, W, USUAL + 5e-3) }],
  },
  'sensor-passed-by': { bad: ['fault sensor/battery-sensor/charger'], exit: 1 },
  'sensor-passed': sound,
  'no-device-at-vehicle': {
    bad: ['danger clearing/feed-2', 'danger protected/feed-2/vehicle-battery'],
    exit: 1,
    numbers: [{ of: 'protected/feed-2/vehicle-battery', is: 4.35 }],
  },
  'no-device-at-bank': { bad: ['danger clearing/out', 'danger protected/out/house-battery'], exit: 1 },
  'device-at-wrong-end': {
    bad: ['danger clearing/feed', 'danger protected/feed/vehicle-battery'],
    exit: 1,
    numbers: [{ of: 'protected/feed/vehicle-battery', is: 4.35 }],
  },
  // 8 AWG at 105 °C: 80 A, x 0.85 in an engine space (33 CFR 183.425).
  'breaker-above-cable': {
    bad: ['danger clearing/feed-2', 'danger rating/feed-2'],
    exit: 1,
  },
  'breaker-small': {
    bad: ['fault nuisance/feed-breaker'],
    exit: 1,
    numbers: [{ of: 'nuisance/feed-breaker', is: W / 12 / 0.8 }],
  },
  'breaker-recloses': { bad: ['danger automatic-reset/feed-breaker'], exit: 1 },
  'bank-fuse-breaks-too-little': { bad: ['danger interrupting/house-fuse'], exit: 1 },
  truck: sound,
  'truck-low-rated-breaker': { bad: ['danger voltage-rating/feed-breaker'], exit: 1 },
  'truck-enable': { bad: ['fault enable-volts/charger'], exit: 1 },
  // 16 A beside 655 W at 12.6 V behind 5 mΩ: 71 A; 25 Ah / 71 A = 21 min.
  'key-on': {
    bad: ['danger no-start/vehicle-battery/ignition-on', `fault ${onlyRunning}`],
    exit: 1,
    numbers: [{ of: 'no-start/vehicle-battery/ignition-on', is: (25 / 71) * 3600 }],
  },
  'after-run': { bad: [`fault ${onlyRunning}`], exit: 1 },
  'stop-start-counted': { bad: [`fault ${onlyRunning}`], exit: 1 },
  'stop-start': sound,
  // 13.6 V into 1.5 Ω: 9.1 A, through a 3 A fuse and a 3 A contact.
  'override-feeds-back': {
    bad: [
      'danger back-feed/run-signal',
      'danger contacts/override',
      'danger drain/vehicle-battery',
      'danger supply-point-limit/run-signal',
      `fault ${onlyRunning}`,
      'fault nuisance/override-fuse',
    ],
    exit: 1,
    numbers: [{ of: 'back-feed/run-signal', is: 13.63 / 1.5 }],
  },
  'weak-terminal-loaded': {
    bad: ['danger supply-point-limit/run-signal', 'fault enable/charges/charger'],
    exit: 1,
  },
  'switch-in-power': { bad: ['danger contacts/power-switch'], exit: 1 },
  'contact-too-heavy': {
    bad: ['fault wetting/charge-switch'],
    exit: 1,
    numbers: [{ of: 'wetting/charge-switch', is: 13.4 / 10_100 }],
  },
  'contact-with-burden': sound,
  'unsuppressed-coil': {
    bad: ['danger contacts/charge-switch'],
    exit: 1,
  },
  // 12.5 V over 50 Ω: 0.25 A.
  'two-signals-tied': {
    bad: ['danger back-feed/run-signal', `fault ${onlyRunning}`],
    exit: 1,
    numbers: [{ of: 'back-feed/run-signal', is: 12.52 / 50 }],
  },
  'two-signals-diodes': sound,
  // 491 W behind 39.7 mΩ at 14.2 V: 38.8 A, 38.8² x 30.2 mΩ = 45 W.
  'painted-lug': {
    bad: ['danger joint-heat/return'],
    exit: 1,
    numbers: [{ of: 'joint-heat/return', is: amps(14.2, W, USUAL + 0.03) ** 2 * 0.0302 }],
  },
  'painted-lug-60': {
    bad: ['danger joint-heat/return', hunts],
    exit: 1,
    numbers: [{ of: 'hunting/charger', line: 'hunting window', is: 12 + (W * (USUAL + 0.06)) / 12 - 12.3 }],
  },
  'painted-lug-100': {
    bad: [hunts],
    exit: 1,
    numbers: [{ of: 'hunting/charger', line: 'no operating point', is: 14.2 ** 2 / (4 * W) }],
    says: [['hunting/charger', /no operating point at full output/u]],
  },
  'aluminium-body': { bad: ['fault return-medium/charger'], exit: 1 },
  'negative-borrowed': {
    bad: ['fault charger-negative/charger'],
    exit: 1,
    numbers: [{ of: 'charger-negative/charger', is: 95 }],
  },
  'isolator-passed-by': { bad: ['fault isolation/neg-isolator'], exit: 1 },
  frost: { bad: ['danger cold-charge/house-battery'], exit: 1 },
  'frost-guarded': sound,
  'two-chargers-one-limit': {
    bad: ['danger charge-sum/house-battery'],
    exit: 1,
    numbers: [{ of: 'charge-sum/house-battery', is: 60 }],
  },
  'two-chargers-one-feed': {
    bad: [
      'fault enable/charges/charger2',
      'fault input-window/charger2/charger',
      'fault input-window/charger2/driving',
      'fault input-window/charger2/idling',
    ],
    exit: 1,
  },
  // 8 m of 6 mm², 1.7 mΩ of fuse and the rest: 0.87 V at 30 A; slow, not broken.
  'output-thin': {
    ...sound,
    numbers: [
      { of: 'output-drop/charger', is: 30 * (8 * 3.3e-3 + 1.7e-3 + 0.1e-3 + 0.35 * 0.78e-3 + 0.4e-3) },
    ],
  },
  // 20 + 50 mA, and 3 % of 80 Ah a month.
  standing: {
    bad: ['danger drain/vehicle-battery'],
    exit: 1,
    numbers: [{ of: 'drain/vehicle-battery', is: (25 / (0.07 + (0.03 * 80) / 720)) * 3600 }],
  },
  'bank-too-small': { bad: ['danger charge-sum/house-battery'], exit: 1 },
  'lithium-vehicle-battery': {
    bad: ['danger drain/vehicle-battery', `fault ${onlyRunning}`],
    exit: 1,
  },
  electric: sound,
  'electric-over-limit': { bad: ['danger converter-limit/dcdc'], exit: 1 },
  'electric-no-figure': { bad: [], exit: 1 },
  hybrid: sound,
  // The feed breaker is polarised: from the house the unit would pass it backwards.
  'two-way': { bad: ['fault polarity/feed-breaker', 'fault still-live/feed-breaker'], exit: 1 },
  'gas-locker': { bad: ['danger sparks/charge-switch'], exit: 1 },
  // 6 AWG (the next smaller than 16 mm²) at 105 °C: 120 A x 0.931 x 0.5 = 55.9 A.
  'insulated-wall': {
    bad: ['danger rating/feed-2', 'fault rating-window/feed-breaker'],
    exit: 1,
    says: [['rating-window/feed-breaker', /4 AWG opens it|4.AWG opens it/u]],
  },
  unvented: { bad: ['danger venting/house-battery'], exit: 1 },
  'half-of-a-pair': {
    bad: [
      'danger protected/link/vehicle-battery',
      'danger voltage-rating/charger',
      'fault battery-over-volts/vehicle-battery-2',
      'fault midpoint/charger',
    ],
    exit: 1,
  },
  // Posts 28.2 V; the upper takes its 1.8 A, the lower gives the other 10.2 A: 12.65 - 10.2 x 2.2 mΩ = 12.63 V, left 15.57 V.
  'heater-on-lower-half': {
    bad: [
      'danger interrupting/tap-fuse',
      'danger protected/link/lower',
      'fault battery-over-volts/upper',
      'fault midpoint/heater',
    ],
    exit: 1,
    numbers: [
      { of: 'battery-over-volts/upper', is: 28.2 - 12.63 },
      { of: 'midpoint/heater', is: 12 },
    ],
    says: [['midpoint/heater', /lower alone/u]],
  },
  // 0.25 A x 6.7 Ω = 1.68 V pulls no relay; whether the thin wires stand the heat depends on their insulation.
  'relay-on-lamp-wire': {
    bad: ['danger supply-point-limit/d-plus', 'fault enable/charges/charger'],
    exit: 1,
    says: [['protected/c1/d-plus', /gives at most 0\.25.A; whether c1 carries that/u]],
  },
  // Of 40.9 A one way and 100 A the other the return carries 100 A at the most, not 141 A.
  'inverter-through-charger': {
    bad: ['fault charger-negative/chg'],
    exit: 1,
    numbers: [{ of: 'conductor/ret', is: 100 }],
  },
  'isolated-house': {
    ...sound,
    says: [['still-live/hfuse', /hfuse\.load is still live idling: 14\.40.V, fed by chg/u]],
  },
  // 30 x 0.5 / 2.1 = 7.14 A of 30 A; 90 - 21.4 = 68.6 Ah in 3 h.
  'shunt-passed-by': {
    bad: ['fault shunt-share/shunt'],
    exit: 1,
    numbers: [{ of: 'shunt-share/shunt', is: (100 * 0.5) / 2.1 }],
    says: [['shunt-share/shunt', /7\.14.A of 30\.0.A.*68\.6.Ah/u]],
  },
  // Round the shunt 0.639 + 0.5 + 0.025 mΩ, through it 0.405 + 0.1 + 0.405 + 0.025 mΩ; 200 Ah last 2 h of 100 A.
  'shunt-passed-by-loaded': {
    bad: ['fault shunt-share/shunt'],
    exit: 1,
    numbers: [{ of: 'shunt-share/shunt', is: (100 * 1.164) / (1.164 + 0.935) }],
    says: [['shunt-share/shunt', /89\.\d.Ah wrong in 2.h/u]],
  },
  'shunt-alone': sound,
  'shunt-without-bond': {
    bad: ['fault shunt-share/shunt'],
    exit: 1,
    says: [['shunt-share/shunt', /90\.0.Ah/u]],
  },
  'house-24': sound,
  'house-48-fuse-32': { bad: ['danger voltage-rating/house-fuse'], exit: 1 },
  'branch-fused': sound,
};

describe('the catalogue', () => {
  judgedAs(FOLDER, cases);
});
