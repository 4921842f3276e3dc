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
  for (const lines of alike(table.lines)) writeState(page, lines);
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

/** Lines of one state that read alike in everything but the hands are one entry. */
function alike(lines: readonly StateLine[]): readonly (readonly [StateLine, ...StateLine[]])[] {
  const groups = new Map<string, [StateLine, ...StateLine[]]>();
  for (const line of lines) {
    const key = [line.state, line.cameFrom.join(), ...stateWordsOf(line)].join('|');
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [line]);
    else group.push(line);
  }
  return [...groups.values()];
}

/** "charge-switch on" or, where several positions read alike, "charge-switch on or off". */
function handsOf(lines: readonly StateLine[]): string {
  const [first] = lines;
  if (first === undefined || lines.length === 1) return handWords(first?.hands ?? {});
  const names = Object.keys(first.hands).toSorted();
  const moved = names.filter((name) => lines.some((line) => line.hands[name] !== first.hands[name]));
  const whole = lines.length === 2 ** moved.length;
  if (!whole) return lines.map((line) => handWords(line.hands)).join('; or ');
  return names
    .map((name) =>
      moved.includes(name) ? `${name} on or off` : handWords({ [name]: first.hands[name] ?? false }),
    )
    .join(', ');
}

function writeState(page: Page, lines: readonly [StateLine, ...StateLine[]]): void {
  const [line] = lines;
  const hands = handsOf(lines);
  const from = line.cameFrom.length === 0 ? '' : ` (after ${line.cameFrom.map(stateWords).join(', ')})`;
  page.text(
    `${sentence(stateWords(line.state))}${hands === '' ? '' : `, ${hands}`}${from}`,
    0,
    2,
    page.style.bold,
  );
  for (const words of stateWordsOf(line)) page.text(words, 2, 2);
}

/** What stands under the name of a state: posts and supply points, then each charger. */
function stateWordsOf(line: StateLine): string[] {
  const posts = line.posts === null ? [] : [`posts ${printValue(line.posts, 'V')}`];
  const signals = line.signals.map(({ part, volts }) =>
    volts !== null && Math.abs(volts) >= LIVE ? `${part} live, ${printValue(volts, 'V')}` : `${part} dead`,
  );
  return [[...posts, ...signals].join('; '), ...line.chargers.map(chargerWords)].filter(
    (text) => text !== '',
  );
}

/** From here on a terminal counts as live, V. */
const LIVE = 2;

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
const MOST_LABEL = 36;
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

const CELL = 12;

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
    ...(column.cameFrom.length === 0 ? [] : [`after ${stateWords(column.cameFrom.at(-1) ?? '')}`]),
  ];
}

function cellLines(cell: ReadingCell, room: number): string[] {
  if (cell.floating) return wrap(`${reading(cell)}, floating`, room);
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
