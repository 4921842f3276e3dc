/** A build document while it is being made up: names, places, sizes and wires. */
import { seeded, type Chance } from './mutate.ts';
import type { Doc, Fields, Plain } from './plain.ts';

export interface Nominal {
  readonly vehicle: number;
  readonly house: number;
}

const METRIC = [1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95];
const AWG: readonly (readonly [name: string, mm2: number])[] = [
  ['16 AWG', 1.31],
  ['14 AWG', 2.08],
  ['12 AWG', 3.31],
  ['10 AWG', 5.26],
  ['8 AWG', 8.37],
  ['6 AWG', 13.3],
  ['4 AWG', 21.2],
  ['2 AWG', 33.6],
  ['1/0 AWG', 53.5],
  ['2/0 AWG', 67.4],
  ['4/0 AWG', 107],
];
const RATINGS = [1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200, 225, 250];
const WAYS = ['free', 'conduit', 'loom', 'bundle', 'spaced'] as const;

/** Two decimals at most. */
const rounded = (n: number): number => Math.round(n * 100) / 100;

export class Sketch {
  readonly chance: Chance;
  readonly nominal: Nominal;
  readonly imperial: boolean;
  readonly parts: Record<string, Fields> = {};
  readonly wires: Record<string, Fields> = {};
  readonly places: Record<string, Fields> = {};
  readonly routes: Fields[] = [];
  /** Owner's switches that may still be made. */
  owners: number;
  readonly #taps = new Map<string, number>();

  constructor(seed: number, nominal: Nominal, imperial: boolean, owners: number) {
    this.chance = seeded(seed);
    this.nominal = nominal;
    this.imperial = imperial;
    this.owners = owners;
  }

  get count(): number {
    return Object.keys(this.parts).length;
  }

  /** True in so many of a hundred cases. */
  odds(percent: number): boolean {
    return this.chance.below(100) < percent;
  }

  between(low: number, high: number): number {
    return rounded(low + ((high - low) * this.chance.below(1001)) / 1000);
  }

  pick<T>(items: readonly T[]): T {
    return this.chance.pick(items);
  }

  /** A quantity as a number, sometimes as a band round it, sometimes unknown. */
  value(number: number, unit: string): string {
    const n = rounded(number);
    if (this.odds(8)) return 'unknown';
    return this.odds(20) ? `${rounded(n * 0.85)}..${rounded(n * 1.15)} ${unit}` : `${n} ${unit}`;
  }

  /** The fields, in so many of a hundred cases. */
  maybe(percent: number, fields: () => Fields): Fields {
    return this.odds(percent) ? fields() : {};
  }

  part(id: string, kind: string, at: string | null, fields: Fields = {}): string {
    if (this.parts[id] !== undefined) throw new Error(`two parts ${id}`);
    this.parts[id] = { kind, ...(at === null ? {} : { at }), ...fields };
    return id;
  }

  place(id: string, fields: Fields): void {
    this.places[id] = fields;
  }

  route(from: string, to: string, metres: number): void {
    this.routes.push({
      from,
      to,
      length: `${rounded(metres)} m`,
      in: this.pick(WAYS),
      ...this.maybe(8, () => ({ 'insulated-wall': `${this.between(0.05, 0.5)} m` })),
    });
  }

  /** Next free terminal of a busbar or stud. */
  tap(id: string): string {
    const next = (this.#taps.get(id) ?? 0) + 1;
    this.#taps.set(id, next);
    return `${id}.${next}`;
  }

  /** Standard rating at or above. */
  rating(amps: number): number {
    return RATINGS.find((r) => r >= amps) ?? 250;
  }

  /** A size near amps / 4 mm², sometimes one too thin or too thick. */
  size(amps: number): string {
    const wanted = amps / 4;
    const shift = this.odds(10) ? -1 : this.odds(15) ? 1 : 0;
    const at = (list: readonly number[]): number => {
      const i = list.findIndex((mm2) => mm2 >= wanted);
      return Math.min(Math.max((i < 0 ? list.length - 1 : i) + shift, 0), list.length - 1);
    };
    return this.imperial
      ? (AWG[at(AWG.map((a) => a[1]))]?.[0] ?? '4 AWG')
      : `${METRIC[at(METRIC)] ?? 25} mm2`;
  }

  wire(id: string, from: string, to: string, amps: number, metres: number | null): string {
    if (this.wires[id] !== undefined) throw new Error(`two wires ${id}`);
    const joints = (): Fields => ({
      joints: { from: this.value(this.between(0.05, 0.4), 'mΩ'), to: `${this.between(0.02, 0.3)} mΩ` },
    });
    this.wires[id] = {
      from,
      to,
      size: this.size(amps),
      ...this.maybe(85, () => ({ insulation: this.pick(['pvc-70', 'pvc-90', 'xlpe-90', 'pvc-105']) })),
      ...(metres === null ? {} : { length: this.length(metres) }),
      ...this.maybe(25, joints),
      ...this.maybe(10, () => ({ sheathed: true })),
      ...this.maybe(10, () => ({ colour: this.pick(['red', 'black', 'BU', 'WH']) })),
      ...this.maybe(3, () => ({ material: 'cca' })),
    };
    return id;
  }

  length(metres: number): string {
    if (this.odds(10)) return `${rounded(metres * 0.9)}..${rounded(metres * 1.1)} m`;
    return metres < 1 ? `${Math.round(metres * 100)} cm` : `${rounded(metres)} m`;
  }

  doc(head: Fields, tail: Fields): Doc {
    return {
      head,
      places: this.places,
      routes: this.routes,
      parts: this.parts,
      wires: this.wires,
      tail,
    };
  }
}

/** Volts of a 12 V system brought to another one. */
export const volts = (at12: number, nominal: number): string =>
  `${Math.round(at12 * (nominal / 12) * 100) / 100} V`;

export type { Plain };
