/** The report of `check`: verdict line first, then danger, fault, open, advice, met, and what is worth getting next. */
import {
  bandLine,
  formatSize,
  MARKS,
  measureLine,
  needLine,
  plural,
  saysLine,
  sentence,
  verdictWords,
  worstLine,
  type Build,
  type Fact,
  type Finding,
  type Judged,
  type Verdict,
} from '@loomwright/engine';
import { writeAssumed, writeFacts } from './facts.ts';
import { Page } from './page.ts';
import type { Style } from './style.ts';
import { writeWorking } from './working.ts';

export interface ReportInput {
  readonly file: string;
  readonly build: Build;
  readonly judged: Judged;
  readonly facts: readonly Fact[];
}

export interface ReportOptions {
  readonly width: number;
  readonly style: Style;
  /** Everything: workings and met findings one by one, all assumptions. */
  readonly all: boolean;
}

const HEADINGS: Readonly<Record<Verdict, string>> = {
  danger: 'Danger: fire, injury, or a vehicle that does not start',
  fault: 'Fault: it will not work as meant, or breaks a statement',
  open: 'Open: cannot be said yet',
  advice: 'Advice',
  met: 'Met',
};

/** The whole report as text. */
export function reportText(input: ReportInput, options: ReportOptions): string {
  const { judged } = input;
  const page = new Page(options.width, options.style);
  page.text(judged.firstLine, 0, 2, (line) => options.style.verdict(worstVerdict(judged.findings), line));
  writeHead(page, input);
  const live = judged.findings.filter((finding) => !isAside(finding));
  for (const verdict of ['danger', 'fault', 'open'] as const) writeGroup(page, verdict, live, input, options);
  writeFacts(page, input.facts);
  for (const verdict of ['advice', 'met'] as const) writeGroup(page, verdict, live, input, options);
  writeAside(page, judged.findings.filter(isAside));
  writeAssumed(page, judged.assumed, options.all);
  writeFoot(page, input, options);
  return page.toString();
}

function isAside(finding: Finding): boolean {
  return finding.aside !== null && finding.verdict !== 'danger';
}

function worstVerdict(findings: readonly Finding[]): Verdict {
  return findings[0]?.verdict ?? 'met';
}

function writeHead(page: Page, { file, build, judged }: ReportInput): void {
  const volts = Object.entries(build.systems).map(([name, value]) => `${name} ${value}\u00A0V`);
  page.text(
    [build.title, ...(build.revision === undefined ? [] : [`revision ${build.revision}`]), file]
      .filter((text) => text !== '')
      .join(', '),
    0,
    2,
    page.style.dim,
  );
  page.text(
    [`practice ${build.practice ?? 'not given'}`, ...volts, conditionCount(judged)].join(', '),
    0,
    2,
    page.style.dim,
  );
  if (judged.auto !== null) page.text(autoWords(judged.auto), 0, 2);
}

/** "size auto: 35 mm² on feed, return; 25 mm² would fail hunting/charger." */
function autoWords({ size, wires, governedBy, onceConfirmed, serves }: NonNullable<Judged['auto']>): string {
  const what = `size auto: ${formatSize(size)} on ${wires.join(', ')}`;
  if (!serves) return `${what}; no size in stock serves, the largest fails ${governedBy ?? 'too'}.`;
  if (governedBy === null) return `${what}; the smallest in stock serves.`;
  const once = onceConfirmed === null ? '' : `; ${formatSize(onceConfirmed)} serves once that is confirmed`;
  return `${what}; the next smaller one falls short at ${governedBy}${once}.`;
}

function conditionCount(judged: Judged): string {
  return `${judged.conditions.length} conditions judged`;
}

function writeGroup(
  page: Page,
  verdict: Verdict,
  findings: readonly Finding[],
  input: ReportInput,
  options: ReportOptions,
): void {
  const group = findings.filter((finding) => finding.verdict === verdict);
  if (group.length === 0) return;
  page.heading(`${HEADINGS[verdict]} (${group.length})`);
  if (verdict === 'met' && !options.all) {
    writeMet(page, group);
    return;
  }
  if (group.length > MANY) page.text(contents(group), 0, 2);
  for (const finding of group) writeFinding(page, finding, options.all || WORKED.has(verdict));
}

