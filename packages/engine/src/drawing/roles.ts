/** Which terminals of a part feed, take, carry signals or lead back: read from its declared abilities. */
import type { Operation, Placed, TerminalRef } from '../contracts/index.ts';
import { refOf } from '../checks/support/refs.ts';

export interface Roles {
  /** Sources: nearer the beginning of a drawing the smaller. */
  readonly feeds: ReadonlyMap<TerminalRef, number>;
  readonly plus: ReadonlySet<TerminalRef>;
  readonly minus: ReadonlySet<TerminalRef>;
  /** Ends of the wires that switch or tell something. */
  readonly signals: ReadonlySet<TerminalRef>;
}

/** A battery is drawn behind what charges it. */
const STORE = 0.5;
/** A supply point that may give more than this feeds loads, not signals, A (our own line). */
const SIGNAL_AMPS = 5;

export function rolesOf(op: Operation): Roles {
  const feeds = new Map<TerminalRef, number>();
  const plus = new Set<TerminalRef>();
  const minus = new Set<TerminalRef>();
  const signals = new Set<TerminalRef>();
  for (const part of op.parts.values()) {
    const ref = (terminal: string): TerminalRef => refOf(part.id, terminal);
    for (const [terminal, at] of feedsOf(part)) feeds.set(ref(terminal), at);
    for (const terminal of plusOf(part)) plus.add(ref(terminal));
    for (const terminal of minusOf(part)) minus.add(ref(terminal));
    for (const terminal of signalsOf(part)) signals.add(ref(terminal));
  }
  return { feeds, plus, minus, signals };
}

type Named = readonly (string | null | undefined)[];

const present = (names: Named): readonly string[] => names.filter((name) => typeof name === 'string');

function feedsOf({ ability }: Placed): readonly (readonly [string, number])[] {
  const { generates, stores, converts, signals } = ability;
  return [
    ...present([generates?.plus, converts?.outPlus, signals?.out]).map((name) => [name, 0] as const),
    ...present([stores?.plus]).map((name) => [name, STORE] as const),
  ];
}

const plusOf = ({ ability: a }: Placed): readonly string[] =>
  present([
    a.stores?.plus,
    a.generates?.plus,
    a.converts?.inPlus,
    a.converts?.outPlus,
    a.consumes?.plus,
    a.signals?.out,
    a.standby?.plus,
  ]);

const minusOf = ({ ability: a }: Placed): readonly string[] =>
  present([
    a.stores?.minus,
    a.generates?.minus,
    a.converts?.inMinus,
    a.converts?.outMinus,
    a.consumes?.minus,
    a.grounds?.terminal,
    a.senses?.chassis,
  ]);

/** Coils, enables and sense leads; a thin supply of a shunt's monitor; a supply point of a few amperes. */
function signalsOf({ ability: a }: Placed): readonly string[] {
  const { converts, switches, signals, standby, measures } = a;
  const most = signals?.limit?.sourced.value ?? null;
  return present([
    switches?.coil?.plus,
    switches?.coil?.minus,
    converts?.enable?.plus,
    converts?.enable?.minus,
    converts?.sensePlus,
    converts?.senseMinus,
    measures === undefined ? null : standby?.plus,
    signals !== undefined && (most === null || most <= SIGNAL_AMPS) ? signals.out : null,
  ]);
}
