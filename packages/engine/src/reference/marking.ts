/** Letters, codes and colours by which parts, terminals, fuses and conductors are marked. */
import type { FuseFamily } from './fuse-curve.ts';
import type { Figure } from './sourced.ts';
import { noFigure } from './sourced.ts';
import { din72552Table } from './tables/din72552.ts';
import { fuseColoursTable } from './tables/fuse-colours.ts';
import { iec60757Table } from './tables/iec60757.ts';
import { iec81346Table } from './tables/iec81346.ts';

/** Colour of a blade fuse by rating; no figure for other families and for ratings without a colour. */
export function fuseColour(family: FuseFamily, ratingA: number): Figure<string> {
  const types = family === 'blade-e' ? 'E' : 'C F';
  const row = fuseColoursTable.rows.find(
    (candidate) => candidate.types === types && candidate.ratingA === ratingA,
  );
  if (!family.startsWith('blade-') || row === undefined || row.colour === '') {
    return noFigure(`${family} ${ratingA} A has no colour in the code`);
  }
  return { value: row.colour, unit: '', prov: row.prov, source: fuseColoursTable.source };
}

/** Meaning of a terminal number of road vehicles ("30", "87a", "D+"). */
export function terminalMeaning(terminal: string): Figure<string> {
  const row = din72552Table.rows.find((candidate) => candidate.terminal === terminal);
  if (row === undefined) return noFigure(`terminal ${terminal} is not in the list`);
  return { value: row.meaning, unit: '', prov: row.prov, source: din72552Table.source };
}

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

/** What a class letter of IEC 81346-2 stands for. */
export function classMeaning(letter: string): Figure<string> {
  const row = iec81346Table.rows.find((candidate) => candidate.letter === letter);
  if (row === undefined) return noFigure(`${letter} is not a class of IEC 81346-2`);
  return { value: row.class, unit: '', prov: row.prov, source: iec81346Table.source };
}
