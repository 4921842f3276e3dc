/** Lines of a finding: what it says, by how much, where it is worst, what it rests on, and its working. */
import type { Fact, Finding, Measure, Need, Step } from '../contracts/finding.ts';
import type { Basis } from '../contracts/values.ts';
import { printBand, printMeasure, printValue } from './measure.ts';
import { conditionWords, provWords, sentence } from './words.ts';

/**
 * "0.48 V, limit 0.41 V, 0.07 V over". A margin on the good side reads "0.07 V to spare"; a measure in words stands as it is.
 */
export function measureLine(finding: Pick<Finding, 'value' | 'limit' | 'margin' | 'says'>): string {
  if (finding.value.value === null && finding.says.includes(finding.value.words ?? '')) return '';
  const value = hasText(finding.value) ? printMeasure(finding.value) : '';
  const limit =
    hasText(finding.limit) && !saysSo(finding.value, finding.limit)
      ? `limit ${printMeasure(finding.limit)}`
      : '';
  // A number that nothing limits stands in the sentence already.
  if (limit === '' && finding.value.value !== null) return '';
  const margin = value === '' || limit === '' ? '' : marginWords(finding);
  return [value, limit, margin].filter((text) => text !== '').join(', ');
}

/**
 * What a finding says. A sentence that begins with the id of a part or wire keeps it as it is written; one that is drawn at the
 * bad end of what is assumed says so.
 */
export function saysLine(finding: Pick<Finding, 'says' | 'open' | 'about'>): string {
  if (finding.open === 'undecided') return `At worst: ${finding.says}`;
  const first = finding.says.split(/[ :,(]/, 1)[0] ?? '';
  return finding.about.includes(first) ? finding.says : sentence(finding.says);
}

/** "nowhere within 1 V" needs no "limit nowhere". */
const saysSo = (value: Measure, limit: Measure): boolean =>
  limit.value === null && (value.words ?? '').startsWith(limit.words ?? '');

function hasText(measure: Measure): boolean {
  return measure.value !== null || (measure.words ?? '') !== '';
}

function marginWords(finding: Pick<Finding, 'value' | 'limit' | 'margin'>): string {
  const { value, limit, margin } = finding;
  if (margin === null || !Number.isFinite(margin) || value.value === null || limit.value === null) return '';
  const size = printValue(Math.abs(margin), value.unit);
  if (margin >= 0) return `${size} to spare`;
  return `${size} ${value.value > limit.value ? 'over' : 'short'}`;
}

/** "worst in driving, charge-switch on; hot, least source, all loads on (and 4 more)"; empty where no condition is named. */
export function worstLine(finding: Pick<Finding, 'worst' | 'others'>): string {
  if (finding.worst === null) return '';
  const more = finding.others > 0 ? ` (and ${finding.others} more)` : '';
  return `worst in ${conditionWords(finding.worst)}${more}`;
}

/** The spread of the value over the bands of everything assumed: "with everything assumed at its bad ends 12.9 to 13.4 V". */
export function bandLine(finding: Pick<Finding, 'band' | 'value'>): string {
  const numbers = finding.band.filter((value): value is number => value !== null && Number.isFinite(value));
  if (numbers.length < 2) return '';
  const [low, high] = [Math.min(...numbers), Math.max(...numbers)];
  const text = printBand(low, high, finding.value.unit);
  return text === printValue(low, finding.value.unit) ? '' : `over the bands of what is assumed: ${text}`;
}

/** One thing that an open finding needs: "Rating of feed-fuse: read the plate. Why." */
export function needLine(need: Need): string {
  const why = need.why === '' ? '' : ` ${sentence(need.why)}${/[.!?]$/.test(need.why) ? '' : '.'}`;
  return `${sentence(basisText(need.basis))}: ${need.basis.how}.${why}`;
}

/** "efficiency of charger 0.88 (0.85 to 0.90)". */
export function basisText(basis: Basis): string {
  const amount = basisAmount(basis);
  return amount === '' ? basis.label : `${basis.label} ${amount}`;
}

/** The value with its band, as people state it; empty where the value is only a count of states, rows or the like. */
export function basisAmount(basis: Basis): string {
  const { value, unit, band } = basis.sourced;
  const banded = band !== undefined && band[0] !== band[1];
  if (!Number.isFinite(value) || (unit === '' && !banded && Number.isInteger(value))) return '';
  const number = printValue(value, unit, true);
  return banded ? `${number} (${printBand(band[0], band[1], unit, true)})` : number;
}

/** Values whose labels begin alike and whose amounts are equal. */
export interface BasisGroup {
  /** "joint", "vehicle's own load"; the whole label where it stands alone. */
  readonly label: string;
  readonly amount: string;
  readonly count: number;
}

/** Groups values for a short list: "joint, 35 places, 0.05 mΩ (0.03 to 0.1 mΩ)". In order of first appearance. */
export function groupBases(bases: readonly Basis[]): readonly BasisGroup[] {
  const groups = new Map<string, { label: string; amount: string; count: number; whole: string }>();
  for (const basis of bases) {
    const amount = basisAmount(basis);
    const label = basis.label.replace(/ (of|at|while) .*$/, '');
    const key = `${label}|${amount}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { label, amount, count: 1, whole: basis.label });
    else group.count += 1;
  }
  return [...groups.values()].map(({ label, amount, count, whole }) => ({
    label: count === 1 ? whole : label,
    amount,
    count,
  }));
}

/** Where a value comes from: "assumed: common practice, no source" / "given" / "published: IEC 60364-5-52". */
export function basisOrigin(basis: Basis): string {
  const { prov, source } = basis.sourced;
  const origin = provWords(prov);
  const named = source === '' || prov === 'given' || source === origin ? origin : `${origin}: ${source}`;
  return basis.assumed ? `assumed; ${named}` : named;
}

/** A working line in its columns. */
export interface StepText {
  readonly what: string;
  readonly how: string;
  readonly result: string;
  readonly source: string;
}

/** The columns of one line of a working. A line without value has an empty result. */
export function stepText(step: Step): StepText {
  const silent = step.value === null && step.unit === '';
  return {
    what: sentence(step.what),
    how: step.how,
    result: silent ? '' : printValue(step.value, step.unit),
    source: step.source ?? '',
  };
}

/** A fact worth getting: what it is, how it is had, what it could settle. */
export interface FactText {
  readonly what: string;
  readonly how: string;
  readonly could: string;
}

/** The three parts of a fact, in words. At most three of the findings that it would settle are named. */
export function factText(fact: Fact): FactText {
  const named = fact.closes.slice(0, 3).join(', ');
  const more = fact.closes.length > 3 ? ` and ${fact.closes.length - 3} more` : '';
  return {
    what: basisText(fact.basis),
    how: fact.how === '' ? fact.basis.how : fact.how,
    could: named === '' ? '' : `could settle ${named}${more}`,
  };
}
