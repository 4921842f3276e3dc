/** Colours of conductors and the letters for them. */
import type { Figure } from './sourced.ts';
import { noFigure } from './sourced.ts';
import { iec60757Table } from './tables/iec60757.ts';

/** Short names of the colours of the code: "blue" of "blue (including light blue)". */
const short = (colour: string): string => colour.replace(/ \(.*$/, '');

/** Letter code of a colour name ("red" RD, "green-and-yellow" GNYE). */
export function colourCode(colour: string): Figure<string> {
  const wanted = colour.trim().toLowerCase();
  const row = iec60757Table.rows.find((candidate) => short(candidate.colour) === wanted);
  if (row === undefined) return noFigure(`"${colour}" is not a colour of IEC 60757`);
  return { value: row.code, unit: '', prov: row.prov, source: iec60757Table.source };
}

/** Colour name of a letter code. */
export function colourName(code: string): Figure<string> {
  const row = iec60757Table.rows.find((candidate) => candidate.code === code.trim().toUpperCase());
  if (row === undefined) return noFigure(`"${code}" is not a colour code of IEC 60757`);
  return { value: short(row.colour), unit: '', prov: row.prov, source: iec60757Table.source };
}
