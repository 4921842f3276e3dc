/** Words for ids: states, corners, conditions, verdicts, provenance. */
import type { Finding, Verdict } from '../contracts/finding.ts';
import type { CornerId, StateId } from '../contracts/ids.ts';
import { CORNER_IDS, STATE_IDS } from '../contracts/ids.ts';
import type { Effort, Prov } from '../contracts/values.ts';

const STATES: Readonly<Record<StateId, string>> = {
  parked: 'parked',
  woken: 'woken',
  'after-run': 'after-run',
  'ignition-on': 'ignition on',
  cranking: 'cranking',
  idling: 'idling',
  driving: 'driving',
  overrun: 'overrun',
  'automatic-stop': 'automatic stop',
  ready: 'ready',
  'plugged-in': 'plugged in',
  stored: 'stored',
};

const CORNERS: Readonly<Record<CornerId, string>> = {
  'typical-quiet': 'typical, loads off',
  'typical-busy': 'typical, all loads on',
  weak: 'hot, least source, all loads on',
  strong: 'cold, greatest source, loads off',
  cold: 'cold, least source, all loads on',
  'every-source': 'typical, sun and shore as well',
};

/** A state in words: "ignition on". An unknown id stays as it is. */
export function stateWords(state: string): string {
  return isState(state) ? STATES[state] : state;
}

/** A corner in words: "hot, least source, all loads on". */
export function cornerWords(corner: string): string {
  return isCorner(corner) ? CORNERS[corner] : corner;
}

/** Hand positions in words: "charge-switch on"; nothing where there are no hands. */
export function handWords(hands: Readonly<Record<string, boolean>>): string {
  return Object.keys(hands)
    .toSorted()
    .map((id) => `${id} ${hands[id] === true ? 'on' : 'off'}`)
    .join(', ');
}

/**
 * A condition id in words: `driving/charge-switch=on/weak` gives "driving, charge-switch on; hot, least source, all loads on".
 * A condition without hands has no middle part.
 */
export function conditionWords(id: string): string {
  const now: string[] = [];
  let corner = '';
  for (const part of id.split('/')) {
    if (isState(part)) now.push(STATES[part]);
    else if (isCorner(part)) corner = CORNERS[part];
    else if (part.startsWith('open=')) now.push(`${part.slice(5)} open`);
    else if (part !== '' && part !== '-') now.push(part.replaceAll('=', ' ').replaceAll(',', ', '));
  }
  return corner === '' ? now.join(', ') : `${now.join(', ')}; ${corner}`;
}

/** The verdict in words: "danger", "open, missing". */
export function verdictWords(finding: Pick<Finding, 'verdict' | 'open'>): string {
  return finding.open === null ? finding.verdict : `${finding.verdict}, ${finding.open}`;
}

/** A mark that tells the verdicts apart without colour. */
export const MARKS: Readonly<Record<Verdict, string>> = {
  danger: '▲',
  fault: '■',
  open: '?',
  advice: '·',
  met: '✓',
};

const PROVS: Readonly<Record<Prov, string>> = {
  given: 'given',
  confirmed: 'confirmed',
  seen: 'published',
  computed: 'computed',
  practice: 'common practice, no source',
  memory: 'from memory',
};

/** Where a value comes from, in words. */
export function provWords(prov: Prov): string {
  return PROVS[prov];
}

/** The five ways in which a fact is had, for sums: "1 to read, 2 to measure". */
export type Way = 'read' | 'measure' | 'log' | 'confirm';
export const WAYS: readonly Way[] = ['read', 'measure', 'log', 'confirm'];

const WAY_OF: Readonly<Record<Effort, Way>> = {
  read: 'read',
  confirm: 'confirm',
  tape: 'measure',
  meter: 'measure',
  engine: 'measure',
  log: 'log',
};

/** The way of an effort: tape, meter and running engine are all measuring. */
export function wayOf(effort: Effort): Way {
  return WAY_OF[effort];
}

/** Upper case for the first letter, so that a phrase can open a sentence. */
export function sentence(text: string): string {
  return text === '' ? '' : text.charAt(0).toUpperCase() + text.slice(1);
}

function isState(text: string): text is StateId {
  return (STATE_IDS as readonly string[]).includes(text);
}

function isCorner(text: string): text is CornerId {
  return (CORNER_IDS as readonly string[]).includes(text);
}
