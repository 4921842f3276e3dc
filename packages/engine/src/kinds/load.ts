/** A consumer: constant current, constant power or a resistance. */
import type {
  Basis,
  Consumes,
  ElementOf,
  FieldTable,
  Kind,
  StateId,
  Surroundings,
  SymbolData,
  ValueReader,
} from '../contracts/index.ts';
import { intoBody, jointField } from './chassis-point.ts';
import { CUT_OUT_WIDTH, constantCurrent, resistor, standbyElement } from './circuit.ts';
import { standbyOf, statedRating } from './common.ts';
import { asGiven, derived, isStated, textOf } from './figures.ts';
import {
  anyOf,
  choice,
  choiceShape,
  field,
  flag,
  listShape,
  quantity,
  quantityShape,
  stateShape,
  systemField,
  text,
} from './shapes.ts';
import { consumerGlyph, heaterGlyph, lampGlyph, machineGlyph, plate } from './symbols.ts';

/** Below this share of its nominal voltage a load of constant power goes on as a resistance (memory). */
const POWER_KNEE = 0.5;

const fields: FieldTable = {
  system: systemField(),
  current: quantity('current', 'Its current, A (a load of constant current).', { wanted: true, slack: 'up' }),
  power: quantity('power', 'Its power, W (a load of constant power).', { wanted: true, slack: 'up' }),
  resistance: quantity('resistance', 'Its resistance, Ω (a load of constant resistance).', {
    wanted: true,
    slack: 'down',
  }),
  'cut-out': quantity('voltage', 'Voltage at its terminals below which it switches itself off, V.'),
  'at-least': quantity('voltage', 'Voltage that it needs at its terminals, V.'),
  inrush: field(
    anyOf(
      'a factor such as x6, or `lamp`, or `motor`',
      choiceShape('lamp', 'motor'),
      quantityShape('factor', { min: 1 }),
    ),
    'Inrush as a multiple of its current: x1 when not given, `lamp` x10, `motor` x6.',
  ),
  class: choice(['critical', 'other'], 'Whether a drop of 3 % (critical) or 10 % (other) is allowed.', {
    fallback: () => 'other',
  }),
  on: field(
    anyOf(
      '`always`, `schedule`, or a list of states',
      choiceShape('always', 'schedule'),
      listShape(stateShape),
    ),
    'When it is on: always, by people (schedule), or in the listed states.',
  ),
  return: choice(['wire', 'chassis'], 'How it returns: by a wire at its - terminal, or through the body.', {
    fallback: () => 'wire',
  }),
  section: text('Name of the body section that it returns through.'),
  joint: jointField,
  sparks: flag('Whether it sparks when it works.', false),
};

type Form = 'current' | 'power' | 'resistance';

const formOf = (read: ValueReader): Form => {
  if (read.raw('power') !== null) return 'power';
  return read.raw('resistance') !== null ? 'resistance' : 'current';
};

const byChassis = (read: ValueReader): boolean => read.choice('return') === 'chassis';

type Schedule = Consumes['schedule'];

const scheduleOf = (read: ValueReader): Schedule => {
  const raw = read.raw('on');
  if (Array.isArray(raw)) return raw as readonly StateId[];
  return raw === 'schedule' ? 'schedule' : 'always';
};

/** Busy: everything that may be on in this state; quiet: only what is always on; in a fault nothing. */
function isOn(at: Surroundings): boolean {
  if (at.mode !== 'service' || at.opened || !at.closed) return false;
  const schedule = scheduleOf(at.read);
  if (schedule === 'always') return true;
  if (!at.corner.busy) return false;
  return schedule === 'schedule' || schedule.includes(at.state.id);
}

const cutOutOf = (read: ValueReader): number | null => read.quantity('cut-out')?.sourced.value ?? null;

/** The load itself between + and `minus`. */
function consumer(at: Surroundings, minus: string): ElementOf<string> {
  const { read } = at;
  const on = isOn(at);
  const cutOut = cutOutOf(read);
  const form = formOf(read);
  if (form === 'current') {
    return constantCurrent('+', minus, on ? read.number('current', 0) : 0, cutOut);
  }
  if (form === 'power') {
    // Below its cut-out a load of constant power goes on as a falling resistance: it is never off altogether.
    const knee = cutOut ?? POWER_KNEE * read.about.nominal;
    const watts = on ? read.number('power', 0) : 0;
    return { type: 'power', a: '+', b: minus, watts, knee, limit: Infinity };
  }
  const ohms = on ? read.number('resistance', Infinity) : Infinity;
  return cutOut === null ? resistor('+', minus, ohms) : resistanceAbove('+', minus, ohms, cutOut);
}