/** From so many findings on, a group begins with a line that sums it up. */
const MANY = 6;

/** "11 protection within reach of every source; 9 clearing of a short circuit ...": most first. */
function contents(group: readonly Finding[]): string {
  const counts = new Map<string, number>();
  for (const { title } of group) counts.set(title, (counts.get(title) ?? 0) + 1);
  const sorted = [...counts].toSorted((a, b) => b[1] - a[1]);
  return `${sorted.map(([title, count]) => `${count} × ${title}`).join('; ')}.`;
}

const WORKED: ReadonlySet<Verdict> = new Set(['danger', 'fault']);

/** One finding: what it says, by how much, where it is worst; its working where wanted; what it needs when open. */
export function writeFinding(page: Page, finding: Finding, working: boolean): void {
  const { style } = page;
  const lead = `${MARKS[finding.verdict]} ${verdictWords(finding)}`;
  page.led(lead, (text) => style.verdict(finding.verdict, text), saysLine(finding), 2);
  for (const line of [measureLine(finding), worstLine(finding)].filter((text) => text !== ''))
    page.text(line, 2, 2);
  if (finding.verdict === 'open') writeOpen(page, finding);
  if (finding.aside !== null) page.text(`Set aside, still a danger: ${asideWords(finding)}`, 2, 2);
  if (working) writeWorking(page, finding.working, 4, false);
  page.text(finding.id, 2, 2, style.dim);
}

function writeOpen(page: Page, finding: Finding): void {
  if (finding.open === 'undecided') {
    const band = bandLine(finding);
    if (band !== '') page.text(band, 2, 2);
  }
  for (const need of finding.needs.slice(0, 3)) page.text(needLine(need), 2, 2);
  if (finding.needs.length > 3)
    page.text(`and ${plural(finding.needs.length - 3, 'more value', 'more values')}`, 2, 2);
  if (finding.ifNot !== null) page.text(`If it turns out badly: ${finding.ifNot}.`, 2, 2);
}

/** Met findings by check: "hunting: charger". */
function writeMet(page: Page, group: readonly Finding[]): void {
  const byTitle = new Map<string, string[]>();
  for (const finding of group) {
    const subject = finding.id.slice(finding.check.length + 1);
    byTitle.set(finding.title, [...(byTitle.get(finding.title) ?? []), subject]);
  }
  for (const [title, subjects] of byTitle) {
    const named = subjects.filter((subject) => subject !== '').join(', ');
    page.text(`${MARKS.met} ${sentence(title)}${named === '' ? '' : `: ${named}`}`, 0, 2);
  }
}

function writeAside(page: Page, aside: readonly Finding[]): void {
  if (aside.length === 0) return;
  page.heading(`Set aside (${aside.length})`);
  for (const finding of aside) {
    page.text(`${verdictWords(finding)}: ${finding.says} ${asideWords(finding)}`, 0, 2);
  }
}

function asideWords(finding: Finding): string {
  const { aside } = finding;
  if (aside === null) return '';
  const who = [aside.by, aside.date].filter((text) => text !== undefined && text !== '').join(', ');
  return `"${aside.reason}"${who === '' ? '' : ` (${who})`}`;
}

function writeFoot(page: Page, { file, judged }: ReportInput, options: ReportOptions): void {
  page.blank();
  const first = judged.findings.find((finding) => finding.verdict !== 'met');
  if (first !== undefined)
    page.text(`Why, and what would cure it: loomwright explain ${file} ${first.id}`, 0, 2, page.style.dim);
  if (!options.all) page.text(`Every working: loomwright check ${file} --all`, 0, 2, page.style.dim);
  page.text(`What the meter will read: loomwright states ${file}`, 0, 2, page.style.dim);
}
