/** The sum of a judgement, and the line that opens every report. */
import type { Finding, Verdict } from '../contracts/finding.ts';
import { VERDICTS } from '../contracts/finding.ts';
import type { Effort } from '../contracts/values.ts';
import { WAYS, wayOf, type Way } from './words.ts';

export interface Tally {
  readonly danger: number;
  readonly fault: number;
  readonly open: number;
  readonly advice: number;
  readonly met: number;
  /** Findings that a person set aside with a reason; they are in none of the other numbers. */
  readonly aside: number;
  /** Open findings by how the first thing they need is had; one that nobody can settle (a defect of the program) is in none. */
  readonly toGet: Readonly<Record<Way, number>>;
}

type Counted = Pick<Finding, 'verdict' | 'needs' | 'aside'>;

const COST: readonly Effort[] = ['read', 'confirm', 'tape', 'meter', 'engine', 'log'];

/**
 * Counts findings by verdict. Each open finding counts once, by the cheapest thing that it asks for. A finding set aside is
 * counted as such, but a danger that was set aside stays a danger.
 */
export function tallyOf(findings: readonly Counted[]): Tally {
  const count: Record<Verdict, number> = { danger: 0, fault: 0, open: 0, advice: 0, met: 0 };
  const toGet: Record<Way, number> = { read: 0, measure: 0, log: 0, confirm: 0 };
  let aside = 0;
  for (const finding of findings) {
    if (finding.aside !== null && finding.verdict !== 'danger') {
      aside += 1;
      continue;
    }
    count[finding.verdict] += 1;
    if (finding.verdict === 'open' && finding.needs.length > 0) toGet[wayOf(cheapest(finding))] += 1;
  }
  return { ...count, aside, toGet };
}

function cheapest(finding: Counted): Effort {
  const costs = finding.needs.map((need) => COST.indexOf(need.basis.effort)).filter((cost) => cost >= 0);
  return COST[Math.min(...costs)] ?? 'read';
}

/**
 * The line that opens a result: "1 danger, 1 fault, 3 open: 1 to read, 1 to measure, 1 to confirm", "Nothing found wrong; 3
 * open: ...", and only with nothing open "Nothing found wrong. 36 met.".
 */
export function firstLine(tally: Tally): string {
  const ways = toGetWords(tally.toGet);
  const open = tally.open === 0 ? '' : `${tally.open} open${ways === '' ? '' : `: ${ways}`}`;
  const aside = tally.aside === 0 ? '' : `${tally.aside} set aside`;
  const bad = [
    ...(tally.danger > 0 ? [plural(tally.danger, 'danger', 'dangers')] : []),
    ...(tally.fault > 0 ? [plural(tally.fault, 'fault', 'faults')] : []),
  ];
  if (bad.length > 0) return [...bad, open, aside].filter((t) => t !== '').join(', ');
  if (aside !== '') return `Nothing else found wrong: ${[aside, open].filter((t) => t !== '').join('; ')}`;
  if (open !== '') return `Nothing found wrong; ${open}`;
  if (tally.met === 0) return 'Nothing found wrong, and nothing here to judge.';
  return `Nothing found wrong. ${tally.met} met.`;
}

function toGetWords(toGet: Readonly<Record<Way, number>>): string {
  return WAYS.filter((way) => toGet[way] > 0)
    .map((way) => `${toGet[way]} to ${way}`)
    .join(', ');
}

/** "1 fault", "2 faults". */
export function plural(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** Order in which findings are always listed: by verdict, danger families first, then by id. */
export function inOrder<F extends Pick<Finding, 'verdict' | 'id' | 'dangerFamily'>>(
  findings: readonly F[],
): F[] {
  const rank = (finding: F) => VERDICTS.indexOf(finding.verdict) * 2 + (finding.dangerFamily ? 0 : 1);
  const byName = (a: F, b: F) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
  return findings.toSorted((a, b) => rank(a) - rank(b) || byName(a, b));
}