/** A resistance that is off below a voltage. */
const resistanceAbove = (a: string, b: string, ohms: number, volts: number): ElementOf<string> => ({
  type: 'pieces',
  a,
  b,
  points: [
    [volts - CUT_OUT_WIDTH, 0],
    [volts, volts / ohms],
  ],
  below: 0,
  above: 1 / ohms,
});

/** Current at nominal volts, A. */
function ratedAmps(read: ValueReader): Basis | null {
  const form = formOf(read);
  const stated = read.quantity(form);
  if (stated === null || form === 'current') return stated;
  const { nominal } = read.about;
  const value = form === 'power' ? stated.sourced.value / nominal : nominal / stated.sourced.value;
  return derived('amps', 'current at nominal volts', value, 'A', [stated]);
}

/** Inrush multiple, how long it lasts (s, memory) and what that makes of the load for a contact. */
function inrushOf(read: ValueReader): Pick<Consumes, 'inrush' | 'inrushSeconds' | 'character'> {
  const raw = read.raw('inrush');
  if (raw === 'lamp') return { inrush: 10, inrushSeconds: 0.1, character: 'lamp' };
  if (raw === 'motor') return { inrush: 6, inrushSeconds: 0.5, character: 'inductive' };
  const factor = asGiven(raw);
  const inrush = isStated(factor) ? (factor.band?.[1] ?? factor.value) : 1;
  return { inrush, inrushSeconds: inrush > 1 ? 0.5 : 0, character: 'resistive' };
}

const GLYPHS = {
  lamp: { glyph: lampGlyph },
  inductive: { glyph: machineGlyph('M'), letter: 'M' },
  resistive: { glyph: consumerGlyph },
} as const;

/** By its inrush a lamp or a machine; a stated resistance is a heater; anything else a plain consumer. */
function drawn(read: ValueReader): SymbolData {
  const form = formOf(read);
  const { character } = inrushOf(read);
  const look =
    form === 'resistance' && character === 'resistive' ? { glyph: heaterGlyph } : GLYPHS[character];
  return {
    shape: 'round',
    terminals: byChassis(read) ? ['+'] : ['+', '-'],
    ...look,
    plate: plate(read, form),
  };
}

export const load: Kind = {
  name: 'load',
  title: 'load',
  letter: 'E',
  fields,
  terminals: (read) => ({ type: 'named', names: byChassis(read) ? ['+'] : ['+', '-'] }),
  abilities: (read) => {
    const chassis = byChassis(read);
    const section = textOf(read, 'section');
    const ohms = chassis ? read.quantity('joint') : null;
    return {
      consumes: {
        plus: '+',
        minus: chassis ? null : '-',
        section: chassis ? section : null,
        class: read.choice('class') === 'critical' ? 'critical' : 'other',
        ...inrushOf(read),
        schedule: scheduleOf(read),
        atLeast: read.quantity('at-least'),
        amps: ratedAmps(read),
        ofVehicle: false,
      },
      joints: ohms === null ? [] : [{ element: 1, label: 'joint of the load to the body', ohms }],
      sparks: read.flag('sparks') === true || inrushOf(read).character === 'inductive',
      across: chassis ? [] : [['+', '-']],
      dcRating: statedRating(read),
      ...(chassis ? {} : standbyOf(read, '+', '-')),
    };
  },
  symbol: drawn,
  elements: (at) => {
    const chassis = byChassis(at.read);
    const minus = chassis ? '.return' : '-';
    const body = chassis
      ? intoBody(at, '.return', textOf(at.read, 'section'), at.read.quantity('joint'))
      : [];
    return [consumer(at, minus), ...body, ...standbyElement(at, '+', minus)];
  },
  example: `loomwright: 1
title: A pump and a refrigerator
practice: europe
systems: { house: 12 V }
places:
  locker: { label: Rear locker, hottest: 45 °C }
parts:
  house-battery: { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 100 Ah }
  fridge-fuse: { kind: fuse, at: locker, family: blade-f, rating: 15 A }
  fridge: { kind: load, at: locker, power: 60 W, cut-out: 10.4 V, at-least: 11 V, inrush: motor, class: critical, on: schedule }
wires:
  feed: { from: house-battery.+, to: fridge-fuse.line, size: 2.5 mm2, insulation: pvc-105, length: 10 cm }
  fridge-feed: { from: fridge-fuse.load, to: fridge.+, size: 2.5 mm2, insulation: pvc-105, length: 2 m }
  fridge-return: { from: fridge.-, to: house-battery.-, size: 2.5 mm2, insulation: pvc-105, length: 2 m }
`,
};
