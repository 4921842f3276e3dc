/** Selectivity: of two devices in series only the one next to the fault opens. */
import type { Check, Id, Judgement, Operation, Placed } from '../contracts/index.ts';
import { fastSeconds, slowCornerAmps, slowSeconds } from '../devices/index.ts';
import { TOPICS } from '../practices/index.ts';
import { bothSides, devicesOf } from './support/downstream.ts';
import { judgement, missing, step } from './support/judgement.ts';
import { melting } from './support/melting.ts';
import { perOperation } from './support/memo.ts';
import { partNeed } from './support/figures-needed.ts';
import { otherEnd, partOf } from './support/refs.ts';
import { greatestCase, intos } from './support/shorts.ts';
import { amps, number, seconds } from './support/short-text.ts';

export const selectivity: Check = {
  id: 'selectivity',
  title: 'Only the device next to the fault opens',
  family: 'protection',
  danger: false,
  statements: TOPICS.selectivity,
  subjects: (op) =>
    pairs(op).map((p) => ({
      id: `${p.lower.id}/${p.upper.id}`,
      label: `${p.lower.label} before ${p.upper.label}`,
    })),
  judge(subject, op) {
    const pair = pairs(op).find((p) => `${p.lower.id}/${p.upper.id}` === subject.id);
    if (pair === undefined) throw new Error(`no pair ${subject.id}`);
    return judge(pair, op);
  },
  failing: example('blade-f', '30 A'),
  passing: example('blade-f', '5 A'),
};

function example(family: string, rating: string): string {
  return `loomwright: 1
title: Two devices in series
practice: europe
systems: { vehicle: 12 V }
places: { bay: { label: Battery bay, hottest: 40 °C }, rear: { label: Rear, hottest: 40 °C } }
routes: [ { from: bay, to: rear, length: 3 m, in: free } ]
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: 80 Ah }
  main-fuse: { kind: fuse, at: bay, family: blade-e, rating: 30 A }
  lamp-fuse: { kind: fuse, at: rear, family: ${family}, rating: ${rating} }
  lamp: { kind: load, at: rear, current: 2 A }
wires:
  lead: { from: battery.+, to: main-fuse.line, size: 10 mm2, insulation: pvc-105, length: 15 cm }
  feed: { from: main-fuse.load, to: lamp-fuse.line, size: 10 mm2, insulation: pvc-105 }
  branch: { from: lamp-fuse.load, to: lamp.+, size: 4 mm2, insulation: pvc-105, length: 1 m }
  back: { from: lamp.-, to: battery.-, size: 10 mm2, insulation: pvc-105 }
`;
}

interface Pair {
  readonly upper: Placed;
  readonly lower: Placed;
  /** Terminal of the lower device on its far side. */
  readonly beyond: string;
}

/** Devices in series with no other between, seen from a battery behind the upper one. */
const pairs: (op: Operation) => readonly Pair[] = perOperation((op) =>
  devicesOf(op).flatMap((upper) =>
    devicesOf(op).flatMap((lower) => (upper === lower ? [] : pairOf(op, upper, lower))),
  ),
);

function pairOf(op: Operation, upper: Placed, lower: Placed): readonly Pair[] {
  for (const toward of bothSides(op, upper.id)) {
    const behind = bothSides(op, upper.id).find((s) => s !== toward);
    if (behind === undefined || !behind.sources.some((s) => s.stiff)) continue;
    // In a ring the fault is fed both ways, and neither stands before the other.
    if (toward.nodes.has(behind.terminal)) continue;
    const sides = bothSides(op, lower.id);
    const [near, beyond] = toward.near.has(sides[0]?.terminal ?? '') ? sides : sides.toReversed();
    if (near === undefined || beyond === undefined || !toward.near.has(near.terminal)) continue;
    if (toward.near.has(beyond.terminal) || op.wiresAt(beyond.terminal).length === 0) continue;
    return [{ upper, lower, beyond: beyond.terminal }];
  }
  return [];
}

interface Currents {
  readonly upper: number;
  readonly lower: number;
}

/** Currents through both at a bolted short just beyond the lower device. */
function bolted(pair: Pair, op: Operation): Currents {
  let most: Currents = { upper: 0, lower: 0 };
  for (const id of op.wiresAt(pair.beyond)) {
    const wire = op.wires.get(id);
    if (wire === undefined || partOf(otherEnd(wire, pair.beyond)) === pair.lower.id) continue;
    const along = wire.from === pair.beyond ? 0 : 1;
    for (const into of intos(op, wire, along)) {
      const point = op.short(greatestCase(id, along, into));
      const lower = Math.abs(point.partAmps(pair.lower.id, 0));
      if (lower > most.lower) most = { lower, upper: Math.abs(point.partAmps(pair.upper.id, 0)) };
    }
  }
  return most;
}

/** Times at one fault current. */
interface Race {
  readonly amps: number;
  readonly upperAmps: number;
  /** The upper one has surely not opened before, s; null: not known. */
  readonly fast: number | null;
  /** The lower one has surely opened by, s; null: not known. */
  readonly slow: number | null;
}

