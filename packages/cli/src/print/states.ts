/** State table and predicted readings, in as many columns as the terminal has room for. */
import {
  handWords,
  printBand,
  printValue,
  sentence,
  stateWords,
  type Build,
  type ChargerLine,
  type ReadingCell,
  type ReadingColumn,
  type StateLine,
  type StateTable,
} from '@loomwright/engine';
import { Page } from './page.ts';
import type { Style } from './style.ts';
import { columnsOf, left, right, wrap } from './wrap.ts';

export interface StatesInput {
  readonly file: string;
  readonly build: Build;
  readonly table: StateTable;
}

/** Both tables as text. */
export function statesText(
  { file, build, table }: StatesInput,
  paper: { readonly width: number; readonly style: Style },
): string {
  const page = new Page(paper.width, paper.style);
  page.text(`${build.title}, ${file}`, 0, 2, paper.style.bold);
  page.text(
    'A typical day at 20 °C, the vehicle battery full, the house battery half charged, loads off.',
    0,
    2,
  );
  page.heading('What is live, and what charges');
  for (const line of table.lines) writeState(page, line);
  page.heading(`What the meter will read (${printValue(table.meterOhms, 'Ω')})`);
  page.text(
    'Red probe first, black second; − means reversed. Clamps: zero them first.',
    0,
    2,
    paper.style.dim,
  );
  writeReadings(page, table);
  return page.toString();
}

function writeState(page: Page, line: StateLine): void {
  const hands = handWords(line.hands);
  const from = line.cameFrom.length === 0 ? '' : ` (after ${line.cameFrom.map(stateWords).join(', ')})`;
  page.text(
    `${sentence(stateWords(line.state))}${hands === '' ? '' : `, ${hands}`}${from}`,
    0,
    2,
    page.style.bold,
  );
  const live = line.signals
    .filter((signal) => signal.volts !== null && Math.abs(signal.volts) >= 2)
    .map((signal) => `${signal.part} live, ${printValue(signal.volts, 'V')}`);
  const dead = line.signals
    .filter((signal) => signal.volts === null || Math.abs(signal.volts) < 2)
    .map((signal) => `${signal.part} dead`);
  const posts = line.posts === null ? [] : [`posts ${printValue(line.posts, 'V')}`];
  page.text([...posts, ...live, ...dead].join('; '), 2, 2);
  for (const charger of line.chargers) page.text(chargerWords(charger), 2, 2);
}

function chargerWords(charger: ChargerLine): string {
  const enable = charger.enable === null ? '' : `enable ${printValue(charger.enable, 'V')}, `;
  const input = `input ${volts(charger.input)}`;
  const where = `${enable}${input}`;
  if (charger.charging === 'no') return `${charger.part} does not charge; ${where}`;
  const amps = `${printValue(charger.outAmps, 'A')} out, ${printValue(charger.inAmps, 'A')} in`;
  if (charger.charging === 'yes') return `${charger.part} charges: ${amps}; ${where}`;
  const duty = printValue((charger.duty ?? 0) * 100, '%');
  return `${charger.part} hunts: on ${duty} of every ${printValue(charger.period, 's')}; mean ${amps}; ${where}`;
}

function volts(value: number | null): string {
  return value === null ? 'floating' : printValue(value, 'V');
}

const LEAST_LABEL = 18;
const MOST_LABEL = 38;
const GAP = 2;

/** The readings in blocks of as many columns as fit. */
function writeReadings(page: Page, table: StateTable): void {
  const shown = table.points
    .map((point, index) => ({ point, cells: table.columns.map((column) => column.cells[index] ?? null) }))
    .filter((row) => row.cells.some((cell) => cell !== null));
  const labelRoom = labelWidth(
    page.width,
    shown.map((row) => row.point.label),
  );
  for (const block of blocks(table.columns, page.width - labelRoom)) {
    const rows = shown
      .map((row) => ({
        label: row.point.label,
        cells: block.indexes.map((index) => row.cells[index] ?? null),
      }))
      .filter((row) => row.cells.some((cell) => cell !== null));
    writeBlock(page, block, labelRoom, rows);
  }
}

function labelWidth(width: number, labels: readonly string[]): number {
  const longest = Math.max(0, ...labels.map(columnsOf));
  return Math.min(longest, Math.max(LEAST_LABEL, Math.min(MOST_LABEL, Math.floor(width * 0.48))));
}

interface Block {
  readonly indexes: readonly number[];
  readonly columns: readonly ReadingColumn[];
  readonly room: number;
}

const CELL = 14;

function blocks(columns: readonly ReadingColumn[], width: number): Block[] {
  const count = Math.max(1, Math.floor(width / (CELL + GAP)));
  const room = count === 1 ? Math.max(8, width - GAP) : CELL;
  const found: Block[] = [];
  for (let start = 0; start < columns.length; start += count) {
    const some = columns.slice(start, start + count);
    found.push({ indexes: some.map((_, i) => start + i), columns: some, room });
  }
  return found;
}

function writeBlock(
  page: Page,
  block: Block,
  labelRoom: number,
  rows: readonly { label: string; cells: readonly (ReadingCell | null)[] }[],
): void {
  page.blank();
  writeRow(page, [], block.columns.map(columnWords), labelRoom, block.room, page.style.bold);
  for (const row of rows) {
    const cells = row.cells.map((cell) => (cell === null ? [] : cellLines(cell, block.room)));
    writeRow(page, wrap(row.label, labelRoom), cells, labelRoom, block.room, (text) => text);
  }
}

function columnWords(column: ReadingColumn): string[] {
  return [
    stateWords(column.state),
    ...Object.entries(column.hands).map(([id, on]) => `${id} ${on ? 'on' : 'off'}`),
    ...(column.open === null ? [] : [`${column.open} open`]),
  ];
}

function cellLines(cell: ReadingCell, room: number): string[] {
  if (cell.note === 'floating') return ['floating'];
  const number =
    cell.range !== null && cell.range[0] !== cell.range[1]
      ? printBand(cell.range[0], cell.range[1], cell.unit)
      : reading(cell);
  return [...wrap(number, room), ...(cell.note === null ? [] : [cell.note])];
}

/** A reading to what a meter shows: V to two decimals, A to three figures, nothing below the last digit. */
function reading(cell: ReadingCell): string {
  const value = cell.value ?? 0;
  if (cell.unit === 'A' && Math.abs(value) < 0.0005) return '0.0\u00A0A';
  return printValue(value, cell.unit);
}

function writeRow(
  page: Page,
  label: readonly string[],
  cells: readonly (readonly string[])[],
  labelRoom: number,
  room: number,
  paint: (text: string) => string,
): void {
  const wrapped = cells.map((lines) => lines.flatMap((line) => wrap(line, room)));
  const height = Math.max(label.length, ...wrapped.map((lines) => lines.length));
  for (let i = 0; i < height; i += 1) {
    const values = wrapped.map((lines) => ' '.repeat(GAP) + right(lines[i] ?? '', room)).join('');
    page.raw(paint(left(label[i] ?? '', labelRoom) + values));
  }
}
