/** Rating window: between what a charger asks for in heat and what the wires behind may carry there is a standard rating. */
import type {
  Ampacity,
  Basis,
  Check,
  Judgement,
  LaidWire,
  Operation,
  Placed,
  Practice,
  Remedy,
  Step,
} from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import type { Size } from '../quantity/index.ts';
import { airOf, basesOf, noFigure } from './support/ampacity.ts';
import { chargerSide, devicesOf, wiresNear } from './support/downstream.ts';
import { exemptWires } from './support/exposure.ts';
import { partNeed } from './support/figures-needed.ts';
import { judgement, missing, step } from './support/judgement.ts';
import { continuousInDevice } from './support/loading.ts';
import { rate, ratingsWithin } from './support/remedies.ts';
import { sizesOf } from './support/sizes.ts';
import { hottestAt } from './support/surroundings.ts';
import { amps, factor } from './support/short-text.ts';
import { clearlyLess, leastBy } from './support/worst.ts';
import { listed } from './support/words.ts';

export const ratingWindow: Check = {
  id: 'rating-window',
  title: 'A rating that suits both charger and wire',
  family: 'protection',
  danger: false,
  statements: TOPICS.ratingWindow,
  subjects: (op) =>
    devicesOf(op)
      .filter((p) => chargerSide(op, p.id) !== null)
      .map((p) => ({ id: p.id, label: p.label })),
  judge(subject, op, practice) {
    const part = op.parts.get(subject.id);
    if (part === undefined) throw new Error(`no device ${subject.id}`);
    return judge(part, op, practice);
  },
  remedies: (subject, op, judged, practice) => remedies(subject.id, op, judged, practice),
  failing: example('4 mm2', '40 A'),
  passing: example('25 mm2', '60 A'),
};

function example(size: string, rating: string): string {
  return `loomwright: 1
title: A charger on its feed
practice: europe
systems: { vehicle: 12 V, house: 12 V }
places: { bay: { label: Battery bay, hottest: 45 °C }, locker: { label: Locker, hottest: 45 °C } }
routes: [ { from: bay, to: locker, length: 3 m, in: free } ]
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: 80 Ah }
  feed-fuse: { kind: fuse, at: bay, family: bolt-down, rating: ${rating}, interrupts: 6 kA }
  charger: { kind: dc-charger, at: locker, current: 30 A, enable: voltage, low-input: stops, negative: common }
  house-fuse: { kind: fuse, at: locker, family: class-t, rating: 40 A, interrupts: 20 kA, clearing: 6000 A²s }
  bank: { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 100 Ah }
wires:
  lead: { from: battery.+, to: feed-fuse.line, size: ${size}, insulation: pvc-105, length: 15 cm }
  feed: { from: feed-fuse.load, to: charger.in+, size: ${size}, insulation: pvc-105 }
  back: { from: charger.in-, to: battery.-, size: ${size}, insulation: pvc-105 }
  out: { from: charger.out+, to: house-fuse.load, size: 16 mm2, insulation: pvc-105, length: 30 cm }
  bank-lead: { from: house-fuse.line, to: bank.+, size: 16 mm2, insulation: pvc-105, length: 15 cm }
  bank-back: { from: bank.-, to: charger.out-, size: 16 mm2, insulation: pvc-105, length: 30 cm }
`;
}

interface Window {
  /** Least and greatest rating, A. */
  readonly least: number;
  readonly most: number;
  /** The wire that ends the window, with its ampacity. */
  readonly wire: LaidWire;
  readonly ampacity: Ampacity;
}

/** The wires that end the window: behind the device up to the next one, those judged by their distance left out. */
function wiresBehind(part: Placed, op: Operation, practice: Practice): readonly LaidWire[] {
  const side = chargerSide(op, part.id);
  if (side === null) return [];
  const exempt = exemptWires(op, practice);
  return wiresNear(op, side.near).filter((w) => !exempt.has(w.id));
}

