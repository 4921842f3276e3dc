/** Colours of conductors and the letters for them. */
import type { Figure } from './sourced.ts';
import { noFigure } from './sourced.ts';
import { iec60757Table, type Iec60757Row } from './tables/iec60757.ts';

/** Short names of the colours of the code: "blue" of "blue (including light blue)". */
const short = (colour: string): string => colour.replace(/ \(.*$/, '');

const by = (key: (row: Iec60757Row) => string): ReadonlyMap<string, Iec60757Row> =>
  new Map(iec60757Table.rows.map((row) => [key(row), row]));

const byName = by((row) => short(row.colour));
const byCode = by((row) => row.code);

const figure = (value: string, { prov }: Iec60757Row): Figure<string> => ({
  value,
  unit: '',
  prov,
  source: iec60757Table.source,
});

/** Letter code of a colour name ("red" RD, "green-and-yellow" GNYE). */
export function colourCode(colour: string): Figure<string> {
  const row = byName.get(colour.trim().toLowerCase());
  return row === undefined ? noFigure(`"${colour}" is not a colour of IEC 60757`) : figure(row.code, row);
}

/** Colour name of a letter code. */
export function colourName(code: string): Figure<string> {
  const row = byCode.get(code.trim().toUpperCase());
  return row === undefined
    ? noFigure(`"${code}" is not a colour code of IEC 60757`)
    : figure(short(row.colour), row);
}
