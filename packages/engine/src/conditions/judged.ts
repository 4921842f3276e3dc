/** Hand positions, the judged set and the names of conditions. */
import type { Condition, CornerId, Id, StateFacts, StateId } from '../contracts/index.ts';
import { CORNERS, shoreIn, sunIn } from './corners.ts';

export type Hands = Readonly<Record<Id, boolean>>;

/** Up to this many owner's switches every combination is judged. */
const ALL_COMBINATIONS = 5;

/**
 * Combinations of the owner's switches (`normal`: position of each when untouched): all of them up to five switches; above,
 * normal, each one changed, all off, all on.
 */
export function handSets(normal: ReadonlyMap<Id, boolean>): readonly Hands[] {
  const names = [...normal.keys()].toSorted();
  if (names.length <= ALL_COMBINATIONS) return everyCombination(names);
  const base = Object.fromEntries(names.map((n) => [n, normal.get(n) ?? true]));
  const sets = [
    base,
    ...names.map((n) => ({ ...base, [n]: !base[n] })),
    Object.fromEntries(names.map((n) => [n, false])),
    Object.fromEntries(names.map((n) => [n, true])),
  ];
  return distinct(sets);
}

function everyCombination(names: readonly Id[]): readonly Hands[] {
  const sets: Hands[] = [];
  for (let bits = 0; bits < 2 ** names.length; bits++) {
    // The first combination is "all closed", so that the charging case comes first in every list.
    sets.push(Object.fromEntries(names.map((n, i) => [n, ((bits >> i) & 1) === 0])));
  }
  return sets;
}

function distinct(sets: readonly Hands[]): readonly Hands[] {
  const seen = new Set<string>();
  return sets.filter((s) => {
    const key = handsText(s);
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** `charge-switch=on,lamp-switch=off`, in name order; on = contact closed. */
export function handsText(hands: Hands): string {
  let text = texts.get(hands);
  if (text === undefined) {
    text = textOf(hands);
    texts.set(hands, text);
  }
  return text;
}

/** Hands are never written to. */
const texts = new WeakMap<Hands, string>();

function textOf(hands: Hands): string {
  return Object.keys(hands)
    .toSorted()
    .map((n) => `${n}=${hands[n] === true ? 'on' : 'off'}`)
    .join(',');
}

/** The condition's stable, order-free id: `driving/charge-switch=on/typical-quiet/open=feed-fuse`. */
export function conditionId(c: Condition): string {
  const hands = handsText(c.hands);
  return [
    c.state,
    ...(hands === '' ? [] : [hands]),
    c.corner,
    ...(c.open === null ? [] : [`open=${c.open}`]),
    ...(c.unknownLive ? ['unknown=live'] : []),
    ...(c.setPoint === null ? [] : [`posts=${c.setPoint.toFixed(3)}V`]),
  ].join('/');
}

export function makeCondition(
  state: StateId,
  corner: CornerId,
  hands: Hands,
  open: Id | null = null,
): Condition {
  return {
    state,
    hands,
    corner,
    shore: shoreIn(state, corner),
    sun: sunIn(corner),
    open,
    unknownLive: false,
    setPoint: null,
  };
}

/** Where each protective device and isolator is opened alone. */
const OPENED_IN: readonly StateId[] = ['ignition-on', 'idling', 'ready', 'driving'];

/**
 * The judged set: each state x each hand set x six corners; then each openable device alone, hands normal, typical and
 * quiet, in ignition on, idling (or ready) and driving. A state in which a supply point is neither live nor dead is listed
 * twice, once each way.
 */
export function judgedSet(
  states: readonly StateFacts[],
  hands: readonly Hands[],
  normal: Hands,
  openable: readonly Id[],
  unknownIn: ReadonlySet<StateId>,
): readonly Condition[] {
  const list: Condition[] = [];
  const add = (c: Condition): void => {
    list.push(c);
    if (unknownIn.has(c.state)) list.push({ ...c, unknownLive: true });
  };
  for (const state of states) {
    for (const h of hands) for (const corner of CORNERS) add(makeCondition(state.id, corner.id, h));
  }
  for (const state of states.filter((s) => OPENED_IN.includes(s.id))) {
    for (const device of openable) add(makeCondition(state.id, 'typical-quiet', normal, device));
  }
  return list;
}
