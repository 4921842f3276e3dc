/** The two ends of a wire that is to be led: where they stand, or may stand. */
import type { Id } from '../../../contracts/index.ts';
import { BAR, type Frame } from '../frame.ts';
import { portId, type Node, type Port } from '../model.ts';
import { coreOf, portPoint, type Picture, type PlacedNode } from '../picture.ts';
import { heightAt, heightsBeside, nodeIn } from './ends.ts';
import type { Item } from './obstacles.ts';

/** One end of the wire to be led. */
export interface RowEnd {
  readonly node: Id;
  readonly x: number;
  /** Fixed: it stands there; bar: it may stand where its other taps leave room; floating: the part is set to the row. */
  readonly type: 'fixed' | 'bar' | 'floating';
  /** Where it stands; of a bar its middle. */
  readonly y: number;
  /** Of a floating one: where it stood before. */
  readonly stood: number | null;
  /** Of a bar: heights of its other taps at that side, the span of those of both sides, and what it takes beyond that. */
  readonly taps: readonly number[];
  readonly span: Span;
  readonly beyond: {
    readonly left: number;
    readonly right: number;
    readonly up: number;
    readonly down: number;
  };
  /** Of a floating one: its part, around the row. */
  readonly own: readonly Item[];
}

export interface Span {
  readonly first: number;
  readonly last: number;
}

/** How far a height lies out of a span. */
export const outOf = ({ first, last }: Span, y: number): number => Math.max(0, first - y, y - last);

/** A part that is not placed yet: it is set where its wire comes in. */
export interface Floating {
  readonly node: Node;
  readonly frame: Frame;
  readonly x: number;
  /** Height of its upper edge where it stood. */
  readonly y: number | null;
}

export interface EdgeEnd {
  readonly node: Id;
  readonly port: Port;
}

export const middleOf = (placed: PlacedNode): number => {
  const core = coreOf(placed);
  return (core.top + core.bottom) / 2;
};

const NOTHING = { left: 0, right: 0, up: 0, down: 0 } as const;

export function endOf(picture: Picture, { node, port }: EdgeEnd, floating: Floating | null): RowEnd | null {
  if (floating !== null && node === floating.node.id) return floatingEnd(floating, port);
  const placed = nodeIn(picture, node);
  if (placed === undefined) return null;
  const { x } = portPoint(placed, port);
  const common = { node, x, stood: null, own: [] };
  if (placed.frame.ports.has(portId(port))) {
    const y = heightAt(placed, port);
    return { ...common, type: 'fixed', y, taps: [], span: { first: y, last: y }, beyond: NOTHING };
  }
  const core = coreOf(placed);
  const beyond = {
    left: placed.x,
    right: placed.x + placed.frame.width,
    up: core.top - placed.y + BAR.over,
    down: BAR.over + placed.y + placed.frame.height - core.bottom,
  };
  const span = { first: core.top + BAR.over, last: core.bottom - BAR.over };
  return { ...common, type: 'bar', y: middleOf(placed), taps: heightsBeside(placed, port), span, beyond };
}

function floatingEnd({ node, frame, x, y }: Floating, port: Port): RowEnd {
  const up = frame.ports.get(portId(port)) ?? 0;
  const { width, height } = frame;
  return {
    node: node.id,
    type: 'floating',
    x: port.side === 'W' ? x : x + width,
    y: 0,
    stood: y === null ? null : y + up,
    taps: [],
    span: { first: 0, last: 0 },
    beyond: NOTHING,
    own: [{ what: 'part', left: x, right: x + width, up, down: height - up }],
  };
}
