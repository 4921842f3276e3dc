/** What an edit changed: which findings it may concern first, and whether it changed anything that is computed with. */
import type { Build, Finding, Id, Wire } from '../contracts/index.ts';

/** Parts, wires and places that are new or are not what they were. */
export function changedBetween(before: Build, after: Build): ReadonlySet<Id> {
  const changed = new Set<Id>();
  for (const name of ['parts', 'wires', 'places'] as const) {
    const was: ReadonlyMap<Id, unknown> = before[name];
    for (const [id, item] of after[name]) if (!alike(was.get(id), item)) changed.add(id);
  }
  return changed;
}

/** Findings that spoke of what changed, and those that are named after it. An order of work, not a promise: others may change too. */
export function concerns(
  changed: ReadonlySet<Id>,
  findings: readonly Finding[],
): (findingId: string) => boolean {
  const spoke = new Set(
    findings.filter(({ about }) => about.some((id) => changed.has(id))).map(({ id }) => id),
  );
  return (id) =>
    spoke.has(id) ||
    id
      .split('/')
      .slice(1)
      .some((part) => changed.has(part));
}

/** A margin below this share of the limit is close. */
const CLOSE = 0.15;

/**
 * Findings that may well turn by an edit: those that are bad or open, those whose margin is small, and those that were not there.
 * An order of work, as `concerns`.
 */
export function mayTurn(findings: readonly Finding[]): (findingId: string) => boolean {
  const firm = new Set(findings.filter((finding) => !isOpenToTurn(finding)).map(({ id }) => id));
  return (id) => findings.length > 0 && !firm.has(id);
}

function isOpenToTurn({ verdict, margin, limit }: Finding): boolean {
  if (verdict !== 'met' && verdict !== 'advice') return true;
  return margin !== null && limit.value !== null && Math.abs(margin) < CLOSE * Math.abs(limit.value);
}

/**
 * True when two builds differ only in what is read by people: title, revision, notes, units, colours and numbers of wires, and in what
 * was set aside. All that is computed of one is then true of the other.
 */
export const sameMeaning = (a: Build, b: Build): boolean => alike(meaningOf(a), meaningOf(b));

function meaningOf({ wires, ...build }: Build): object {
  const { title: _title, revision: _revision, notes: _notes, units: _units, aside: _aside, ...rest } = build;
  return { ...rest, wires: [...wires.values()].map(meaningOfWire) };
}

const meaningOfWire = ({ colour: _colour, number: _number, ...rest }: Wire): object => rest;

/** Equal as data; what is the same object is not looked into. */
function alike(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (a instanceof Map || b instanceof Map)
    return a instanceof Map && b instanceof Map && alike([...a], [...b]);
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [mine, theirs] = [Object.keys(a), Object.keys(b)];
  return (
    mine.length === theirs.length &&
    mine.every((key) => key in b && alike(a[key as keyof typeof a], b[key as keyof typeof b]))
  );
}
