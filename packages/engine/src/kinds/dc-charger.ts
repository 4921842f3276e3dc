/** A dc charger between two batteries: a converter with an input that starts and stops by volts and signal. */
import type {
  Converts,
  ElementOf,
  Kind,
  Memory,
  MemoryRule,
  Probe,
  Surroundings,
  ValueReader,
} from '../contracts/index.ts';
import { TURNED_V } from '../devices/turned.ts';
import {
  delayMs,
  efficiency,
  floatVolts,
  computedInput,
  greatestInput,
  greatestOutput,
  greatestPower,
  heatShare,
  inputLimit,
  lowInput,
  modeOf,
  printedBy,
  setVolts,
  solvedCurrent,
  solvedMode,
  threshold,
  type Mode,
} from './charger-model.ts';
import { chargerFields as fields } from './charger-fields.ts';
import { contact, resistor } from './circuit.ts';
import { standbyOf, statedRating } from './common.ts';
import { member, textOf } from './figures.ts';
import type { Sampling } from '../quantity/index.ts';
import { converterGlyph, plateOr } from './symbols.ts';

const OFF = 0;
const ON = 1;

/** A signal that goes, or an input below the minimum, stops it after this, ms. */
const AT_ONCE_MS = 100;

/** An input that is off still loads its terminals, Ω (memory: bleeder of its capacitors). */
const IDLE_OHMS = 100_000;

/** Input negative to output negative inside a unit of common negative, Ω. */
const COMMON_OHMS = 0.001;

type Pair = readonly [plus: string, minus: string];

/** Where it compares its input: at the sense terminals where they belong to the input and are wired. */
const inputPair = (at: Surroundings): Pair =>
  at.read.choice('sense') === 'input' && at.wired('sense+')
    ? ['sense+', sense(at, '-', 'in-')]
    : ['in+', 'in-'];

/** Where it regulates its output. */
const outputPair = (at: Surroundings): Pair => {
  const senses = at.read.choice('sense') === 'output' && at.wired('sense+');
  return senses ? ['sense+', sense(at, '-', 'out-')] : ['out+', 'out-'];
};

const sense = (at: Surroundings, sign: '+' | '-', otherwise: string): string =>
  at.wired(`sense${sign}`) ? `sense${sign}` : otherwise;

const wantsSignal = (mode: Mode): boolean => mode !== 'voltage';

/** With a battery on it the wrong way round a unit does not start, if it lives: no power can be worked out for it. */
const turned = (see: Probe): boolean => see.volts('out+', 'out-') < TURNED_V;

/** Rules of the unit: on after its delay, off after its own, off at once without signal or below the minimum. */
function remembers(at: Surroundings): Memory {
  const { read } = at;
  const mode = solvedMode(read, at.wired('enable'));
  const starts = threshold(read, 'starts', mode).sourced.value;
  const stops = threshold(read, 'stops', mode).sourced.value;
  const minimum = read.number('minimum', 10.5);
  const on = read.number('enable-on', 8);
  const [plus, minus] = inputPair(at);
  const input = (see: Probe): number => see.volts(plus, minus);
  const signalled = (see: Probe): boolean => !wantsSignal(mode) || see.volts('enable', 'enable-') > on;
  const lost: readonly MemoryRule[] = wantsSignal(mode)
    ? [{ from: ON, to: OFF, delayMs: AT_ONCE_MS, says: 'signal gone', when: (see) => !signalled(see) }]
    : [];
  return {
    values: ['off', 'on'],
    start: OFF,
    on: [ON],
    rules: [
      {
        from: OFF,
        to: ON,
        delayMs: delayMs(read, 'starts', mode),
        says: `input at or over ${starts} V${wantsSignal(mode) ? ' with signal' : ''}`,
        when: (see) =>
          input(see) >= starts && see.volts('in+', 'in-') >= minimum && signalled(see) && !turned(see),
      },
      {
        from: ON,
        to: OFF,
        delayMs: delayMs(read, 'stops', mode),
        says: `input under ${stops} V`,
        when: (see) => input(see) < stops,
      },
      {
        from: ON,
        to: OFF,
        delayMs: AT_ONCE_MS,
        says: `input under its minimum of ${minimum} V`,
        when: (see) => see.volts('in+', 'in-') < minimum,
      },
      ...lost,
      {
        from: ON,
        to: OFF,
        delayMs: AT_ONCE_MS,
        says: 'output the wrong way round',
        when: turned,
      },
    ],
  };
}

