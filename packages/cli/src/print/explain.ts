/** One finding in full. */
import {
  bandLine,
  firstLine,
  tallyOf,
  basisOrigin,
  basisText,
  MARKS,
  measureLine,
  needLine,
  saysLine,
  sentence,
  verdictWords,
  worstLine,
  type Basis,
  type Build,
  type Finding,
  type JudgedRemedy,
  type Statement,
} from '@loomwright/engine';
import { Page } from './page.ts';
import type { Style } from './style.ts';
import { writeWorking } from './working.ts';

export interface ExplainInput {
  readonly file: string;
  readonly build: Build;
  readonly finding: Finding;
  readonly remedies: readonly JudgedRemedy[];
}

/** Working, statements, what it rests on, remedies. */
export function explainText(
  { file, build, finding, remedies }: ExplainInput,
  paper: { readonly width: number; readonly style: Style },
): string {
  const page = new Page(paper.width, paper.style);
  const lead = `${MARKS[finding.verdict]} ${verdictWords(finding)}`;
  page.led(lead, (text) => paper.style.verdict(finding.verdict, text), saysLine(finding), 2);
  page.text(`${finding.id}: ${finding.title}`, 2, 2, paper.style.dim);
  page.text(`${build.title}, ${file}`, 2, 2, paper.style.dim);
  for (const line of [measureLine(finding), worstLine(finding), bandLine(finding)].filter(
    (text) => text !== '',
  ))
    page.text(line, 2, 2);
  if (finding.aside !== null) page.text(`Set aside: "${finding.aside.reason}"`, 2, 2);
  writeNeeds(page, finding);
  page.heading('Working');
  if (finding.working.length === 0) page.text('No arithmetic: it is read from the build as it stands.');
  writeWorking(page, finding.working, 0, true);
  writeStatements(page, finding.statements);
  writeRests(page, finding.restsOn);
  writeRemedies(page, finding, remedies);
  return page.toString();
}

function writeNeeds(page: Page, finding: Finding): void {
  if (finding.needs.length === 0) return;
  page.heading('What would settle it');
  for (const need of finding.needs) page.text(needLine(need), 0, 2);
}

function writeStatements(page: Page, statements: readonly Statement[]): void {
  if (statements.length === 0) return;
  page.heading('Judged by');
  for (const statement of statements) {
    page.text(sentence(statement.text), 0, 2);
    page.text(`${statement.id}; ${statement.source}`, 2, 0, page.style.dim);
  }
}

function writeRests(page: Page, restsOn: readonly Basis[]): void {
  if (restsOn.length === 0) return;
  page.heading('Rests on');
  for (const basis of restsOn.toSorted((a, b) => Number(b.assumed) - Number(a.assumed))) {
    page.text(`${sentence(basisText(basis))}; ${basisOrigin(basis)}`, 0, 2);
  }
}

function writeRemedies(page: Page, finding: Finding, remedies: readonly JudgedRemedy[]): void {
  if (finding.verdict === 'met') return;
  page.heading('Remedies, each tried on a copy');
  if (remedies.length === 0) {
    page.text(
      finding.verdict === 'open'
        ? 'None: it takes a fact, not a change.'
        : 'None that clears it without a new danger.',
    );
    return;
  }
  remedies.forEach((remedy, index) => writeRemedy(page, finding, remedy, index + 1));
}

function writeRemedy(page: Page, finding: Finding, remedy: JudgedRemedy, number: number): void {
  page.text(`${number}. ${sentence(remedy.title)}`, 0, 3);
  const after = remedy.after;
  page.text(`now:   ${standing(finding)}`, 3, 7);
  page.text(`after: ${after === null ? 'gone' : standing(after)}`, 3, 7);
  page.text(`all:   ${changeWords(remedy)}`, 3, 7);
}

/** "danger; 60.0 A, limit 55.9 A, 4.1 A over"; the verdict alone where there is nothing to measure. */
const standing = (finding: Finding): string =>
  [verdictWords(finding), measureLine(finding)].filter((text) => text !== '').join('; ');

/** "hunting/charger gone; nothing new" / "new: drop/charger". */
function changeWords({ cleared, fresh, findings }: JudgedRemedy): string {
  const gone = cleared.length === 0 ? '' : `${cleared.map((finding) => finding.id).join(', ')} gone; `;
  const added = fresh.length === 0 ? 'nothing new' : `new: ${fresh.map((finding) => finding.id).join(', ')}`;
  return `${gone}${added}. Then: ${firstLine(tallyOf(findings))}`;
}
