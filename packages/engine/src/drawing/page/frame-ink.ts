/** The frame of a page on paper: border, zones, nose and tail, title block with the data fields of ISO 7200 in our own words. */
import type { Subject } from '../subject.ts';
import { LINE_WEIGHT, n, path, text, type Ink, type TextInk } from '../ink.ts';
import { clipped, wrap } from '../text/measure.ts';
import { DRAFT_STRIP, MARGIN, STRIP, type Paper } from './paper.ts';

export const ZONES = { columns: 6, rows: 4 } as const;

/** What a title block says beside the build's own title. */
export interface Block {
  readonly kind: string;
  readonly date: string;
  readonly page: number;
  readonly pages: number;
  /** Why it is no more than a draft; null: it is none. */
  readonly draft: string | null;
  readonly units: 'metric' | 'awg';
}

const share = (at: number, size: number, count: number): number =>
  Math.min(count - 1, Math.max(0, Math.floor((at / size) * count)));

/** The zone of a point on a page: `C2`. */
export function zoneOf(paper: Paper, x: number, y: number): string {
  const width = paper.width - MARGIN.left - MARGIN.right;
  const height = paper.height - MARGIN.top - MARGIN.bottom;
  const column = share(x - MARGIN.left, width, ZONES.columns);
  const row = share(y - MARGIN.top, height, ZONES.rows);
  return `${'ABCD'.charAt(row)}${column + 1}`;
}

export function frameInk(paper: Paper, subject: Subject, block: Block): readonly Ink[] {
  return [
    ...border(paper),
    ...zones(paper),
    ...noseAndTail(paper),
    ...titleBlock(paper, subject, block),
    ...draftInk(paper, block),
  ];
}

const plain = (words: string) => [{ text: words, strong: false }];
const strong = (words: string) => [{ text: words, strong: true }];

function border({ width, height }: Paper): readonly Ink[] {
  const right = width - MARGIN.right;
  const bottom = height - MARGIN.bottom;
  return [path(`M${MARGIN.left} ${MARGIN.top}H${n(right)}V${n(bottom)}H${MARGIN.left}Z`, LINE_WEIGHT.frame)];
}

function zones({ width, height }: Paper): readonly Ink[] {
  const across = (width - MARGIN.left - MARGIN.right) / ZONES.columns;
  const down = (height - MARGIN.top - MARGIN.bottom) / ZONES.rows;
  const columns = Array.from({ length: ZONES.columns }, (_, i): readonly Ink[] => {
    const x = MARGIN.left + i * across;
    return [
      ...(i === 0 ? [] : [path(`M${n(x)} ${MARGIN.top - 3.4}V${MARGIN.top}`, LINE_WEIGHT.dimension)]),
      text(x + across / 2, MARGIN.top - 1.4, plain(String(i + 1)), 'middle'),
    ];
  });
  const rows = Array.from({ length: ZONES.rows }, (_, i): readonly Ink[] => {
    const y = MARGIN.top + i * down;
    return [
      ...(i === 0 ? [] : [path(`M${MARGIN.left - 3.4} ${n(y)}H${MARGIN.left}`, LINE_WEIGHT.dimension)]),
      text(MARGIN.left - 2.2, y + down / 2 + 1, plain('ABCD'.charAt(i)), 'middle'),
    ];
  });
  return [...columns.flat(), ...rows.flat()];
}

function noseAndTail({ width }: Paper): readonly Ink[] {
  const y = MARGIN.top - 2.4;
  const right = width - MARGIN.right;
  return [
    path(`M${MARGIN.left} ${n(y)}l3-1.2v2.4Z`, 0, { fill: 'ink' }),
    text(MARGIN.left + 4, y + 1, plain('nose')),
    path(`M${n(right)} ${n(y)}l-3-1.2v2.4Z`, 0, { fill: 'ink' }),
    text(right - 4, y + 1, plain('tail'), 'end'),
  ];
}

interface Cell {
  readonly width: number;
  readonly caption: string;
  readonly lines: readonly (readonly { readonly text: string; readonly strong: boolean }[])[];
}

const CAUTION = ['Isolate every source', 'and prove dead before work'];
const TITLE_SIZE = 3.5;