/** Far above any drop of an output lead, as a factor on the set voltage. */
const DEMAND_HEADROOM = 1.25;

function converter(at: Surroundings): ElementOf<string> {
  const { read } = at;
  const current = solvedCurrent(read);
  const rated = at.corner.ratedOutput;
  const [senseA, senseB] = outputPair(at);
  return {
    type: 'converter',
    inA: 'in+',
    inB: 'in-',
    outA: 'out+',
    outB: 'out-',
    senseA,
    senseB,
    on: at.mode === 'service' && !at.opened && at.memory === ON,
    idleOhms: IDLE_OHMS,
    standbyAmps: read.number('standby', 0),
    // Asked for its greatest power it must not stop at its set voltage: the bank stands there, and the output lead drops more.
    volts: setVolts(read).sourced.value * (rated ? DEMAND_HEADROOM : 1),
    current: current.sourced.value * (rated ? 1 : heatShare(read, at.air)),
    efficiency: efficiency(read).points,
    ratedCurrent: current.sourced.value,
    inputLimit: inputLimit(read, current),
    lowest: read.number('minimum', 10.5),
    lowInput: lowInput(read).rule,
    demand: rated ? greatestPower(read, current).sourced.value : null,
  };
}

/** In a fault at its greatest the output gives its current whatever the input is; in service this gives nothing. */
function faultSource(at: Surroundings): ElementOf<string> {
  const gives = at.mode === 'fault-greatest' && !at.opened;
  return {
    type: 'hold',
    a: 'out+',
    b: 'out-',
    senseA: 'out+',
    senseB: 'out-',
    volts: setVolts(at.read).sourced.value,
    least: 0,
    greatest: gives ? solvedCurrent(at.read).sourced.value : 0,
  };
}

function converts(read: ValueReader): Converts {
  const mode = modeOf(read);
  const solved = mode ?? 'voltage';
  const current = read.quantity('current');
  const low = lowInput(read);
  const negative = read.choice('negative');
  const most = read.quantity('enable-max');
  const on = read.quantity('enable-on');
  const minimum = read.quantity('minimum');
  if (minimum === null) throw new Error('the minimum has a default');
  const cable = member(read.raw('maker'), 'cable');
  return {
    inPlus: 'in+',
    inMinus: 'in-',
    outPlus: 'out+',
    outMinus: 'out-',
    sensePlus: 'sense+',
    senseMinus: 'sense-',
    enable: most === null || on === null ? null : { plus: 'enable', minus: 'enable-', most, on },
    mode,
    current,
    setVolts: setVolts(read),
    floatVolts: floatVolts(read),
    efficiency: efficiency(read).full,
    greatestPower: current === null ? null : greatestPower(read, current),
    starts: threshold(read, 'starts', solved),
    stops: threshold(read, 'stops', solved),
    startDelayMs: delayMs(read, 'starts', solved),
    stopDelayMs: delayMs(read, 'stops', solved),
    minimum,
    inputLimit: read.quantity('input-limit'),
    lowInput: low.rule.type === 'none' ? 'stops' : low.rule.type,
    lowVolts: low.volts,
    greatestInput: current === null ? null : greatestInput(read, current, solved),
    greatestOutput: current === null ? null : greatestOutput(read, current),
    negative: negative === 'common' || negative === 'isolated' ? negative : null,
    twoWay: read.flag('two-way') === true,
    inputSystem: textOf(read, 'input-system'),
    outputSystem: textOf(read, 'output-system'),
    computedInput: current === null ? null : computedInput(read, current, solved),
    maker: {
      fuse: printedBy(read, 'fuse'),
      cable: typeof cable === 'string' ? cable : null,
      input: printedBy(read, 'input'),
    },
    charging: [ON],
    derates: deratesOf(read),
    samples: samplesOf(read),
  };
}

function deratesOf(read: ValueReader): NonNullable<Converts['derates']> | null {
  const from = read.quantity('derates');
  return from === null ? null : { from, share: (airC) => heatShare(read, airC) };
}

function samplesOf(read: ValueReader): NonNullable<Converts['samples']> | null {
  const raw = read.raw('samples') as Sampling | 'unknown' | null;
  return typeof raw === 'object' && raw !== null ? { pause: raw.pause.value, every: raw.every.value } : null;
}

