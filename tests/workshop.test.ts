/**
 * Builds as people bring them to a workshop: parts and wires in any order, sizes of three countries, one mistake each. What is
 * expected is worked out by hand beside it; 2 % is agreement.
 */
import { describe } from 'vitest';
import { judgedAs, type Case } from './judged-as.ts';

const cases: Readonly<Record<string, Case>> = {
  // 40 A x 14.4 V / 0.9 = 640 W; 12.5 V x 0.8 V / 640 W = 15.6 mΩ. 5.94 m of 2 AWG (0.523), 6.10 m of 8 AWG (2.10 mΩ/m), breaker
  // 1.4, six joints 0.3 mΩ: 17.6 mΩ at 20 °C. At 48 A 8 AWG (80 A x 0.931 at 40 °C) is at 67 °C, 2 AWG at 44 °C: 20.3 mΩ, and
  // (14.2 + sqrt(14.2² - 4 x 640 x 0.0203)) / 2 = 13.21 V.
  'thin-return': {
    bad: ['fault hunting/dcdc'],
    exit: 1,
    numbers: [
      { of: 'hunting/dcdc', line: 'largest loop', is: 15.6e-3 },
      { of: 'hunting/dcdc', line: 'input driving', is: 13.21 },
    ],
    says: [['hunting/dcdc', /hunts idling: from 13\.30.V/u]],
  },
  // 10 AWG at 90 °C: 55 A x sqrt(45 / 60) in air of 45 °C x 0.6 for six loaded conductors = 28.6 A behind 30 A. The leads to the
  // breakers touch the returns at the bar, not at the lamps: no return has to carry what the main fuse lets through.
  'three-in-a-conduit': {
    bad: ['danger rating/b1', 'danger rating/b2', 'danger rating/b3'],
    exit: 1,
    numbers: [{ of: 'rating/b2', line: 'Ampacity of b2', is: 55 * Math.sqrt(45 / 60) * 0.6 }],
  },
  // 8 AWG: 70 A x 0.866 x 0.6 = 36.4 A.
  'three-in-a-conduit-holds': {
    bad: [],
    exit: 0,
    numbers: [{ of: 'rating/b2', line: 'Ampacity of b2', is: 70 * Math.sqrt(45 / 60) * 0.6 }],
  },
  // House 13.2 V behind 20 + 7.2 mΩ (5.2 m x 0.554, two fuses 1.67, relay and joints 1.0), vehicle 12.0 V behind 25 mΩ, 305 A:
  // (12.0 / 25 + 13.2 / 27.2 - 0.305) / (1 / 25 + 1 / 27.2) = 8.60 V, and 4.6 V / 27.2 mΩ = 169 A through the link: 282 %, where
  // the fuses may open from 0.3^0.614 = 0.48 s on, in 3 s.
  'link-while-cranking': {
    // The relay joins two batteries and is rated 120 A: it welds (the winding behind it is fed either way).
    bad: ['danger contacts/split', 'fault nuisance/f-h', 'fault nuisance/f-v'],
    exit: 1,
    numbers: [
      { of: 'nuisance/f-h', line: 'Greatest current cranking', is: 169 },
      { of: 'nuisance/f-h', line: 'Fast edge', is: 0.477 },
    ],
    says: [['nuisance/f-h', /may open while the engine is cranked/u]],
  },
  'signal-without-return': {
    bad: ['fault enable/charges/iso'],
    exit: 1,
    says: [['enable/charges/iso', /iso\.enable stands at 14\.\d+.V to iso\.in-.*no way back/u]],
  },
  // 4.6 mm² counts as 4 mm²: 25 A in free air of 45 °C (IEC), 35 A x sqrt(25 / 40) = 27.7 A (ISO), behind 30 A.
  'cable-by-diameter': {
    bad: ['danger rating/b'],
    exit: 1,
    numbers: [{ of: 'rating/b', line: 'Ampacity of b', is: 25 }],
    says: [['rating/b', /27\.7.A/u]],
  },
  // A diode is no device: what lies behind it is fed through it. Least current at the switch: 12.6 V less 0.5 V over 5 + 1.5 of
  // battery and breaker, 4.3 m of 1 mm² at 70 °C (100.4), 3.9 m of 25 mm² back and 35 cm out (4.0), contact 5, diode, relay and
  // twelve joints 2.1 = 118 mΩ: 102.5 A, 171 % of the breaker. 12.1 A is what 1 mm² may carry.
  'tap-through-a-diode': {
    bad: [
      'danger clearing/e1',
      'danger clearing/e1b',
      'danger clearing/e2',
      'danger clearing/e3',
      'danger rating/e1',
      'danger rating/e1b',
      'danger rating/e2',
      'danger rating/e3',
      'fault rating-window/brk',
    ],
    exit: 1,
    numbers: [
      { of: 'clearing/e2', line: 'Governing', is: 102.5 },
      { of: 'rating/e3', is: 60 },
    ],
  },
  // 15 A to each bank: 0.6 V and 15 mV in the diode; 30 A through 30 cm of 25 mm² (0.84 mΩ/m hot) and two joints of 0.05 = 11 mV;
  // 15 A through 2.25 m more, ten joints and the fuse (1.89 + 0.5 + 1.67 mΩ) = 61 mV: 0.687 V. Full, the diode is left: 13.8 V.
  // 14.4 + 0.6 V set, or transistors, give both banks what they ask for.
  'split-by-diodes': {
    bad: [],
    exit: 0,
    numbers: [
      { of: 'output-drop/dcdc', is: 0.687 },
      { of: 'output-drop/dcdc', line: 'at the posts of h1', is: 14.4 - 0.687 },
      { of: 'charge-volts/h1', is: 13.8 },
      { of: 'charge-volts/h2', is: 13.8 },
      // Once one bank is full the other takes all.
      { of: 'conductor/o', is: 30 },
      { of: 'conductor/k1', is: 30 },
      { of: 'conductor/m2', is: 30 },
    ],
    says: [
      ['still-live/f1', /f1\.load is still live .* fed by dcdc/u],
      ['output-drop/dcdc', /0\.62.V of it in d1.*h1 gets 13\.7.*Sense at its posts.*relay or transistors/u],
      ['charge-volts/h2', /13\.80.V at the battery with what is lost in d2.*never gets full/u],
    ],
    remedies: [['output-drop/dcdc', [/transistors/u, /absorption of dcdc to 15\.00.V/u]]],
  },
  // Either bank may get all of the 30 A.
  'small-bank-behind-a-diode': {
    bad: ['danger charge-sum/h2', 'danger cold-charge/h2'],
    exit: 1,
    numbers: [{ of: 'charge-sum/h2', is: 30 }],
  },
  'split-by-diodes-sensed': {
    bad: [],
    exit: 0,
    numbers: [{ of: 'output-drop/dcdc', line: 'lost in d1', is: 0.615 }],
    says: [
      ['output-drop/dcdc', /sense wires make up for it/u],
      ['charge-volts/h1', /is set to 14\.40.V \(absorption\), and the sheet/u],
      ['charge-volts/h2', /is set to 14\.40.V \(absorption\), and the sheet/u],
    ],
  },
  // 30 A x 14.4 V / 0.88 = 491 W: 40.9 A at 12.0 V, where it stops. From 13.5 V at 12.72 V: 38.6 A; 0.4 V and 1 mΩ of the diode, 7.9 m
  // of 25 mm² (0.84 mΩ/m hot), ten joints of 0.05 and the fuse 1.67 mΩ: 0.44 + 38.6 A x 8.9 mΩ = 0.78 V.
  'charger-behind-a-diode': {
    bad: [],
    exit: 0,
    numbers: [
      { of: 'drop/dcdc', is: (0.782 / 12) * 100 },
      { of: 'conductor/i2', is: 40.9 },
      { of: 'conductor/i3', is: 40.9 },
      { of: 'nuisance/brk', is: 40.9 / 0.8 },
      { of: 'rating-window/brk', line: 'Least rating', is: 40.9 / 0.8 },
    ],
  },
  // 0.5 V and 1 mΩ of the diode; 3 m of 4 mm² hot (5.3 mΩ/m), fuses 10 and 1.7, joints and leads 0.9 mΩ: 5 A x 28.5 mΩ = 0.142 V.
  // The cable alone would be 1.2 %.
  'radio-behind-a-diode': {
    bad: ['fault drop/radio'],
    exit: 1,
    numbers: [
      { of: 'drop/radio', is: ((0.505 + 0.142) / 12) * 100 },
      { of: 'drain/bank', line: 'drawn while parked', is: 5 },
    ],
    about: [['drain/bank', 'radio']],
    says: [['drop/radio', /0\.5\d.V of it in d:/u]],
    remedies: [['drop/radio', [/transistors/u]]],
  },
  // 6 x 10 A for half a second are four times 15 A, before the diode as behind it: 0.08 s at 3.5 and 0.03 s at 6 times, on a
  // straight line of logarithms 0.0627 s at 4.
  'pump-behind-a-diode': {
    bad: ['fault nuisance/pf', 'fault nuisance/qf'],
    exit: 1,
    numbers: [
      { of: 'nuisance/pf', line: 'Inrush of pump', is: 60 },
      { of: 'nuisance/pf', line: 'Fast edge', is: 0.0627 },
      { of: 'nuisance/qf', line: 'Inrush of pump', is: 60 },
    ],
  },
  // A lead of 20 cm between a breaker and the stud behind it is fed by the breaker: it is no tap of the stud.
  'tap-with-own-fuse': { bad: [], exit: 0 },
  // Held from the house at 14.5 V: 14.5 / (40 + 0.1) Ω into the sleeping wire. The unit stays on: 469 W at 12.8 V behind 11 mΩ
  // take 37.9 A, and 20 Ah last 32 min.
  'relay-holds-itself': {
    bad: [
      'danger back-feed/d-plus',
      'danger drain/vb',
      'fault enable/charges-only-while-the-engine-runs/dcdc',
      'fault nuisance/ef',
    ],
    exit: 1,
    numbers: [
      { of: 'back-feed/d-plus', is: 14.5 / 40.1 },
      { of: 'drain/vb', is: (20 / 37.9) * 3600 },
    ],
  },
  'terminal-of-thirty': {
    bad: ['danger supply-point-limit/body-plus'],
    exit: 1,
    says: [['supply-point-limit/body-plus', /ready to drive; 30\.0.A may be/u]],
  },
  // 20 A x 28.8 V / 0.9 = 640 W; 12.0 V x 0.3 V / 640 W = 5.6 mΩ. 5.65 m of 25 mm² (0.84 mΩ/m hot), breaker 1.3, six joints 0.3 =
  // 6.35 mΩ: hunts from 12.30 to 12.0 + 640 x 0.00635 / 12.0 = 12.34 V; on for 3 of 18 s: 3.33 A. Each block gets half of 28.8 V.
  'series-bank-at-cruise': {
    bad: ['fault hunting/dcdc'],
    exit: 1,
    numbers: [
      { of: 'hunting/dcdc', line: 'largest loop', is: 5.63e-3 },
      { of: 'hunting/dcdc', line: 'mean output', is: 20 / 6 },
      { of: 'charge-volts/h1', is: 14.4 },
      { of: 'charge-volts/h2', is: 14.4 },
    ],
    says: [
      ['hunting/dcdc', /from 12\.30.V to 12\.34.V/u],
      ['charge-volts/h1', /28\.80.V \(absorption\), which is 14\.40.V at each of 2 in series/u],
    ],
  },
  // 3 mΩ of cells, 60 cm of 70 mm² (0.272), six joints 0.3 and the fuse 0.8: 4.26 mΩ; 4.7 m: 5.38 mΩ. 110 A x 5.38 / 9.64 = 61.4 A.
  // a2 is protected by fa as seen from its bank and by fb as seen from the bar: its 20 cm to fa decide nothing.
  'banks-side-by-side': {
    bad: [],
    exit: 0,
    numbers: [
      { of: 'conductor/a1', is: 61.4 },
      { of: 'conductor/b2', is: 110 - 61.4 },
    ],
    says: [['protected/a2/bar', /protected upstream \(f[ab]\)/u]],
  },
  // 170 A x sqrt(25 / 75) in air of 80 °C x 0.6 for four loaded conductors = 58.9 A behind 60 A; 40.9 A / 0.8 = 51.1 A: no rating
  // lies between. With both on either return carries what its charger takes, 491 W / 12.0 V; the other's share of it
  // flows there only while its own charger is off.
  'two-feeds-in-a-hot-tunnel': {
    bad: ['danger rating/p2', 'danger rating/q2', 'fault rating-window/brk', 'fault rating-window/brk2'],
    exit: 1,
    numbers: [
      { of: 'rating/p2', line: 'Ampacity of p2', is: 49 * Math.sqrt(25 / 50) * 0.6 },
      { of: 'conductor/n1', is: 40.9 },
      { of: 'conductor/q3', is: 40.9 },
    ],
    says: [['rating/p2', /may carry only 58\.9.A/u]],
  },
  // 30 A x 14.4 V / 0.88 = 491 W; 24.0 V x 0.6 V / 491 W = 29.3 mΩ; 491 W / 24.0 V / 0.8 = 25.6 A of 30.
  'lorry-charges-twelve-volts': {
    bad: [],
    exit: 0,
    numbers: [
      { of: 'hunting/dcdc', line: 'largest loop', is: 29.3e-3 },
      { of: 'nuisance/brk', is: 25.6 },
    ],
  },
  // (20 A x 28.8 V + 20 A x 14.4 V) / 0.9 / 24.0 V = 40.0 A; the 12 V bank stands at 14.4 V while both work, not at 28.8 V.
  'lorry-with-two-banks': {
    bad: [],
    exit: 0,
    numbers: [
      { of: 'nuisance/brk', is: 40 / 0.8 },
      { of: 'charge-volts/cb', is: 14.4 },
      { of: 'conductor/l2', is: 4 },
    ],
  },
  // 60 A x 14.4 V / 0.88 = 982 W; 18 m x 1.91 + 1.5 + 0.3 = 36.2 mΩ at 20 °C; hunts from 26.6 to 25.6 + 982 x 0.0362 / 25.6 = 26.99 V,
  // at no voltage with 25.6 x 1.0 / 982 = 26.1 mΩ. 3 of 18 s: 10 A.
  'lorry-hunts': {
    bad: ['fault hunting/dcdc'],
    exit: 1,
    numbers: [
      { of: 'hunting/dcdc', line: 'loop resistance', is: 36.2e-3 },
      { of: 'hunting/dcdc', line: 'largest loop', is: 26.1e-3 },
      { of: 'hunting/dcdc', line: 'mean output', is: 10 },
    ],
    says: [['hunting/dcdc', /from 26\.60.V to 26\.99.V/u]],
  },
  // 491 W at 12.1 V: 40.4 A, and 20 Ah last 29.7 min. Only one throw of the switch feeds e2 at a time: 3 A, not 2 + 3 A.
  'override-past-the-engine': {
    bad: [
      'danger drain/vb',
      'fault enable/charges-only-while-the-engine-runs/dcdc',
      'fault enable/the-owner-can-stop-charging/dcdc',
    ],
    exit: 1,
    numbers: [
      { of: 'drain/vb', is: (20 / 40.4) * 3600 },
      { of: 'rating/e2', is: 3 },
    ],
  },
  // 35 + 10 + 25 + 0.1 (10 V and more over 100 kΩ) and 80 Ah x 3 % / 720 h = 3.3: 73.5 mA; 20 Ah last 272 h.
  'parked-three-weeks': {
    bad: ['danger drain/vb'],
    exit: 1,
    numbers: [{ of: 'drain/vb', is: 272 * 3600 }],
  },
  // 13.38 V over 100 + 30 Ω: 0.103 A and 3.08 V; with the switch open the lamp is enough of a signal: 13.2 V x 10 / 10.1.
  'lamp-into-a-sleeping-rail': {
    bad: [
      'danger back-feed/run',
      'danger drain/vb',
      'fault drop/led',
      'fault enable/charges-only-while-the-engine-runs/dcdc',
      'fault enable/the-owner-can-stop-charging/dcdc',
      'fault return-medium/led',
    ],
    exit: 1,
    numbers: [{ of: 'back-feed/run', is: 0.103 }],
    says: [['back-feed/run', /3\.08.V on it/u]],
  },
  // 60 A part behind the heater: lug and spread 0.8, bond 50 cm x 4.95 at 107 °C (1.5 times its 23 A) 3.33, joints 0.1 = 4.23 mΩ; or
  // lug and spread 0.8, earth 0.28, n1 3.4, the charger's negative 1.0, m1 0.44 = 5.92 mΩ: 60 x 5.92 / 10.15 = 35 A of 30.3 A.
  'bond-too-thin': {
    bad: ['danger conductor/bond'],
    exit: 1,
    numbers: [
      { of: 'conductor/bond', is: 35 },
      { of: 'conductor/bond', line: 'Ampacity of bond', is: 23 },
    ],
  },
  // Full 12.8 V less 40 A x (4 + 8.4 m x 1.91 + fuse 1.7 ...) = 24 mΩ is 11.8 V and less: it opens after 2 s, sees 12.8 V, closes after 10 s.
  'guard-behind-a-thin-wire': {
    bad: ['fault chatter/lvd'],
    exit: 1,
    says: [['chatter/lvd', /without end.*every 12.s/u]],
  },
  // Half full 13.24 V over 12 m x 7.98 x 1.1965 (70 °C), contact 5, cells 2.4, fuse and joints 1.4 mΩ: 123 mΩ, 108 A: 1.08 times 100 A.
  'thin-branch-at-the-main-fuse': {
    bad: ['danger clearing/t2', 'danger rating/t2'],
    exit: 1,
    numbers: [
      { of: 'clearing/t2', line: 'Governing', is: 108 },
      { of: 'rating/t2', is: 100 },
    ],
    says: [['clearing/t2', /nothing ever clears it/u]],
  },
  'relay-to-lithium': {
    bad: ['danger charge-sum/hb'],
    exit: 1,
    numbers: [{ of: 'charge-sum/hb', is: 150 }],
  },
  // 100 mΩ of the vehicle, 4.35 m and 3.9 m of 25 mm², breaker 1.5: 109 mΩ; 14.0² / (4 x 491) = 99.8 mΩ is the most that carries 491 W.
  'terminal-behind-thin-wiring': {
    bad: ['fault hunting/dcdc'],
    exit: 1,
    numbers: [{ of: 'hunting/dcdc', line: 'loop resistance', is: 108.7e-3 }],
    says: [['hunting/dcdc', /no operating point at full output/u]],
  },
  // 28.15 m of 16 mm² (1.21, hot 1.31), breaker 1.5, joints 0.3 = 38.6 mΩ: (13.5 + sqrt(13.5² - 4 x 491 x 0.0386)) / 2 = 11.9 V, under the
  // 12.0 V at which it would stop by its own terminals. It looks at the posts, 13.5 V.
  'senses-at-the-posts': {
    bad: [],
    exit: 0,
    numbers: [{ of: 'nuisance/brk', is: 491 / 11.9 / 0.8 }],
  },
  // 20 A from the body past the shunt: 100 Ah last 5 h of it.
  'bond-past-the-shunt': {
    bad: ['fault shunt-share/sh'],
    exit: 1,
    numbers: [{ of: 'shunt-share/sh', line: 'error over', is: 100 }],
    says: [['shunt-share/sh', /goes round it through bond\. 100.Ah wrong in 5.h/u]],
    remedies: [['shunt-share/sh', [/the end of bond to the system side of sh/u]]],
  },
  'bank-negative-forgotten': {
    bad: ['fault connected/dcdc', 'fault enable/charges/dcdc'],
    exit: 1,
    says: [['connected/dcdc', /no conductor leads from hb\.- back to dcdc\.out-/u]],
  },
};

describe('builds brought to a workshop', () => {
  judgedAs(new URL('workshop/', import.meta.url), cases);
});
