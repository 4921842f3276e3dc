/** `size: auto`: one common size for all wires that ask for it. */
import type { Build, Finding, Id, Wire } from '../contracts/index.ts';
import { parseSize, type Size } from '../quantity/index.ts';

/** What `size: auto` came to. */
export interface AutoSize {
  readonly size: Size;
  /** The wires that take it. */
  readonly wires: readonly Id[];
  /** The finding that fails, or stays open, at the next smaller size; null where the smallest of the list serves. */
  readonly governedBy: string | null;
  /** A smaller size that falls short only where a table or figure is from memory: it serves once that is confirmed. */
  readonly onceConfirmed: Size | null;
  /** False: even the largest of the list does not serve, and `governedBy` is what it fails. */
  readonly serves: boolean;
  /** The build with the size in place of `auto`: a derived copy, for judging only. */
  readonly build: Build;
  /** The findings of that copy, so that nobody judges it twice. */
  readonly findings: readonly Finding[];
}

/** Sizes that are tried when no stock is given, by the practice's own system. */
const METRIC = ['1.5', '2.5', '4', '6', '10', '16', '25', '35', '50', '70', '95', '120'].map(
  (s) => `${s} mm2`,
);
const AWG = ['16', '14', '12', '10', '8', '6', '4', '2', '1', '1/0', '2/0', '3/0', '4/0'].map(
  (s) => `${s} AWG`,
);

/** Wires of a build whose size is `auto`, in the order of the document. */
export function autoWires(build: Build): readonly Id[] {
  return [...build.wires.values()].filter((wire) => wire.size === 'auto').map((wire) => wire.id);
}

/** Sizes to choose from: the stock, else the usual row of the practice; smallest first, each area once. */
export function sizeList(build: Build): readonly Size[] {
  const usual = build.practice === 'north-america' ? AWG : METRIC;
  const sizes = build.stock.sizes.length > 0 ? build.stock.sizes : usual.map(sizeOf);
  const byArea = new Map(sizes.map((size) => [size.areaMm2, size]));
  return [...byArea.values()].toSorted((a, b) => a.areaMm2 - b.areaMm2);
}

function sizeOf(text: string): Size {
  const found = parseSize(text);
  if (!found.ok) throw new RangeError(found.message);
  return found.size;
}

/** A copy of the build in which the wires have the size. */
export function withSize(build: Build, wires: readonly Id[], size: Size): Build {
  const changed = new Map(build.wires);
  for (const id of wires) {
    const wire: Wire | undefined = changed.get(id);
    if (wire !== undefined) changed.set(id, Object.freeze({ ...wire, size }));
  }
  return Object.freeze({ ...build, wires: changed });
}

/**
 * The smallest size of the list at which no finding is danger or fault, and none open, that a thicker wire would cure.
 *
 * A finding that fails alike (same verdict, same margin) with the largest size has another cause than thickness and does not
 * count; one that fails with the largest size too, but by less, counts, so that a stock which is too thin is said to be.
 * `judge` gives the findings of a build without `auto`; it is called once per size tried. Null where no wire asks.
 */
export function sizeAuto(build: Build, judge: (build: Build) => readonly Finding[]): AutoSize | null {
  const wires = autoWires(build);
  const sizes = sizeList(build);
  const largest = sizes.at(-1);
  if (wires.length === 0 || largest === undefined) return null;
  const trials = new Map<number, Trial>();
  const trial = (index: number): Trial => {
    const known = trials.get(index);
    if (known !== undefined) return known;
    const copy = withSize(build, wires, sizes[index] ?? largest);
    const made = { build: copy, findings: judge(copy) };
    trials.set(index, made);
    return made;
  };
  const last = sizes.length - 1;
  let governedBy: string | null = null;
  let onceConfirmed: Size | null = null;
  for (let index = 0; index <= last; index += 1) {
    const counts =
      index < last
        ? (finding: Finding) => curable(finding, wires, thicker(index, last, trial))
        : (finding: Finding) => tooThin(finding, wires, last > 0 ? trial(last - 1) : null);
    const size = sizes[index] ?? largest;
    const failed = shortcoming(trial(index), counts);
    if (failed === null) return { size, wires, governedBy, onceConfirmed, serves: true, ...trial(index) };
    governedBy = failed;
    const knownOnly = (finding: Finding) => finding.open !== 'unconfirmed' && counts(finding);
    if (onceConfirmed === null && shortcoming(trial(index), knownOnly) === null) onceConfirmed = size;
  }
  return { size: largest, wires, governedBy, onceConfirmed, serves: false, ...trial(last) };
}

interface Trial {
  readonly build: Build;
  readonly findings: readonly Finding[];
}

/** The trials that a thinner one is held against: the next larger size and the largest. */
function thicker(index: number, last: number, trial: (index: number) => Trial): readonly Trial[] {
  return index + 1 === last ? [trial(last)] : [trial(index + 1), trial(last)];
}

const BAD: readonly Finding['verdict'][] = ['danger', 'fault', 'open'];

/** The first finding to which `counts` applies, dangers first, then faults, then what is open; null: none. */
function shortcoming(trial: Trial, counts: (finding: Finding) => boolean): string | null {
  for (const verdict of BAD) {
    for (const finding of trial.findings)
      if (finding.verdict === verdict && counts(finding)) return finding.id;
  }
  return null;
}

/** True when a larger size cures it, or lessens it. */
function curable(finding: Finding, wires: readonly Id[], larger: readonly Trial[]): boolean {
  const then = larger.map((trial) => sameOf(trial, finding));
  if (then.some((other) => other === undefined || RANK[other.verdict] < RANK[finding.verdict])) return true;
  if (finding.verdict === 'open' || !speaksOf(finding, wires)) return false;
  return improves(finding.margin, then.at(-1)?.margin ?? null);
}

/** True when the largest size still fails for want of copper: it fails by less than the size before it. */
function tooThin(finding: Finding, wires: readonly Id[], smaller: Trial | null): boolean {
  if (finding.verdict === 'open' || !speaksOf(finding, wires)) return false;
  if (smaller === null) return finding.margin !== null;
  return improves(sameOf(smaller, finding)?.margin ?? null, finding.margin);
}

function sameOf(trial: Trial, finding: Finding): Finding | undefined {
  return trial.findings.find((other) => other.id === finding.id);
}

function speaksOf(finding: Finding, wires: readonly Id[]): boolean {
  return finding.about.some((id) => wires.includes(id));
}

function improves(now: number | null, then: number | null): boolean {
  return then !== null && now !== null && then - now > 1e-6 * Math.max(Math.abs(now), 1e-6);
}

const RANK: Readonly<Record<Finding['verdict'], number>> = {
  met: 0,
  advice: 1,
  open: 2,
  fault: 3,
  danger: 4,
};