function titleBlock(paper: Paper, subject: Subject, block: Block): readonly Ink[] {
  const left = MARGIN.left;
  const bottom = paper.height - MARGIN.bottom;
  const top = bottom - STRIP;
  const total = paper.width - MARGIN.left - MARGIN.right;
  const fixed: readonly Cell[] = [
    { width: 28, caption: 'Practice', lines: [plain(subject.practice)] },
    { width: 43, caption: 'Caution', lines: CAUTION.map(plain) },
    { width: 23, caption: 'Revision', lines: revision(subject, block) },
    { width: 25, caption: 'Date', lines: [plain(block.date === '' ? '—' : block.date)] },
    { width: 17, caption: 'Page', lines: [strong(`${block.page} / ${block.pages}`)] },
  ];
  const key = 52;
  const rest = total - key - fixed.reduce((sum, cell) => sum + cell.width, 0);
  const title: Cell = {
    width: rest,
    caption: 'Title',
    lines: [
      strong(clipped(wrap(subject.title, rest - 4, 'strong', TITLE_SIZE), 1)[0] ?? ''),
      strong(block.kind),
    ],
  };
  const ink: Ink[] = [
    path(`M${left} ${n(top)}H${n(left + total)}`, LINE_WEIGHT.frame),
    ...keyInk(left, top, block),
  ];
  let x = left + key;
  for (const cell of [title, ...fixed]) {
    ink.push(
      path(`M${n(x)} ${n(top)}V${n(bottom)}`, LINE_WEIGHT.dimension),
      ...cellInk(cell, x, top, cell === title),
    );
    x += cell.width;
  }
  return ink;
}

function cellInk(cell: Cell, x: number, top: number, large: boolean): readonly TextInk[] {
  const one = cell.lines.length === 1;
  return [
    text(x + 1.6, top + 3.9, plain(cell.caption)),
    ...cell.lines.map((line, i) => ({
      ...text(x + 1.6, top + (one ? 9.6 : 8.6 + i * 4.2), line),
      ...(large || one ? { size: TITLE_SIZE } : {}),
    })),
  ];
}

function revision(subject: Subject, block: Block): Cell['lines'] {
  const own = subject.revision === '' ? '—' : (clipped(wrap(subject.revision, 19), 1)[0] ?? '');
  return block.draft === null ? [plain(own)] : [plain(own), strong('draft')];
}

/** What the four words on a wire mean. */
function keyInk(x: number, top: number, block: Block): readonly Ink[] {
  const sample =
    block.units === 'metric'
      ? ['25 RD', '4.6\u00A0m · 60\u00A0A']
      : ['4\u00A0AWG RD', '15\u00A0ft · 60\u00A0A'];
  const size = block.units === 'metric' ? 'mm²' : 'size';
  const middle = x + 11;
  return [
    text(x + 1.6, top + 3.9, plain('Wire label')),
    text(middle, top + 8.4, [{ text: 'W3', strong: true }, ...plain(sample[0] ?? '')], 'middle'),
    path(`M${n(x + 1.6)} ${n(top + 9.6)}H${n(x + 20.4)}`, 0.5),
    text(middle, top + 12.8, plain(sample[1] ?? ''), 'middle'),
    text(x + 23, top + 8.4, plain(`number, ${size}, colour`)),
    text(x + 23, top + 12.8, plain('length · protected at')),
  ];
}

/** A heavy box with a striped edge, and the reason beside it: never a grey word behind the drawing, which a copier drops. */
function draftInk(paper: Paper, block: Block): readonly Ink[] {
  if (block.draft === null) return [];
  const left = MARGIN.left + 3;
  const top = MARGIN.top + 1.4;
  const height = DRAFT_STRIP - 2;
  const right = paper.width - MARGIN.right - 3;
  const stripes = Array.from({ length: 4 }, (_, i) => `M${n(left)} ${n(top + 1.5 * i + 1.4)}l3-1.4`).join('');
  const reason = clipped(wrap(block.draft, right - left - 26), 1)[0] ?? '';
  return [
    path(`M${n(left)} ${n(top)}H${n(left + 20)}V${n(top + height)}H${n(left)}Z`, 0.9),
    path(stripes, 0.7),
    path(`M${n(left + 3)} ${n(top)}v${n(height)}`, 0.5),
    { ...text(left + 11.5, top + 4.3, strong('DRAFT'), 'middle'), size: TITLE_SIZE },
    text(left + 22, top + 4.1, plain(reason)),
  ];
}
