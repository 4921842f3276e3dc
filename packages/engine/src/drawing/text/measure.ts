/** How wide lettering is on the drawing, from the typeface's table: the same number everywhere, without a document. */
import { ADVANCE_WIDTHS, CAPITAL_HEIGHT } from './advance-widths.ts';

export type Weight = 'regular' | 'strong';

/** Height of capitals at print size, mm: nothing on paper is lettered smaller. */
export const CAPITALS = 2;
/** Font size whose capitals have that height, mm. */
export const TEXT_SIZE = Math.ceil((CAPITALS / CAPITAL_HEIGHT) * 1e5) / 100;
/** Distance of baselines, mm. */
export const LINE = 3.5;
/** From the top of the highest letters to the baseline, and from there to the lowest point, mm. */
export const ASCENT = 2.3;
export const DESCENT = 0.7;
/** Space between two runs of one line, mm. */
export const RUN_GAP = 0.9;

/** A character that the typeface lacks is reserved a generous width, in thousandths of the em. */
const UNKNOWN_WIDTH = 900;

/** Part of a line in one weight. */
export interface Run {
  readonly text: string;
  readonly strong: boolean;
  /** Room kept for it, mm, where that is more than its own width (numbers of one group are given equal room). */
  readonly room?: number;
}

export type Line = readonly Run[];

function tableOf(rows: readonly (readonly [number, string])[]): ReadonlyMap<number, number> {
  return new Map(
    rows.flatMap(([first, widths]) =>
      widths.split(' ').map((width, i) => [first + i, Number.parseInt(width, 36)] as const),
    ),
  );
}

const TABLES: Readonly<Record<Weight, ReadonlyMap<number, number>>> = {
  regular: tableOf(ADVANCE_WIDTHS.regular),
  strong: tableOf(ADVANCE_WIDTHS.strong),
};

/** Width of a text, mm, at a font size in mm, without kerning. */
export function textWidth(text: string, weight: Weight = 'regular', size: number = TEXT_SIZE): number {
  const table = TABLES[weight];
  let sum = 0;
  for (const character of text) {
    const width = table.get(character.codePointAt(0) ?? 0) ?? 0;
    sum += width === 0 ? UNKNOWN_WIDTH : width;
  }
  return (sum * size) / 1000;
}

/** Widths of words at the usual size: a drawing asks for the same ones again and again. */
const known: Readonly<Record<Weight, Map<string, number>>> = { regular: new Map(), strong: new Map() };
const MOST_KNOWN = 5000;

function wordWidth(text: string, weight: Weight): number {
  const widths = known[weight];
  let width = widths.get(text);
  if (width === undefined) {
    width = textWidth(text, weight);
    if (widths.size >= MOST_KNOWN) widths.clear();
    widths.set(text, width);
  }
  return width;
}

const runWidth = (run: Run): number =>
  Math.max(run.room ?? 0, wordWidth(run.text, run.strong ? 'strong' : 'regular'));

/** Width of a line, mm. */
export function lineWidth(line: Line): number {
  return line.reduce((sum, run) => sum + runWidth(run), 0) + RUN_GAP * Math.max(0, line.length - 1);
}

export const widest = (lines: readonly Line[]): number => Math.max(0, ...lines.map(lineWidth));

/** Height of so many lines from the top of the first to the lowest point of the last, mm. */
export const blockHeight = (lines: number): number =>
  lines === 0 ? 0 : ASCENT + (lines - 1) * LINE + DESCENT;

/** Breaks a text into lines no wider than `width`, at spaces, and inside words that are wider than that. */
export function wrap(
  text: string,
  width: number,
  weight: Weight = 'regular',
  size: number = TEXT_SIZE,
): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/[ \t\n]+/).filter((w) => w !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, weight, size) <= width) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    const pieces = broken(word, width, weight, size);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1) ?? '';
  }
  return line === '' ? lines : [...lines, line];
}

function broken(word: string, width: number, weight: Weight, size: number): readonly string[] {
  const pieces: string[] = [];
  let piece = '';
  for (const character of word) {
    if (piece !== '' && textWidth(piece + character, weight, size) > width) {
      pieces.push(piece);
      piece = '';
    }
    piece += character;
  }
  return [...pieces, piece];
}

/** Half a grid unit, mm: boxes around text come in steps of it, so that most changes of a word move nothing. */
const STEP = 1.25;

export const roundUp = (mm: number): number => Math.max(0, Math.ceil(mm / STEP - 1e-9)) * STEP;

/** At most so many lines; what is left out is said by an ellipsis. */
export function clipped(lines: readonly string[], most: number): readonly string[] {
  if (lines.length <= most) return lines;
  const kept = lines.slice(0, most);
  return [...kept.slice(0, -1), `${(kept.at(-1) ?? '').replace(/.$/u, '')}…`];
}
