/** A working as a person would write it: what, how, result. */
import { stepText, type Step } from '@loomwright/engine';
import type { Page } from './page.ts';
import { columnsOf, left, right, wrap } from './wrap.ts';

const WIDE = 76;

/** Writes the lines of a working; sources under each line where wanted. */
export function writeWorking(page: Page, steps: readonly Step[], indent: number, sources: boolean): void {
  const rows = steps.map((step) => {
    const text = stepText(step);
    return { ...text, how: text.how.trim(), result: text.result.replaceAll('\u00A0', ' ') };
  });
  const resultRoom = Math.max(0, ...rows.map((row) => columnsOf(row.result)));
  for (const row of rows) {
    if (page.width >= WIDE) wideRow(page, row, indent, resultRoom);
    else narrowRow(page, row, indent);
    if (sources && row.source !== '') page.text(row.source, indent + 2, 0, page.style.dim);
  }
}

interface Row {
  readonly what: string;
  readonly how: string;
  readonly result: string;
}

function wideRow(page: Page, row: Row, indent: number, resultRoom: number): void {
  const room = page.width - indent - resultRoom - 4;
  const whatRoom = Math.floor(room * 0.42);
  const what = wrap(row.what, row.how === '' ? room : whatRoom);
  const how = row.how === '' ? [] : wrap(row.how, room - whatRoom);
  const count = Math.max(what.length, how.length, 1);
  for (let i = 0; i < count; i += 1) {
    const last = i === count - 1;
    const middle =
      row.how === ''
        ? left(what[i] ?? '', room + 2)
        : `${left(what[i] ?? '', whatRoom)}  ${left(how[i] ?? '', room - whatRoom)}`;
    page.raw(`${' '.repeat(indent)}${middle}  ${last ? right(row.result, resultRoom) : ''}`);
  }
}

function narrowRow(page: Page, row: Row, indent: number): void {
  page.pair(row.what, row.result, indent);
  if (row.how !== '') page.text(row.how, indent + 2);
}
