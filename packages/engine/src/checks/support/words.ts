/** Short forms for numbers in the sentences and workings of checks. */
import { formatQuantity } from '../../quantity/index.ts';
import type { CornerId, Solved, StateId } from '../../contracts/index.ts';

export const V = (volts: number): string => formatQuantity(volts, 'voltage');
export const A = (amps: number): string => formatQuantity(amps, 'current');
export const W = (watts: number): string => formatQuantity(watts, 'power');
export const ohm = (ohms: number): string => formatQuantity(ohms, 'resistance');
export const Ah = (ampereHours: number): string => formatQuantity(ampereHours, 'charge');
export const degrees = (celsius: number): string => formatQuantity(celsius, 'temperature');
export const percent = (share: number): string => formatQuantity(share, 'share');
export const factor = (value: number): string => formatQuantity(value, 'factor');

/** A time until something unwanted happens: rounded down. */
export const until = (seconds: number): string => formatQuantity(seconds, 'time', { round: 'down' });
export const time = (seconds: number): string => formatQuantity(seconds, 'time');

/** "a", "a and b", "a, b and c"; "a, b and b, and c" where one of them has an "and" of its own. */
export function listed(items: readonly string[]): string {
  if (items.length < 2) return items[0] ?? '';
  const before = items.some((item) => item.includes(' and ')) ? ', and ' : ' and ';
  return `${items.slice(0, -1).join(', ')}${before}${items.at(-1) ?? ''}`;
}

const STATES: Readonly<Record<StateId, string>> = {
  parked: 'parked',
  woken: 'woken',
  'after-run': 'in the after-run',
  'ignition-on': 'with the ignition on and the engine off',
  cranking: 'cranking',
  idling: 'idling',
  driving: 'driving',
  overrun: 'on overrun',
  'automatic-stop': 'in an automatic stop',
  ready: 'ready to drive',
  'plugged-in': 'plugged in',
  stored: 'stored',
};

/** A state as it stands in a sentence: "while idling" without the "while". */
export const inState = (state: StateId): string => STATES[state];

const CORNERS: Readonly<Record<CornerId, string>> = {
  'typical-quiet': 'typical, loads off',
  'typical-busy': 'typical, all loads on',
  weak: 'hot, least source, all loads on',
  strong: 'cold, greatest source, loads off',
  cold: 'cold, least source, all loads on',
  'every-source': 'typical, sun and shore as well',
};

export const cornerWords = (corner: CornerId): string => CORNERS[corner];

/** "hold-switch on, lamp-switch off"; empty without hands. */
export function handWords(hands: Readonly<Record<string, boolean>>): string {
  return Object.keys(hands)
    .toSorted()
    .map((id) => `${id} ${hands[id] === true ? 'on' : 'off'}`)
    .join(', ');
}

/** "idling (hold-switch on; hot, least source, all loads on)". */
export function whereWords(solved: Solved): string {
  const { state, hands, corner } = solved.condition;
  const parts = [handWords(hands), cornerWords(corner)].filter((t) => t !== '');
  return `${inState(state)} (${parts.join('; ')})`;
}

/** A sentence begins with a capital letter, but an id stays as it is written. */
export const capital = (text: string): string =>
  text.includes(' ') ? text.charAt(0).toUpperCase() + text.slice(1) : text;
