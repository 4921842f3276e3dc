/**
 * Glyphs that several kinds share, in the manner of IEC 60617 (own geometry, from memory of its principles), and what stands
 * beside a designation. Millimetres at print size, origin at the centre, y downwards; the conductors end at a glyph's half width.
 */
import type { Glyph, Stroke, SymbolRow, ValueReader } from '../contracts/index.ts';
import { isStated, member } from './figures.ts';

const LETTER_DROP = 1;

/** A fuse: the line runs right through. */
export const fuseGlyph: Glyph = {
  strokes: [{ d: 'M-3.4-1.25H3.4V1.25H-3.4Z', fill: 'paper' }, { d: 'M-3.4 0H3.4' }],
  above: 1.25,
  below: 1.25,
  half: 3.4,
};

/** A resistor, with two taps for the sense wires of a shunt. */
export const shuntGlyph: Glyph = {
  strokes: [{ d: 'M-3.4-1.25H3.4V1.25H-3.4Z', fill: 'paper' }, { d: 'M-2.2 1.25V2.2M2.2 1.25V2.2' }],
  above: 1.25,
  below: 2.2,
  half: 3.4,
};

export const diodeGlyph: Glyph = {
  strokes: [{ d: 'M-1.6-1.8L1.6 0L-1.6 1.8Z', fill: 'paper' }, { d: 'M1.6-1.8V1.8' }],
  above: 1.8,
  below: 1.8,
  half: 1.6,
};

/** A detachable or bolted connection: an open circle in the line. */
export const jointGlyph: Glyph = {
  strokes: [{ d: 'M-1.1 0a1.1 1.1 0 1 0 2.2 0a1.1 1.1 0 1 0-2.2 0Z', fill: 'paper' }],
  above: 1.1,
  below: 1.1,
  half: 1.1,
};

const BLADE: Stroke = { d: 'M2.5 0L-2.3-2.6', weight: 0.5 };
const GRIP: readonly Stroke[] = [{ d: 'M.1-1.3V-3.4', dashed: true, weight: 0.25 }, { d: 'M-1.2-3.4H1.4' }];

const contactGlyph = (strokes: readonly Stroke[], above: number): Glyph => ({
  strokes,
  above,
  below: 1,
  half: 2.5,
  link: -1.3,
});

/** A contact moved by hand. */
export const switchGlyph = contactGlyph([BLADE, ...GRIP], 3.4);
/** A contact moved by a coil. */
export const contactGlyphOf = (closedAtRest: boolean): Glyph =>
  closedAtRest
    ? {
        ...contactGlyph([{ d: 'M2.5 0L-2.9 1.3', weight: 0.5 }, { d: 'M-2.5 0V2.1' }], 1),
        below: 2.1,
        link: 0.7,
      }
    : contactGlyph([BLADE], 2.6);
/** A contact that isolates: a bar at the fixed contact. */
export const isolatorGlyph: Glyph = {
  ...contactGlyph([BLADE, { d: 'M-2.5-1.2V1.2' }, ...GRIP], 3.4),
  below: 1.2,
};
/** A contact that interrupts by itself: a cross at the fixed contact, and its reset grip. */
export const breakerGlyph = contactGlyph(
  [
    { d: 'M2.5 0L-2.1-2.6', weight: 0.5 },
    { d: 'M-3.4-.9L-1.6.9M-3.4.9L-1.6-.9', weight: 0.4 },
    { d: 'M.1-1.35V-3.2M-1-3.2H1.2' },
  ],
  3.2,
);

/** A coil: a rectangle with a slant. */
export const coilGlyph: Glyph = {
  strokes: [{ d: 'M-2.6-1.7H2.6V1.7H-2.6Z', fill: 'paper' }, { d: 'M-1.3 1.7L1.3-1.7' }],
  above: 1.7,
  below: 1.7,
  half: 2.6,
  link: 1.7,
};

const CIRCLE: Stroke = { d: 'M-3.4 0a3.4 3.4 0 1 0 6.8 0a3.4 3.4 0 1 0-6.8 0Z', fill: 'paper' };
const round = (strokes: readonly Stroke[], letters: Glyph['letters'] = []): Glyph => ({
  strokes,
  letters,
  above: 3.4,
  below: 3.4,
  half: 3.4,
});

