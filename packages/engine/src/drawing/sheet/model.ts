/** A page's content before it is laid out: boxes with ports, wires with label boxes. Millimetres at print size. */
import type { Id } from '../../contracts/index.ts';
import type { SubjectPart, SubjectWire } from '../subject.ts';
import type { Line } from '../text/measure.ts';

/**
 * How much width a page spends: `wide` writes wire labels in two lines and loads' text at the side, `mid` writes labels inside
 * a place in a tall form, `slim` all labels, and loads' text above and below.
 */
export type Mode = 'wide' | 'mid' | 'slim';
export const MODES: readonly Mode[] = ['wide', 'mid', 'slim'];

export type Side = 'W' | 'E';
export type Shape = 'inline' | 'round' | 'bar' | 'box';

/** One wire end on a node. */
export interface Port {
  readonly wire: Id;
  readonly end: 'from' | 'to';
  readonly terminal: string;
  readonly side: Side;
}

export const portId = (port: Pick<Port, 'wire' | 'end'>): string => `${port.wire}\n${port.end}`;

export interface Node {
  readonly id: Id;
  readonly part: SubjectPart;
  /** Index of its place from the nose. */
  readonly place: number;
  readonly shape: Shape;
  /** From top to bottom at each side. */
  readonly west: readonly Port[];
  readonly east: readonly Port[];
  /** Lines above the symbol, or at the side of a round one. */
  readonly head: readonly Line[];
  /** Lines below it. */
  readonly foot: readonly Line[];
  /** Text of a round symbol stands beside it. */
  readonly beside: boolean;
}

export interface Edge {
  readonly wire: SubjectWire;
  /** It leaves here to the east. */
  readonly source: { readonly node: Id; readonly port: Port };
  /** It arrives here from the west. */
  readonly target: { readonly node: Id; readonly port: Port };
  readonly label: Label;
}

/** The box that straddles a wire: lines above and below it. */
export interface Label {
  readonly above: readonly Line[];
  readonly below: readonly Line[];
  readonly width: number;
  /** From the wire to the top and to the bottom of the box, mm, both positive. */
  readonly up: number;
  readonly down: number;
}

export interface SheetModel {
  readonly mode: Mode;
  readonly nodes: readonly Node[];
  readonly edges: readonly Edge[];
  /** Places with a node, nose to tail: indexes into the subject's places. */
  readonly places: readonly number[];
}