/** The narrowest wire by the n-th table; null: one of them has no figure there. */
function narrowest(
  wires: readonly LaidWire[],
  op: Operation,
  practice: Practice,
  table: number,
  least: number,
): Window | null {
  let best: Window | null = null;
  for (const wire of wires) {
    const ampacity = op.ampacity(wire.id)[table];
    if (ampacity === undefined || ampacity.amps === null) return null;
    const most = practice.ratingFactor * ampacity.amps;
    if (best === null || clearlyLess(most, best.most)) best = { least, most, wire, ampacity };
  }
  return best;
}

function judge(part: Placed, op: Operation, practice: Practice): Judgement {
  const load = continuousInDevice(op, part.id);
  const unknown = load.feeds.filter((f) => f.greatest === null);
  if (unknown.length > 0) {
    const needs = unknown.map((f) => partNeed(f.charger, 'current', 'what it takes from its input for long'));
    return missing(`Which rating ${part.label} needs cannot be said.`, needs, {
      about: [part.id, ...unknown.map((f) => f.charger)],
    });
  }
  const share = part.ability.protects?.factor(hottestAt(op, part)?.sourced.value ?? 40);
  if (share === undefined) throw new Error(`${part.id} protects nothing`);
  const least = load.amps / Math.max(share.sourced.value, 1e-3);
  const wires = wiresBehind(part, op, practice);
  if (wires.length === 0)
    return judgement({
      holds: true,
      says: `No wire behind ${part.label} limits its rating.`,
      about: [part.id],
    });
  const windows = practice.tables.map((_, i) => narrowest(wires, op, practice, i, least));
  const opens = windows.find((w) => w !== null && ratingsWithin(w.least, w.most).length > 0) ?? null;
  // None opens: the most generous table is named, as where the rating itself is judged.
  const shown =
    opens ??
    leastBy(
      windows.filter((w) => w !== null),
      (w) => -w.most,
    );
  if (shown === null) {
    const needs = wires
      .filter((w) => op.ampacity(w.id).every((a) => a.amps === null))
      .map((w) => noFigure(w, op.ampacity(w.id)));
    return missing(`Which rating suits the wires behind ${part.label} cannot be said.`, needs, {
      about: [part.id],
    });
  }
  return verdict(part, op, practice, shown, { load: load.amps, share, bases: load.bases });
}

interface Asked {
  readonly load: number;
  readonly share: Basis;
  readonly bases: readonly Basis[];
}

function verdict(part: Placed, op: Operation, practice: Practice, window: Window, asked: Asked): Judgement {
  const ratings = ratingsWithin(window.least, window.most);
  const holds = ratings.length > 0;
  const fitted = part.ability.protects?.rating?.sourced.value ?? null;
  const from = `${amps(window.least)} to ${amps(window.most)}`;
  return judgement({
    holds,
    says: () =>
      holds
        ? `Ratings of ${listed(ratings.map((r) => amps(r)))} suit both the charger and ${window.wire.id}.`
        : `No rating exists for ${part.label}: the charger asks for ${amps(window.least)}, ${window.wire.id} allows ${amps(window.most)}.${opening(part, op, practice, window)}`,
    value: fitted === null ? { value: null, unit: 'A' } : { value: fitted, unit: 'A' },
    limit: { value: null, unit: 'A', words: from },
    margin: window.most - window.least,
    working: () => steps(part, window, asked, ratings),
    restsOn: [...asked.bases, ...airOf(window.wire, window.ampacity)],
    limits: [asked.share, ...basesOf(window.ampacity)],
    about: [part.id, window.wire.id],
  });
}