/** A machine: its letter in a circle. */
export const machineGlyph = (letter: string): Glyph =>
  round([CIRCLE], [{ x: 0, y: LETTER_DROP, text: letter }]);
/** A generator of alternating current behind its rectifier. */
export const generatorGlyph: Glyph = round(
  [CIRCLE, { d: 'M-1.8 1.7q.9-1.4 1.8 0t1.8 0' }],
  [{ x: 0, y: 0.3, text: 'G' }],
);
export const lampGlyph: Glyph = round([CIRCLE, { d: 'M-2.4-2.4L2.4 2.4M2.4-2.4L-2.4 2.4' }]);

const oblong = (d: string): Glyph => ({
  strokes: [{ d: 'M-3.4-2.5H3.4V2.5H-3.4Z', fill: 'paper' }, ...(d === '' ? [] : [{ d }])],
  above: 2.5,
  below: 2.5,
  half: 3.4,
});

/** Any consumer. */
export const consumerGlyph = oblong('');
/** A consumer that is a resistance. */
export const heaterGlyph = oblong('M-1.7-2.5V2.5M0-2.5V2.5M1.7-2.5V2.5');
/** A sensor in the line: a ramp in a rectangle. */
export const sensorGlyph: Glyph = {
  strokes: [{ d: 'M-3.4-2H3.4V2H-3.4Z', fill: 'paper' }, { d: 'M-2.2 1H-1L1-1H2.2' }],
  above: 2,
  below: 2,
  half: 3.4,
};

/** A converter: a square with a diagonal, what goes in above it, what comes out below it (direct current). */
export const converterGlyph: Glyph = {
  strokes: [
    { d: 'M-4-3.4H4V3.4H-4Z', fill: 'paper' },
    { d: 'M-4 3.4L4-3.4M-3-2H-.4M-3-1.1H-.4M.4 1.5H3M.4 2.4H3' },
  ],
  above: 3.4,
  below: 3.4,
  half: 4,
};

/** Two cells. */
export const batteryGlyph: Glyph = {
  strokes: [{ d: 'M-4.4 0H-1.7M1.7 0H4.4M-.6-3V3M1.6-3V3' }, { d: 'M-1.6-1.6V1.6M.6-1.6V1.6', weight: 0.8 }],
  above: 3,
  below: 3,
  half: 4.4,
};

/** An open terminal. */
export const terminalGlyph: Glyph = {
  strokes: [{ d: 'M-1.1 0a1.1 1.1 0 1 0 2.2 0a1.1 1.1 0 1 0-2.2 0Z', fill: 'paper' }],
  above: 1.1,
  below: 1.1,
  half: 1.1,
};

/** The body, at the foot of a bar. */
export const bodyGlyph: Glyph = {
  strokes: [
    { d: 'M0-1.4V0', weight: 0.5 },
    { d: 'M-2.4 0H2.4', weight: 0.5 },
    { d: 'M-2.2 0L-3 1.6M0 0L-.8 1.6M2.2 0L1.4 1.6' },
  ],
  above: 1.4,
  below: 1.6,
  half: 3,
};

export const row = (left: string | null, right: string | null, glyph: Glyph): SymbolRow => ({
  left,
  right,
  glyph,
});

/** Quantities as they were typed, number and unit kept together; what is not known is left out. */
export function plate(read: ValueReader, ...fields: readonly string[]): readonly string[] {
  return fields.flatMap((field) => typed(read.raw(field)));
}

/** As `plate`, with a question mark where the first field is not known: `? A`. */
export function plateOr(read: ValueReader, unit: string, ...fields: readonly string[]): readonly string[] {
  const [first = ''] = fields;
  return read.given(first) ? plate(read, ...fields) : [`?\u00A0${unit}`, ...plate(read, ...fields.slice(1))];
}

/** The thread of a stud. */
export function threadOf(read: ValueReader): readonly string[] {
  const raw = read.raw('stud');
  return typeof raw === 'string' ? [raw] : [];
}

function typed(raw: unknown): readonly string[] {
  if (isStated(raw)) return [raw.text.replaceAll(/\s+/g, '\u00A0')];
  const first = member(raw, 'resistive');
  return first === null ? [] : typed(first);
}
