/** Names shared by all rooms. */

/** Name of a part, wire, place or section as written in the document. */
export type Id = string;

/** `part.terminal`, e.g. `charger.in+`. */
export type TerminalRef = string;

/** The states a vehicle can be in, in the order in which they are always listed. */
export const STATE_IDS = [
  'parked',
  'woken',
  'after-run',
  'ignition-on',
  'cranking',
  'idling',
  'driving',
  'overrun',
  'automatic-stop',
  'ready',
  'plugged-in',
  'stored',
] as const;
export type StateId = (typeof STATE_IDS)[number];

/** Six paired corners: each is the worst case of a named family of checks. */
export const CORNER_IDS = [
  'typical-quiet',
  'typical-busy',
  'weak',
  'strong',
  'cold',
  'every-source',
] as const;
export type CornerId = (typeof CORNER_IDS)[number];

export type PracticeId = 'north-america' | 'europe';
