/**
 * Seeded circuits shaped like vehicle wiring: a body as a mesh of sections, parallel returns, radial loads from two busbars,
 * two batteries, an alternator, one to three converters, open contacts.
 */
import type { ElementOf } from '../../packages/engine/src/contracts/element.ts';
import { Random } from './random.ts';

export type Element = ElementOf<number>;

export interface Circuit {
  readonly nodeCount: number;
  readonly reference: number;
  readonly elements: Element[];
  /** Elements that are contacts: may be opened or closed. */
  readonly contacts: readonly number[];
}

export interface Shape {
  /** Number of nodes aimed at, at least 25. */
  readonly nodes: number;
  /** Share of contacts that are open. */
  readonly open: number;
  /** Adds curves of several pieces, low-input rules, input limits. */
  readonly piecewise: boolean;
  readonly converters: number;
  /** Power of a converter at most this share of what its loop can transfer. */
  readonly load: number;
}

class Builder {
  readonly elements: Element[] = [];
  readonly contacts: number[] = [];
  nodes = 1;
  readonly random: Random;
  readonly shape: Shape;

  constructor(random: Random, shape: Shape) {
    this.random = random;
    this.shape = shape;
  }

  node(): number {
    this.nodes += 1;
    return this.nodes - 1;
  }

  wire(a: number, b: number, ohms: number): void {
    this.elements.push({ type: 'resistor', a, b, ohms });
  }

  /** A closed or open contact (fuse, switch, plug). */
  contact(a: number, b: number, ohms: number, open: boolean): void {
    this.contacts.push(this.elements.length);
    this.elements.push({ type: 'resistor', a, b, ohms: open ? Infinity : ohms });
  }

  /** Vehicle body: a ladder of sections; returns the section nodes. */
  body(sections: number): number[] {
    const { random } = this;
    const list = [this.node()];
    this.wire(0, list[0] ?? 0, random.scale(2e-4, 1e-3));
    for (let i = 1; i < sections; i += 1) {
      const at = this.node();
      this.wire(list[i - 1] ?? 0, at, random.scale(2e-4, 2e-3));
      if (i > 2) this.wire(list[i - 3] ?? 0, at, random.scale(3e-4, 3e-3));
      list.push(at);
    }
    return list;
  }

  battery(plus: number, minus: number, rest: number): void {
    const { random, shape } = this;
    const discharge = random.scale(50, 400);
    const charge = random.scale(8, 100);
    const acceptance = random.between(15, 60);
    const points: [number, number][] = [[rest, 0]];
    if (shape.piecewise || random.chance(0.5)) points.push([rest + acceptance / charge, acceptance]);
    this.elements.push({
      type: 'pieces',
      a: plus,
      b: minus,
      points,
      below: discharge,
      above: points.length === 1 ? charge : 0.5,
    });
  }

  /** A radial load behind wires and a contact; returns through the body or a busbar. */
  load(from: number, back: number): void {
    const { random, shape } = this;
    let at = from;
    const links = random.whole(1, 3);
    for (let i = 0; i < links; i += 1) {
      const next = this.node();
      if (i === 0) this.contact(at, next, random.scale(1e-3, 1e-2), random.chance(shape.open));
      else this.wire(at, next, random.scale(2e-3, 5e-2));
      at = next;
    }
    let end = back;
    if (random.chance(0.5)) {
      end = this.node();
      this.wire(end, back, random.scale(1e-3, 2e-2));
      if (random.chance(0.2)) this.wire(end, back, random.scale(1e-3, 2e-2));
    }
    this.wire(at, end, random.scale(2, 200));
  }
}

