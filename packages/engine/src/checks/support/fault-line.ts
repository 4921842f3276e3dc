/**
 * A short circuit of the greatest level at one place, over the resistance there. While no element leaves its straight line the
 * net is a source behind a resistance to the fault, and every current is straight in that of the fault: two solved points give
 * all between them. Elements stand on intervals of that current, so what both ends have in common holds between them.
 */
import type { Id, Operation, ShortCase, ShortPoint } from '../../contracts/index.ts';
import { greatestCase, type Into } from './shorts.ts';

/** Where the short lies. */
export interface FaultPlace {
  readonly wire: Id;
  readonly along: ShortCase['along'];
  readonly into: Into;
}

export class FaultLine {
  readonly #op: Operation;
  readonly #place: FaultPlace;
  readonly #far: number;
  readonly #stretches = new Map<string, Stretch | null>();

  /** `far`: the greatest resistance that will be asked for, Ω. */
  constructor(op: Operation, place: FaultPlace, far: number) {
    this.#op = op;
    this.#place = place;
    this.#far = far;
  }

  /** With this resistance at the place of the short (Ω) and these devices open. */
  at(contact: number, open: readonly Id[] = []): ShortPoint {
    const stretch = contact <= this.#far ? this.#stretch(open) : null;
    return stretch?.at(contact) ?? this.#solved(contact, open);
  }

  /** The resistance that brings a device to `amps`, Ω; null: none does, or that cannot be told from two points. */
  contactFor(device: Id, amps: number): number | null {
    return this.#stretch([])?.contactFor(device, amps) ?? null;
  }

  #solved(contact: number, open: readonly Id[]): ShortPoint {
    const { wire, along, into } = this.#place;
    return this.#op.short({ ...greatestCase(wire, along, into, contact), open });
  }

  #stretch(open: readonly Id[]): Stretch | null {
    const key = open.join();
    let stretch = this.#stretches.get(key);
    if (stretch === undefined) {
      stretch = stretchOf(this.#solved(0, open), this.#solved(this.#far, open), this.#far, this.#place.wire);
      this.#stretches.set(key, stretch);
    }
    return stretch;
  }
}

/** null: an element changes its line on the way, or follows a curve. */
function stretchOf(bolted: ShortPoint, far: ShortPoint, contact: number, wire: Id): Stretch | null {
  // What carries nothing at both ends does so between them, whatever the others stand on.
  const dead = bolted.amps === 0;
  if (dead !== (far.amps === 0)) return null;
  if (!dead && (bolted.pieces === null || bolted.pieces !== far.pieces)) return null;
  return new Stretch(bolted, far, contact, wire);
}

class Stretch {
  readonly #bolted: ShortPoint;
  readonly #far: ShortPoint;
  readonly #wire: Id;
  /** Ω between the contact and what it leads to. */
  readonly #spread: number;

  constructor(bolted: ShortPoint, far: ShortPoint, contact: number, wire: Id) {
    this.#bolted = bolted;
    this.#far = far;
    this.#wire = wire;
    this.#spread = far.ohms - contact;
  }

  /** The reciprocal of the fault's current is straight in its resistance, also where a limited source holds the current. */
  at(contact: number): ShortPoint {
    const bolted = this.#bolted;
    const far = this.#far;
    if (bolted.amps === 0) return bolted;
    const ohms = Math.max(contact + this.#spread, bolted.ohms);
    const way = (ohms - bolted.ohms) / (far.ohms - bolted.ohms);
    const amps = 1 / (1 / bolted.amps + way * (1 / far.amps - 1 / bolted.amps));
    // As much of the way in amperes: (amps - bolted) / (far - bolted), without the differences.
    const share = (way * amps) / far.amps;
    const between = (a: number, b: number): number => a + share * (b - a);
    const through = Math.abs(between(bolted.wireAmps(this.#wire), far.wireAmps(this.#wire)));
    return {
      amps,
      halves: [through, through],
      ohms,
      pieces: bolted.pieces,
      wireAmps: (id) => between(bolted.wireAmps(id), far.wireAmps(id)),
      partAmps: (id, element) => between(bolted.partAmps(id, element), far.partAmps(id, element)),
    };
  }

  contactFor(device: Id, amps: number): number | null {
    const bolted = this.#bolted;
    const far = this.#far;
    const most = bolted.partAmps(device, 0);
    const share = (Math.sign(most) * amps - most) / (far.partAmps(device, 0) - most);
    if (!(share >= 0 && share <= 1)) return null;
    const weaker = far.amps / bolted.amps;
    const way = (share * weaker) / (1 - share * (1 - weaker));
    const contact = bolted.ohms + way * (far.ohms - bolted.ohms) - this.#spread;
    return contact >= 0 ? contact : null;
  }
}