export const dcCharger: Kind = {
  name: 'dc-charger',
  title: 'dc charger',
  letter: 'T',
  fields,
  terminals: () => ({
    type: 'named',
    names: ['in+', 'in-', 'out+', 'out-', 'enable', 'enable-', 'sense+', 'sense-'],
  }),
  unwired: { 'enable-': 'in-', 'sense+': 'out+', 'sense-': 'out-' },
  contradictions: (read) => {
    const low = lowInput(read);
    const mode = modeOf(read) ?? 'voltage';
    const stops = threshold(read, 'stops', mode).sourced.value;
    const starts = threshold(read, 'starts', mode).sourced.value;
    const [set, float] = [setVolts(read).sourced.value, floatVolts(read)?.sourced.value ?? 0];
    return [
      ...(low.rule.type === 'holds' && read.given('stops') && stops >= low.rule.volts
        ? [
            {
              field: 'stops',
              message: `it stops at ${stops} V, at or above the ${low.rule.volts} V that it holds: one of the two never happens`,
            },
          ]
        : []),
      ...(read.given('starts') && read.given('stops') && stops > starts
        ? [
            {
              field: 'stops',
              message: `it stops at ${stops} V, above the ${starts} V at which it starts: it would stop as soon as it has started`,
            },
          ]
        : []),
      ...(float > set
        ? [
            {
              field: 'voltage',
              message: `its float voltage of ${float} V lies above its absorption voltage of ${set} V: are they the wrong way round?`,
            },
          ]
        : []),
    ];
  },
  abilities: (read) => ({
    converts: converts(read),
    across: [
      ['in+', 'in-'],
      ['out+', 'out-'],
    ],
    dcRating: statedRating(read),
    ...standbyOf(read, 'in+', 'in-'),
  }),
  symbol: (read) => ({
    shape: 'box',
    terminals: ['in+', 'in-', 'out+', 'out-', 'enable', 'enable-', 'sense+', 'sense-'],
    glyph: converterGlyph,
    plate: plateOr(read, 'A', 'current'),
  }),
  elements: (at) => [
    converter(at),
    contact('in-', 'out-', at.read.choice('negative') !== 'isolated' && !at.opened, COMMON_OHMS),
    resistor('enable', 'enable-', at.opened ? Infinity : at.read.number('enable-resistance', 10_000)),
    faultSource(at),
  ],
  memory: remembers,
  example: `loomwright: 1
title: A charger from the vehicle to a lithium battery
practice: europe
systems: { vehicle: 12 V, house: 12 V }
places:
  bonnet: { label: Under the bonnet, hottest: 80 °C, engine-space: yes }
  locker: { label: Rear locker, hottest: 45 °C, coldest: 5 °C }
routes:
  - { from: bonnet, to: locker, length: 3.5 m, in: conduit }
parts:
  starter-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: flooded, capacity: 80 Ah }
  feed-fuse: { kind: fuse, at: bonnet, family: bolt-down, rating: 60 A, interrupts: 6 kA }
  charger: { kind: dc-charger, at: locker, current: 30 A, enable: voltage, starts: 13.3 V after 15 s, stops: 12.8 V after 5 s, low-input: stops, negative: common }
  house-fuse: { kind: fuse, at: locker, family: class-t, rating: 60 A, interrupts: 20 kA, clearing: 12000 A²s }
  house-battery: { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 200 Ah, charge-limit: 100 A }
wires:
  feed: { from: starter-battery.+, to: feed-fuse.line, size: 25 mm2, insulation: pvc-105, length: 12 cm }
  feed-2: { from: feed-fuse.load, to: charger.in+, size: 25 mm2, insulation: pvc-105, via: [bonnet, locker] }
  return: { from: charger.in-, to: starter-battery.-, size: 25 mm2, insulation: pvc-105, via: [locker, bonnet] }
  out: { from: charger.out+, to: house-fuse.load, size: 16 mm2, insulation: pvc-105, length: 50 cm }
  bank: { from: house-fuse.line, to: house-battery.+, size: 16 mm2, insulation: pvc-105, length: 15 cm }
  out-return: { from: charger.out-, to: house-battery.-, size: 16 mm2, insulation: pvc-105, length: 50 cm }
`,
};
