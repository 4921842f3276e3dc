/** What is drawn, before it is printed: strokes, circles and lettering in millimetres. */
import type { Glyph } from '../contracts/index.ts';
import type { Line } from './text/measure.ts';

export type Ink = PathInk | TextInk | GlyphInk | CircleInk;

export interface PathInk {
  readonly type: 'path';
  readonly d: string;
  readonly weight: number;
  readonly fill?: 'paper' | 'ink';
  readonly dashed?: boolean;
}

export interface CircleInk {
  readonly type: 'circle';
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly weight: number;
  /** The terminal that it stands for. */
  readonly terminal?: string;
}

export interface GlyphInk {
  readonly type: 'glyph';
  readonly glyph: Glyph;
  readonly x: number;
  readonly y: number;
  /** Quarter turns clockwise. */
  readonly turned: -1 | 0 | 1;
  readonly mirrored: boolean;
}

export interface TextInk {
  readonly type: 'text';
  readonly x: number;
  /** Baseline. */
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly line: Line;
  readonly size?: number;
}

interface Edges {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export const LINE_WEIGHT = {
  outline: 0.5,
  symbol: 0.35,
  link: 0.25,
  frame: 0.7,
  dimension: 0.25,
  rule: 0.5,
} as const;

export const path = (d: string, weight: number, rest: Partial<PathInk> = {}): PathInk => ({
  type: 'path',
  d,
  weight,
  ...rest,
});
export const text = (x: number, y: number, line: Line, anchor: TextInk['anchor'] = 'start'): TextInk => ({
  type: 'text',
  x,
  y,
  anchor,
  line,
});

/** Millimetres in thousandths, without needless zeros. */
export function n(value: number): string {
  const rounded = Math.round(value * 1000) / 1000;
  return String(Object.is(rounded, -0) ? 0 : rounded);
}

export const glyphAt = (
  glyph: Glyph,
  x: number,
  y: number,
  turned: -1 | 0 | 1 = 0,
  mirrored = false,
): GlyphInk => ({
  type: 'glyph',
  glyph,
  x,
  y,
  turned,
  mirrored,
});

/** Radius of an open circle at a terminal, mm. */
export const TERMINAL_RADIUS = 0.7;

export const rectangle = ({ left, top, right, bottom }: Edges): string =>
  `M${n(left)} ${n(top)}H${n(right)}V${n(bottom)}H${n(left)}Z`;