function converter(b: Builder, from: number, to: number, body: readonly number[], houseMinus: number): void {
  const { random, shape } = b;
  const fuse = b.node();
  const input = b.node();
  const section = random.pick(body);
  const minus = b.node();
  const feed = random.scale(3e-3, 3e-2);
  const back = random.scale(1e-3, 1e-2);
  b.contact(from, fuse, random.scale(1e-3, 4e-3), random.chance(shape.open * 0.5));
  b.wire(fuse, input, feed);
  b.wire(minus, section, back);
  const output = b.node();
  const isolated = random.chance(0.3);
  const outMinus = isolated ? b.node() : minus;
  if (isolated) b.wire(outMinus, houseMinus, random.scale(1e-3, 1e-2));
  const breaker = b.node();
  b.wire(output, breaker, random.scale(1e-3, 1e-2));
  b.contact(breaker, to, random.scale(1e-3, 4e-3), random.chance(shape.open * 0.5));
  const loop = feed + back + 0.012;
  const most = (shape.load * 12 * 12) / (4 * loop);
  const current = Math.min(random.pick([10, 20, 30, 40, 60]), (most * 0.85) / 14.6);
  const volts = random.pick([13.8, 14.2, 14.4, 14.6]);
  const eta = random.between(0.82, 0.94);
  const lowest = random.pick([8, 9, 10]);
  const limit = (volts * current) / (eta * lowest);
  const low = shape.piecewise ? random.whole(0, 3) : 0;
  b.elements.push({
    type: 'converter',
    inA: input,
    inB: minus,
    outA: output,
    outB: outMinus,
    senseA: random.chance(0.2) ? to : output,
    senseB: random.chance(0.2) ? houseMinus : outMinus,
    on: random.chance(0.9),
    idleOhms: 1e5,
    standbyAmps: random.scale(0.01, 0.2),
    volts,
    current,
    efficiency: shape.piecewise
      ? [
          [0.1, eta - 0.08],
          [0.5, eta + 0.02],
          [1, eta],
        ]
      : [[1, eta]],
    ratedCurrent: current,
    inputLimit: shape.piecewise && random.chance(0.3) ? limit * random.between(0.4, 0.9) : limit,
    lowest,
    lowInput:
      low === 2
        ? { type: 'holds', volts: random.between(11.5, 13) }
        : low === 3
          ? { type: 'reduces', from: random.between(12.5, 13.2), to: random.between(11, 12) }
          : { type: 'none' },
    demand: random.chance(0.15) ? most * random.between(0.3, 1) : null,
  });
}

function extras(b: Builder, bus: number, houseBus: number, houseMinus: number): void {
  const { random } = b;
  // a panel: current source with a knee, through a diode
  const panel = b.node();
  const sun = random.between(2, 25);
  b.elements.push({
    type: 'pieces',
    a: panel,
    b: houseMinus,
    points: [
      [13.8, -sun],
      [14.2, -0.3 * sun],
      [14.4, 0],
    ],
    below: 1e-3,
    above: 0.2,
  });
  b.elements.push({
    type: 'pieces',
    a: panel,
    b: houseBus,
    points: [
      [0, 0],
      [0.4, 0.01],
      [0.6, 30],
    ],
    below: 1e-6,
    above: 300,
  });
  // a cross feed through a diode from the vehicle's busbar
  b.elements.push({ type: 'pieces', a: bus, b: houseBus, points: [[0.5, 0]], below: 0, above: 40 });
}

/** Draws one circuit. The reference is the vehicle battery's negative post. */
export function drawCircuit(seed: number, shape: Shape): Circuit {
  const random = new Random(seed);
  const b = new Builder(random, shape);
  const body = b.body(Math.max(3, Math.round(shape.nodes / 8)));
  const plus = b.node();
  b.battery(plus, 0, random.between(12.2, 12.8));
  const alternator = b.node();
  const block = b.node();
  b.wire(alternator, plus, random.scale(1e-3, 6e-3));
  b.wire(block, body[0] ?? 0, random.scale(2e-4, 1e-3));
  b.wire(block, 0, random.scale(3e-4, 2e-3));
  const posts = random.chance(0.5);
  b.elements.push({
    type: 'hold',
    a: alternator,
    b: block,
    senseA: posts ? plus : alternator,
    senseB: posts ? 0 : block,
    volts: random.between(13.4, 14.8),
    least: 0,
    greatest: random.chance(0.15) ? 0 : random.between(30, 180),
  });
  const bus = b.node();
  b.wire(plus, bus, random.scale(1e-3, 5e-3));
  const housePlus = b.node();
  const houseMinus = b.node();
  const houseBus = b.node();
  b.battery(housePlus, houseMinus, random.between(12.9, 13.4));
  b.contact(housePlus, houseBus, random.scale(5e-4, 3e-3), random.chance(shape.open * 0.3));
  b.wire(houseMinus, random.pick(body), random.scale(1e-3, 5e-3));
  for (let i = 0; i < shape.converters; i += 1) converter(b, bus, houseBus, body, houseMinus);
  if (shape.piecewise) extras(b, bus, houseBus, houseMinus);
  b.elements.push({
    type: 'power',
    a: houseBus,
    b: houseMinus,
    watts: random.scale(5, 200),
    knee: 9,
    limit: 40,
  });
  while (b.nodes < shape.nodes - 4) {
    if (random.chance(0.6)) b.load(bus, random.pick(body));
    else b.load(houseBus, houseMinus);
  }
  return { nodeCount: b.nodes, reference: 0, elements: b.elements, contacts: b.contacts };
}
