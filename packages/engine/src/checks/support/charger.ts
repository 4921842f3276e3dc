/** Chargers: parts that convert from one system into another. */
import type {
  Basis,
  Converts,
  Operation,
  Placed,
  Signals,
  Solved,
  StateFacts,
  StateId,
  TerminalRef,
} from '../../contracts/index.ts';
import type { Feed } from './feed.ts';
import { feedOf } from './feed.ts';
import { present } from './judgement.ts';
import { netOf, partOf, reach } from './net.ts';

export interface Charger {
  readonly part: Placed;
  readonly does: Converts;
  readonly inPlus: TerminalRef;
  readonly inMinus: TerminalRef;
  readonly outPlus: TerminalRef;
  readonly outMinus: TerminalRef;
  /** What feeds its input. */
  readonly feed: Feed | null;
}

const CACHE = new WeakMap<Operation, readonly Charger[]>();

export function chargers(op: Operation): readonly Charger[] {
  let list = CACHE.get(op);
  if (list === undefined) {
    list = [...op.parts.values()].flatMap((part) => chargerOf(part, op));
    CACHE.set(op, list);
  }
  return list;
}

function chargerOf(part: Placed, op: Operation): readonly Charger[] {
  const does = part.ability.converts;
  if (does === undefined) return [];
  const inPlus = `${part.id}.${does.inPlus}`;
  const inMinus = `${part.id}.${does.inMinus}`;
  return [
    {
      part,
      does,
      inPlus,
      inMinus,
      outPlus: `${part.id}.${does.outPlus}`,
      outMinus: `${part.id}.${does.outMinus}`,
      feed: feedOf(op, inPlus, inMinus),
    },
  ];
}

/** Chargers that the vehicle's own battery or supply feeds. */
export const vehicleFed = (op: Operation): readonly Charger[] =>
  chargers(op).filter((c) => {
    const { stores, generates } = c.feed?.part.ability ?? {};
    // A battery of which nobody said what it is may be the vehicle's.
    const role = stores === undefined ? undefined : stores.role;
    return role === 'vehicle' || role === null || generates?.role === 'vehicle-supply';
  });

export const chargerById = (op: Operation, id: string): Charger => {
  const found = chargers(op).find((c) => c.part.id === id);
  if (found === undefined) throw new Error(`no charger ${id}`);
  return found;
};

export const inputVolts = (s: Solved, c: Charger): number | null => s.volts(c.inPlus, c.inMinus);

/** Where it compares its input with its thresholds: its input terminals, or where its sense wires end. */
export const comparedAt = (c: Charger, op: Operation): readonly [TerminalRef, TerminalRef] => {
  const [plus, minus] = [`${c.part.id}.${c.does.sensePlus}`, `${c.part.id}.${c.does.senseMinus}`];
  const senses =
    'sense' in c.part.kind.fields && c.part.read.choice('sense') === 'input' && op.wiresAt(plus).length > 0;
  return senses ? [plus, op.wiresAt(minus).length > 0 ? minus : c.inMinus] : [c.inPlus, c.inMinus];
};

/** Whether it holds its output voltage where its sense wires end. */
export const sensesOutput = (c: Charger, op: Operation): boolean =>
  'sense' in c.part.kind.fields &&
  c.part.read.choice('sense') === 'output' &&
  op.wiresAt(`${c.part.id}.${c.does.sensePlus}`).length > 0;

/** Volts where it holds its output: at the ends of its sense wires, else at its own terminals. */
export function heldVolts(s: Solved, c: Charger, op: Operation): number | null {
  if (!sensesOutput(c, op)) return s.volts(c.outPlus, c.outMinus);
  const minus = `${c.part.id}.${c.does.senseMinus}`;
  return s.volts(`${c.part.id}.${c.does.sensePlus}`, op.wiresAt(minus).length > 0 ? minus : c.outMinus);
}

/** Greatest power asked of the input, W: null without a rated current. */
export const greatestPower = (c: Charger): number | null => c.does.greatestPower?.sourced.value ?? null;

/** What thresholds and power rest on. */
export const chargerBases = (c: Charger): readonly Basis[] =>
  present([c.does.current, c.does.setVolts, c.does.efficiency, c.does.starts, c.does.stops, c.does.minimum]);

export const needsSignal = (c: Charger): boolean =>
  c.does.mode === 'signal' || c.does.mode === 'signal-and-voltage';

/** Whether the enable terminal is told to run; true where no signal is asked for. null: nothing can be said. */
export function enabled(s: Solved, c: Charger): boolean | null {
  if (!needsSignal(c)) return true;
  const { enable } = c.does;
  if (enable === null) return null;
  const volts = s.volts(`${c.part.id}.${enable.plus}`, `${c.part.id}.${enable.minus}`);
  return volts !== null && volts >= enable.on.sourced.value;
}

/** Whether it charges at the end, or in a part of every cycle. */
export const charges = (s: Solved, c: Charger): boolean =>
  s.charging(c.part.id) ||
  (s.cycle !== null && (s.cycle.duty.get(c.part.id) ?? 0) > 0 && s.everOn(c.part.id));

/** Below this an output gives nothing, A: a unit that is on with its way out broken. */
const NOTHING = 1e-3;

/** Whether current flows out of it. */
export const gives = (s: Solved, { part }: Charger): boolean => s.outAmps(part.id) > NOTHING;

export type Liveness = 'live' | 'dead' | 'unknown';

/** What the document says of a supply point in a state. */
export function liveness(signals: Signals, state: StateId): Liveness {
  if (signals.live.has(state)) return 'live';
  return signals.dead === 'others' || signals.dead.has(state) ? 'dead' : 'unknown';
}

/** Supply points on which a charger's enable terminal depends: by wire, contact, or the coil that moves the contact. */
export function signalsFor(op: Operation, c: Charger): readonly Placed[] {
  if (c.does.enable === null || !needsSignal(c)) return [];
  const net = netOf(op);
  const points = new Map<string, Placed>();
  const asked = new Set<TerminalRef>();
  const ends = new Set([...op.parts.values()].flatMap(postsOf));
  const ask = (terminal: TerminalRef): void => {
    if (asked.has(terminal)) return;
    asked.add(terminal);
    for (const [node, hops] of reach(net, terminal, (_link, _to, at) => !ends.has(at))) {
      const part = op.parts.get(partOf(node));
      if (part?.ability.signals !== undefined) points.set(part.id, part);
      const link = hops.at(-1)?.link;
      const coil = link?.type === 'contact' ? op.parts.get(link.id)?.ability.switches?.coil : undefined;
      if (link !== undefined && coil !== null && coil !== undefined) {
        ask(`${link.id}.${coil.plus}`);
        ask(`${link.id}.${coil.minus}`);
      }
    }
  };
  ask(`${c.part.id}.${c.does.enable.plus}`);
  return [...points.values()];
}

const postsOf = (part: Placed): readonly TerminalRef[] => {
  const s = part.ability.stores;
  return s === undefined ? [] : [`${part.id}.${s.plus}`, `${part.id}.${s.minus}`];
};

/** States in which the vehicle's supply works ("engine runs"). */
export const runningStates = (op: Operation): readonly StateFacts[] => op.states.filter((s) => s.running);
