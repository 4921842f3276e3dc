/** The first answer on one screen. */
import {
  MARKS,
  plural,
  printBand,
  printMeasure,
  sentence,
  type AnswerRow,
  type Basis,
  type Design,
  type Fact,
  type Judged,
  type SixFacts,
} from '@loomwright/engine';
import { writeAssumed, writeFacts } from './facts.ts';
import { Page } from './page.ts';
import type { Style } from './style.ts';

export interface FirstInput {
  readonly facts: SixFacts;
  readonly design: Design;
  readonly judged: Judged;
  readonly rows: readonly AnswerRow[];
  readonly known: readonly Fact[];
  /** File that the design was written to. */
  readonly saved: string | null;
  /** The person is asked afterwards whether to keep it. */
  readonly keep: boolean;
}

/** First line, six rows, what is worth getting, what it rests on. */
export function firstText(
  input: FirstInput,
  paper: { readonly width: number; readonly style: Style },
): string {
  const page = new Page(paper.width, paper.style);
  const { judged, design, facts } = input;
  page.text(judged.firstLine, 0, 2, paper.style.bold);
  page.text(designWords(design, facts), 0, 2, paper.style.dim);
  page.blank();
  for (const row of input.rows) writeRow(page, row);
  writeWorthGetting(page, input);
  writeAssumed(page, ruling(judged), false, MOST_ASSUMED);
  const next = nextWords(input);
  if (next !== '') page.blank().text(next, 0, 2, paper.style.dim);
  return page.toString();
}

function nextWords({ saved, keep }: FirstInput): string {
  if (saved !== null) return `Written to ${saved}. Next: loomwright check ${saved}`;
  return keep
    ? ''
    : 'Keep it: loomwright first ... --save van.yaml; then every later fact is one line changed.';
}

const MOST_ASSUMED = 12;

/** What the six rows rest on, in the order of the rows; then everything else. */
function ruling(judged: Judged): readonly Basis[] {
  const checks = ['hunting', 'rating-window', 'surplus', 'conductor', 'clearing'];
  const named = checks.flatMap((check) =>
    judged.findings.filter((finding) => finding.check === check).flatMap((finding) => finding.restsOn),
  );
  const paths = new Set(named.filter((basis) => basis.assumed).map((basis) => basis.path));
  const [first, rest] = [
    judged.assumed.filter((basis) => paths.has(basis.path)),
    judged.assumed.filter((basis) => !paths.has(basis.path)),
  ];
  return [...first, ...rest];
}

function designWords(design: Design, facts: SixFacts): string {
  const { advice } = design;
  const size = `${design.amps}\u00A0A charger${advice === null ? '' : ' (advised)'}`;
  const why =
    advice === null || advice.fits
      ? ''
      : advice.surplus === null
        ? '; the supply has no known limit, so the smallest was taken'
        : `; none fits: ${Math.round(advice.input)}\u00A0A in, ${Math.round(advice.surplus)}\u00A0A left over at hot idle`;
  return `First design: ${facts.system}\u00A0V, practice ${facts.practice}, ${size}${why}, return by ${facts.return ?? 'cable (the body was tried too)'}.`;
}

function writeRow(page: Page, row: AnswerRow): void {
  const { style } = page;
  page.pair(`${MARKS[row.verdict]} ${row.name}`, rowValue(row), 0);
  page.text(sentence(row.why), 2, 0, style.dim);
}

function rowValue(row: AnswerRow): string {
  if (row.words !== null) return row.words;
  const [low, high] = [row.measures[0], row.measures.at(-1)];
  if (low === undefined || high === undefined) return 'no figure';
  if (row.measures.length === 1) return printMeasure(low);
  return printBand(low.value, high.value, low.unit);
}

/** So many facts are shown. */
const SHOWN = 3;

/** How many facts beside the six have room. */
export const roomForFacts = (facts: SixFacts): number => Math.max(0, SHOWN - sixMissing(facts).length);

/** Facts of the six that are not known come first: each changes several rows at once. */
function writeWorthGetting(page: Page, { facts, known }: FirstInput): void {
  const missing = sixMissing(facts);
  const rest = roomForFacts(facts);
  if (missing.length === 0) {
    writeFacts(page, known);
    return;
  }
  page.heading('Worth getting next');
  missing.slice(0, SHOWN).forEach(([what, how, changes], index) => {
    page.text(`${index + 1}. ${what}`, 0, 3);
    page.text(`${how}; could change ${changes}`, 3);
  });
  if (rest > 0) writeFacts(page, known, rest, missing.length);
  else if (missing.length > SHOWN)
    page.text(`and ${plural(missing.length - SHOWN, 'more of the six', 'more of the six')}`, 3);
}

function sixMissing(facts: SixFacts): (readonly [string, string, string])[] {
  const all: readonly (readonly [boolean, string, string, string])[] = [
    [
      facts.supply === 'converter' && facts.addedLimit === null,
      "The maker's limit for added loads",
      "Read the maker's instructions for body builders",
      'everything: without it there is no feed',
    ],
    [
      facts.supply === null,
      'What feeds the 12/24 V net',
      'Look for a sensor on the minus post; log the post on a drive',
      'hunting, run signal, Ah, what is left over',
    ],
    [facts.length === null, 'The way from battery to charger', 'Lay a string and measure it', 'cable, fuse'],
    [
      facts.return === null,
      'The way back',
      'Decide: a cable, or the body after measuring its loop',
      'cable, hunting, monitor',
    ],
    [
      facts.chemistry === null || facts.capacity === null,
      'The house battery',
      'Read its plate: chemistry, Ah, charge limit',
      'charger, highest volts',
    ],
    [facts.stock.length === 0, 'Sizes in stock', 'Look on the shelf', 'cable'],
  ];
  return all.filter(([open]) => open).map(([, what, how, changes]) => [what, how, changes] as const);
}
