/**
 * How a kind of part is drawn: geometry in the manner of IEC 60617, our own and drawn from memory of the standard's principles;
 * to be checked against the standard before it is called conforming. All in millimetres at print size, origin at the symbol's
 * centre, y downwards.
 */

/** A path of the symbol. */
export interface Stroke {
  /** SVG path data. */
  readonly d: string;
  /** Line width, mm; 0.35 when absent. */
  readonly weight?: number;
  /** A mechanical link. */
  readonly dashed?: boolean;
  /** What the closed path is filled with; nothing when absent. */
  readonly fill?: 'paper' | 'ink';
}

export interface Glyph {
  readonly strokes: readonly Stroke[];
  /** Lettering at the standard size, centred on x, standing on the baseline y. */
  readonly letters?: readonly { readonly x: number; readonly y: number; readonly text: string }[];
  /** How far it reaches above and below its axis, mm, both positive. */
  readonly above: number;
  readonly below: number;
  /** Half of its width: leads end here, mm. */
  readonly half: number;
  /** Height at which a mechanical link meets it, mm. */
  readonly link?: number;
}

/** One current path through a part: a row from a terminal on the left to one on the right, the glyph between them. */
export interface SymbolRow {
  readonly left: string | null;
  readonly right: string | null;
  readonly glyph: Glyph;
}

export interface SymbolData {
  /**
   * `inline`: two terminals, one at each side, no outline; `round`: one wire, no outline; `bar`: any number of wires on a thick
   * upright bar; `box`: outline with named terminals. A part that does not fit its shape in a view is drawn as a box there.
   */
  readonly shape: 'inline' | 'round' | 'bar' | 'box';
  /** All terminals, in the order in which they are listed from the top; or any number. */
  readonly terminals: readonly string[] | 'numbered';
  /** Stands in the middle of a box, at the end of the one wire of a round symbol, at the foot of a bar. */
  readonly glyph: Glyph | null;
  /** Current paths that are kept level; an inline part has one. */
  readonly rows?: readonly SymbolRow[];
  /** The moving parts of the rows are linked (a coil and its contact, two poles). */
  readonly linked?: boolean;
  /** IEC 81346-2 class letter where it is another than the kind's: a motor among the loads. */
  readonly letter?: string;
  /** What stands beside the designation: `60 A`, `AGM 95 Ah`. */
  readonly plate?: readonly string[];
}