function steps(part: Placed, window: Window, asked: Asked, ratings: readonly number[]): readonly Step[] {
  const how = `${amps(asked.load)} / ${factor(asked.share.sourced.value)} (device factor)`;
  return [
    step(`Least rating of ${part.id}`, how, window.least, 'A', {
      source: asked.share.sourced.source,
      about: [part.id],
    }),
    step(`Greatest rating of ${part.id}`, `ampacity of ${window.wire.id}`, window.most, 'A', {
      source: window.ampacity.base?.sourced.source ?? '',
      about: [window.wire.id],
    }),
    step(
      'Standard ratings between',
      ratings.length === 0 ? 'none' : ratings.map((r) => `${r}`).join(', '),
      null,
      '',
      {
        source: 'common practice, no source',
      },
    ),
  ];
}

/** " 16 mm² opens it.": the smallest size for the narrow wires by which a standard rating exists. */
function opening(part: Placed, op: Operation, practice: Practice, window: Window): string {
  const size = openingSize(part, op, practice, window.least);
  return size === null ? '' : ` ${size.name} opens it.`;
}

function openingSize(part: Placed, op: Operation, practice: Practice, least: number): Size | null {
  const wires = wiresBehind(part, op, practice);
  const wanted = ratingsWithin(least, Number.POSITIVE_INFINITY)[0];
  if (wanted === undefined) return null;
  return (
    sizesOf(op.build).find((size) => wires.every((wire) => carries(op, practice, wire, size, wanted))) ?? null
  );
}

/** The wire, in this size (or its own when that is larger), carries the rating by the first table: factors as they are. */
function carries(op: Operation, practice: Practice, wire: LaidWire, size: Size, rating: number): boolean {
  const table = practice.tables[0];
  const own = op.ampacity(wire.id)[0];
  if (table === undefined || own === undefined) return false;
  if (own.amps !== null && practice.ratingFactor * own.amps >= rating && (wire.areaMm2 ?? 0) >= size.areaMm2)
    return true;
  const worst = wire.segments.reduce(
    (a, b) => (b.hottest.sourced.value > a.hottest.sourced.value ? b : a),
    wire.segments[0] ?? NO_SEGMENT,
  );
  const answer = table.look({
    areaMm2: Math.max(size.areaMm2, wire.areaMm2 ?? 0),
    awg: null,
    insulation: wire.insulation,
    insulationC: wire.rating,
    in: worst.in,
    airC: own.airC,
    engineSpace: wire.segments.some((s) => s.engineSpace),
  });
  if (answer.amps === null) return false;
  return (
    practice.ratingFactor * answer.amps * factorsOf(own, answer.airFactor, op, practice) >=
    rating * (1 - 1e-9)
  );
}

/** Air, bundle and wall together as they weigh on the wire as laid; without a figure of its own, air and bundle. */
function factorsOf(own: Ampacity, airFactor: number, op: Operation, practice: Practice): number {
  const base = own.base?.sourced.value ?? 0;
  if (own.amps !== null && base > 0) return own.amps / base;
  return airFactor * (own.bundled > 2 ? op.figure(practice.bundle(own.bundled)).sourced.value : 1);
}

const NO_SEGMENT = { in: 'loom', hottest: { sourced: { value: 0 } } } as LaidWire['segments'][number];

function remedies(id: string, op: Operation, judged: Judgement, practice: Practice): readonly Remedy[] {
  const part = op.parts.get(id);
  const share = part?.ability.protects?.factor(hottestAt(op, part)?.sourced.value ?? 40);
  if (part === undefined || share === undefined || judged.holds !== false) return [];
  const least = continuousInDevice(op, id).amps / Math.max(share.sourced.value, 1e-3);
  const size = openingSize(part, op, practice, least);
  const rating = ratingsWithin(least, Number.POSITIVE_INFINITY)[0];
  if (size === null || rating === undefined) return [];
  const thin = wiresBehind(part, op, practice).filter((w) => (w.areaMm2 ?? 0) < size.areaMm2);
  return [
    {
      title: `${size.name} for ${listed(thin.map((w) => w.id))}, ${rating} A for ${id}`,
      changes: [
        ...thin.map((w) => ({ set: ['wires', w.id, 'size'], to: size.text })),
        ...rate(id, rating).changes,
      ],
    },
  ];
}
