/** `npm run bench`: prints the table of all benches; ends 1 when a gate is missed. */
import { fileURLToPath } from 'node:url';
import { benchDrawing } from './drawing.ts';
import { benchJudged, firstRun, inFreshProcess, type JudgedRow } from './judged.ts';
import { benchLive } from './live.ts';
import { benchNetwork } from './network.ts';

interface Line {
  readonly name: string;
  readonly measured: number;
  /** null: the row is told, not judged. */
  readonly gate: number | null;
  readonly aim: number;
  readonly holds: boolean;
  readonly note: string;
}

const number = (n: number): string => (n >= 100 ? n.toFixed(0) : n.toPrecision(3)).padStart(7);

function printed(line: Line): string {
  const mark = line.gate === null ? 'told  ' : line.holds ? 'holds ' : 'MISSED';
  const gate = line.gate === null ? '      -' : number(line.gate);
  return `${number(line.measured)}  gate ${gate}  aim ${number(line.aim)}  ${mark}  ${line.name}\n${' '.repeat(9)}${line.note}`;
}

async function main(): Promise<number> {
  const program = fileURLToPath(import.meta.url);
  // The network first: after whole builds have been solved, reading an element is slower for having seen many sorts.
  const { rows, point } = await benchNetwork();
  const network = rows.map((row): Line => ({ ...row, measured: row.ratio, holds: row.ratio >= row.gate }));
  const judged = (await benchJudged((seed) => inFreshProcess(program, seed), point)).map(asLong);
  const live = (await benchLive()).map(asLong);
  return told([...network, ...judged, ...live]);
}

/** Small is good. */
const asLong = (row: JudgedRow): Line => ({
  ...row,
  measured: row.ratio,
  holds: row.gate === null || row.ratio <= row.gate,
});

/** Prints the lines; 1 when a gate is missed. */
function told(lines: readonly Line[]): number {
  console.log(
    'Ratios measured side by side in this run. Network: how many times faster; judged set and edits: how many times as long.',
  );
  for (const line of lines) console.log(printed(line));
  return lines.every((line) => line.holds) ? 0 : 1;
}

/** Drawing has no measure beside it in the run: its times are told, not judged. */
async function toldDrawing(): Promise<void> {
  console.log(
    'Drawing, in milliseconds of this machine, beside what a quiet one should stay under; runs of the layout library.',
  );
  for (const { name, milliseconds, aim, layouts } of await benchDrawing())
    console.log(
      `${number(milliseconds)}  aim ${number(aim)}  layouts ${String(layouts).padStart(2)}  ${name}`,
    );
}

/** `--live` with the name of a sort of edit, or without: only those; `--drawing`: only drawing. */
const [flag, seed] = process.argv.slice(2);
if (flag === '--first') console.log(firstRun(Number(seed)));
else if (flag === '--live') process.exitCode = told((await benchLive(seed ?? null)).map(asLong));
else if (flag === '--drawing') await toldDrawing();
else {
  process.exitCode = await main();
  await toldDrawing();
}
