/** A terminal of the vehicle that is live in some states: its other pole is the vehicle battery's negative post. */
import type {
  Basis,
  ElementOf,
  FieldTable,
  Kind,
  Signals,
  StateId,
  Surroundings,
  ValueReader,
} from '../contracts/index.ts';
import { STATE_IDS } from '../contracts/index.ts';
import { LEAST_OHMS, contact, linearSource, noCurrent, post } from './circuit.ts';
import { ask, asGiven, isStated, memory, times } from './figures.ts';
import {
  anyOf,
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
import { plate, terminalGlyph } from './symbols.ts';

const stateList = listShape(
  anyOf('a state, or a state with how long such as `{ after-run: 10 min }`', stateShape, {
    shape: 'map',
    keys: STATE_IDS,
    of: quantityShape('time', { min: 0 }),
  }),
);

const fields: FieldTable = {
  system: systemField(),
  live: field(stateList, 'States in which it is live: `[idling, { after-run: 10 min }]`.', {
    wanted: true,
    how: 'load it and read it in each state',
    effort: 'engine',
  }),
  dead: field(
    anyOf('`others`, or a list of states', choiceShape('others'), stateList),
    'States in which it is dead; `others` for all that are not live.',
    { wanted: true, how: 'load it and read it in each state', effort: 'engine' },
  ),
  'when-dead': field(
    anyOf(
      '`open`, or a resistance to the negative',
      choiceShape('open'),
      quantityShape('resistance', { min: 0 }),
    ),
    'What it is when dead: open, or a resistance to the negative (a sleeping rail that back-feed would wake).',
    { effort: 'meter', how: 'measure to the negative with everything asleep' },
  ),
  volts: field(
    anyOf('`posts`, or a voltage', choiceShape('posts'), quantityShape('voltage', { min: 0 })),
    "Its voltage when live: that of the battery's posts, or its own.",
    { slack: 'down' },
  ),
  resistance: quantity('resistance', 'Resistance between the posts and it, Ω.', {
    slack: 'up',
    how: 'load it with a known current and read how far it falls',
    effort: 'engine',
    fallback: () => memory(0.1, 'Ω', "the vehicle's own thin wiring", times(0.1, 0.3, 3)),
  }),
  limit: quantity('current', 'Current that may be drawn from it, A.', {
    wanted: true,
    fallback: (read) =>
      read.flag('self-limiting') === true
        ? memory(0.25, 'A', 'charge-lamp terminal of a self-limiting source', [0.1, 0.5])
        : null,
  }),
  'self-limiting': flag('Whether it gives no more than its limit, as a charge-lamp terminal does.', false),
  terminal: text('Its designation in the vehicle, such as 15 or D+.'),
  'upstream-fuse': quantity('current', "Rating of the vehicle's own fuse before it, A."),
  measured: flag('Whether its states were measured on this vehicle.', false),
  coded: flag('Whether it is a coded signal that only the maker’s own units understand.', false),
};

type Lives = Map<StateId, { readonly forSeconds: number | null }>;

function liveIn(read: ValueReader, name: 'live' | 'dead'): Lives {
  const raw = read.raw(name);
  const found: Lives = new Map();
  for (const entry of Array.isArray(raw) ? (raw as readonly unknown[]) : []) {
    if (typeof entry === 'string') found.set(entry as StateId, { forSeconds: null });
    else if (typeof entry === 'object' && entry !== null) {
      for (const [state, time] of Object.entries(entry)) {
        found.set(state as StateId, { forSeconds: isStated(time) ? time.value : null });
      }
    }
  }
  return found;
}

const deadIn = (read: ValueReader): ReadonlySet<StateId> | 'others' =>
  read.raw('dead') === 'others' ? 'others' : new Set(liveIn(read, 'dead').keys());

/** Live, dead, or in neither list. */
export function supplyIs(read: ValueReader, state: StateId): 'live' | 'dead' | 'unknown' {
  if (liveIn(read, 'live').has(state)) return 'live';
  const dead = deadIn(read);
  return dead === 'others' || dead.has(state) ? 'dead' : 'unknown';
}

/** In a fault at its greatest it counts as live, at its least as dead. */
function isLive(at: Surroundings): boolean {
  if (at.opened || at.mode === 'fault-least') return false;
  if (at.mode === 'fault-greatest') return true;
  const is = supplyIs(at.read, at.state.id);
  return is === 'live' || (is === 'unknown' && at.unknownLive);
}

/**
 * Greatest current that it gives, A: Infinity unless it limits itself. Into a short it lasts no longer than the vehicle's own
 * fuse before it, so there it counts as limited by that rating.
 */
function givesAtMost(at: Surroundings): number {
  const { read } = at;
  const own = read.flag('self-limiting') === true ? read.number('limit', 0.25) : Infinity;
  return at.mode === 'service' ? own : Math.min(own, read.number('upstream-fuse', Infinity));
}

const ownVolts = (read: ValueReader): Basis | null => {
  const given = asGiven(read.raw('volts'));
  return isStated(given) ? read.resolve('volts', given, null, ask('voltage of {part}', 'down')) : null;
};

/** From `a` to `b`: `volts` at no current, behind a resistance; out of the source at most the limit, back into it any current. */
function source(
  a: string,
  b: string,
  live: boolean,
  at: { readonly volts: number; readonly ohms: number; readonly limit: number; readonly gives: 1 | -1 },
): ElementOf<string> {
  if (!live) return noCurrent(a, b, at.volts);
  if (!Number.isFinite(at.limit)) return linearSource(a, b, at.volts, at.ohms);
  const slope = 1 / Math.max(at.ohms, LEAST_OHMS);
  const full = Math.max(at.limit, 1e-9);
  const none: readonly [number, number] = [at.volts, 0];
  const most: readonly [number, number] = [at.volts + (at.gives * full) / slope, at.gives * full];
  return at.gives === 1
    ? { type: 'pieces', a, b, points: [none, most], below: slope, above: 0 }
    : { type: 'pieces', a, b, points: [most, none], below: 0, above: slope };
}

function deadOhms(read: ValueReader): number {
  const given = asGiven(read.raw('when-dead'));
  return isStated(given)
    ? (read.resolve('when-dead', given, null, ask('resistance of {part} when dead'))?.sourced.value ??
        Infinity)
    : Infinity;
}

function signals(read: ValueReader): Signals {
  const measured = read.flag('measured') === true;
  return {
    out: 'out',
    live: liveIn(read, 'live'),
    dead: deadIn(read),
    measured,
    limit: read.quantity('limit'),
    selfLimiting: read.flag('self-limiting') === true,
    upstreamFuse: read.quantity('upstream-fuse'),
    liveBasis: liveBasis(read, measured),
  };
}

/** What the lists rest on: given once measured, else no better than memory. */
function liveBasis(read: ValueReader, measured: boolean): Basis {
  const asked = ask(
    'states in which {part} is live',
    undefined,
    'engine',
    'load it and read it in each state',
  );
  const known = liveIn(read, 'live').size;
  const basis = measured
    ? read.resolve('measured', { value: known, text: 'yes' }, null, asked)
    : read.resolve(
        'measured',
        null,
        memory(known, '', 'the lists as written, not measured on this vehicle'),
        asked,
      );
  if (basis === null) throw new Error('the lists always have a basis');
  return basis;
}

export const supplyPoint: Kind = {
  name: 'supply-point',
  title: "terminal of the vehicle's own wiring",
  letter: 'X',
  home: 'vehicle',
  fields,
  terminals: () => ({ type: 'named', names: ['out'] }),
  abilities: (read) => ({ signals: signals(read) }),
  symbol: (read) => ({
    shape: 'round',
    terminals: ['out'],
    glyph: terminalGlyph,
    plate: plate(read, 'limit'),
  }),
  elements: (at) => {
    const { read } = at;
    const live = isLive(at);
    const own = ownVolts(read);
    const ohms = read.number('resistance', 0.1);
    const limit = givesAtMost(at);
    const feeds =
      own === null
        ? source(post(at, '+'), 'out', live, { volts: 0, ohms, limit, gives: 1 })
        : source('out', post(at, '-'), live, { volts: own.sourced.value, ohms, limit, gives: -1 });
    return [feeds, contact('out', post(at, '-'), !live && !at.opened, deadOhms(read))];
  },
  example: `loomwright: 1
title: A relay coil on a terminal of the vehicle
practice: europe
systems: { vehicle: 12 V }
places:
  footwell: { label: Passenger footwell, hottest: 45 °C }
parts:
  starter-battery: { kind: battery, at: footwell, role: vehicle, chemistry: agm, capacity: 80 Ah }
  run-plug: { kind: supply-point, at: footwell, live: [idling, driving, { after-run: 10 min }], dead: others, measured: yes, limit: 0.25 A, self-limiting: yes }
  run-relay: { kind: relay, at: footwell, coil: 85 Ω, rating: 20 A, suppressed: yes }
wires:
  run: { from: run-plug.out, to: run-relay.86, size: 1 mm2, insulation: pvc-105, length: 20 cm }
  run-return: { from: run-relay.85, to: starter-battery.-, size: 1 mm2, insulation: pvc-105, length: 50 cm }
`,
};