function races(
  pair: Pair,
  most: Currents,
  ratings: { readonly upper: number; readonly lower: number },
): readonly Race[] {
  const u = pair.upper.ability.protects?.curve ?? null;
  const l = melting(pair.lower, pair.lower.ability.protects?.curve ?? null);
  if (u === null || l === null) return [];
  const share = most.lower > 0 ? most.upper / most.lower : 1;
  const first = (l.slow[0]?.[0] ?? 1) * ratings.lower;
  const corners = [
    first,
    ...slowCornerAmps(l, ratings.lower, first, most.lower),
    ...fastCorners(u, ratings.upper, share),
  ];
  return [...corners.filter((a) => a >= first && a < most.lower), most.lower].map((amps) => ({
    amps,
    upperAmps: amps * share,
    fast: fastSeconds(u, (amps * share) / ratings.upper),
    slow: slowSeconds(l, amps / ratings.lower, ratings.lower),
  }));
}

const fastCorners = (
  curve: NonNullable<NonNullable<Placed['ability']['protects']>['curve']>,
  rating: number,
  share: number,
): readonly number[] => (curve.fast ?? []).map(([multiple]) => (multiple * rating) / Math.max(share, 1e-6));

function judge(pair: Pair, op: Operation): Judgement {
  const about: readonly Id[] = [pair.lower.id, pair.upper.id];
  const needs = unknowns(pair);
  const title = `Whether ${pair.lower.label} opens before ${pair.upper.label}`;
  if (needs.length > 0) return missing(`${title} cannot be said.`, needs, { severity: 'advice', about });
  const ratings = {
    upper: pair.upper.ability.protects?.rating?.sourced.value ?? 1,
    lower: pair.lower.ability.protects?.rating?.sourced.value ?? 1,
  };
  const most = bolted(pair, op);
  const all = races(pair, most, ratings);
  const unsure = all.filter((r) => r.fast === null || r.slow === null);
  const lost = all.filter((r) => r.fast !== null && r.slow !== null && r.fast < r.slow);
  const worst = lost.reduce<Race | null>((a, b) => (a === null || gap(b) > gap(a) ? b : a), null);
  if (worst !== null) return verdict(pair, worst, false, about);
  if (unsure.length > 0) {
    const open = [pair.upper, pair.lower].map((p) =>
      partNeed(p.id, 'curve', 'its opening times at that current'),
    );
    return missing(`${title} at ${amps(unsure.at(-1)?.amps ?? 0)} cannot be said.`, open, {
      severity: 'advice',
      about,
    });
  }
  const closest = all.reduce<Race | null>((a, b) => (a === null || gap(b) > gap(a) ? b : a), null);
  if (closest === null)
    return judgement({
      holds: true,
      severity: 'advice',
      says: `No fault passes ${pair.lower.label}.`,
      about,
    });
  return verdict(pair, closest, true, about);
}

/** By how much the lower one is late: a ratio. */
const gap = (r: Race): number => (r.fast === null || r.slow === null ? 0 : r.slow / Math.max(r.fast, 1e-9));

function unknowns(pair: Pair): ReturnType<typeof partNeed>[] {
  const why = 'which of the two opens first';
  const needs: ReturnType<typeof partNeed>[] = [];
  for (const part of [pair.upper, pair.lower]) {
    const p = part.ability.protects;
    if (p?.rating === null) needs.push(partNeed(part.id, 'rating', why));
    else if (p?.curve === null || (part === pair.upper && p?.curve?.fast === null))
      needs.push(partNeed(part.id, 'curve', why));
  }
  return needs;
}

function verdict(pair: Pair, race: Race, holds: boolean, about: readonly Id[]): Judgement {
  const curves = [pair.upper, pair.lower].map((p) => p.ability.protects?.curve?.basis);
  const at = `at ${amps(race.amps)}`;
  return judgement({
    holds,
    severity: 'advice',
    says: () =>
      holds
        ? `${pair.lower.label} opens before ${pair.upper.label} at every fault current behind it.`
        : `${pair.upper.label} may open before ${pair.lower.label} ${at}: from ${seconds(race.fast ?? 0)} on, while ${pair.lower.label} has surely opened only after ${seconds(race.slow ?? 0)}.`,
    value: { value: finite(race.slow), unit: 's' },
    limit: { value: finite(race.fast), unit: 's', ...(race.fast === Infinity ? { words: 'never' } : {}) },
    margin: null,
    working: () => [
      step(`time by which ${pair.lower.id} has surely opened`, `slow edge ${at}`, finite(race.slow), 's'),
      step(
        `time before which ${pair.upper.id} surely has not`,
        `fast edge at ${amps(race.upperAmps)}, ${number(race.upperAmps / (pair.upper.ability.protects?.rating?.sourced.value ?? 1))} times its rating`,
        finite(race.fast),
        's',
      ),
    ],
    restsOn: curves.filter((b) => b !== undefined),
    about,
  });
}

const finite = (value: number | null): number | null =>
  value !== null && Number.isFinite(value) ? value : null;
