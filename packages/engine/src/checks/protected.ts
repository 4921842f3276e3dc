/**
 * Reach: every conductor that a source reaches before a protective device, and how far that device is. One finding per
 * conductor and source, and one per tap (a thin conductor that leaves a larger one and ends at its own device).
 */
import type {
  Check,
  Judgement,
  Need,
  Operation,
  Practice,
  Remedy,
  Step,
  Subject,
} from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { againstAmpacity } from './support/ampacity.ts';
import { crankingWires } from './support/cranking.ts';
import {
  allowedFor,
  allowing,
  exposuresOf,
  lengthOf,
  ownLimit,
  tapCandidates,
  tapsOf,
  type Allowed,
  type Exposure,
  type Tap,
} from './support/exposure.ts';
import { clearedBy } from './support/clearing-tables.ts';
import { sustainedInto } from './support/flow.ts';
import { continuousInWire } from './support/loading.ts';
import { judgement, missing, step } from './support/judgement.ts';
import { perOperation } from './support/memo.ts';
import { need } from './support/figures-needed.ts';
import { partOf, placedAt } from './support/refs.ts';
import { fuseAt, ratingsWithin } from './support/remedies.ts';
import { amps, atMost, metres } from './support/short-text.ts';
import { listed } from './support/words.ts';

export const protectedReach: Check = {
  id: 'protected',
  title: 'Protection within reach of every source',
  family: 'protection',
  danger: true,
  statements: TOPICS.reach,
  subjects: (op) => [
    ...exposuresOf(op)
      .filter((e) => !crankingWires(op).has(e.wire))
      .map(exposureSubject),
    ...tapSubjects(op),
  ],
  judge(subject, op, practice) {
    const exposure = exposureOf(op, subject);
    if (exposure !== null) return judgeExposure(exposure, op, practice);
    const tap = tapOf(op, practice, subject);
    if (tap !== null) return judgeTap(tap, op, practice);
    return judgement({
      holds: true,
      says: `${subject.label} is protected by the devices upstream, not by its own.`,
    });
  },
  remedies(subject, op, _judgement, practice) {
    const exposure = exposureOf(op, subject);
    return exposure === null ? [] : deviceAtSource(exposure, op, practice);
  },
  failing: `loomwright: 1
title: The first fuse is beside the lamp
practice: north-america
systems: { vehicle: 12 V }
places: { bay: { label: Battery bay }, rear: { label: Rear } }
routes: [ { from: bay, to: rear, length: 4 m, in: free } ]
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: 80 Ah }
  main-fuse: { kind: fuse, at: rear, family: blade-f, rating: 15 A }
  lamp: { kind: load, at: rear, current: 5 A }
wires:
  lead: { from: battery.+, to: main-fuse.line, size: 12 AWG, insulation: pvc-105 }
  branch: { from: main-fuse.load, to: lamp.+, size: 12 AWG, insulation: pvc-105, length: 30 cm }
  back: { from: lamp.-, to: battery.-, size: 12 AWG, insulation: pvc-105 }
`,
  passing: `loomwright: 1
title: The fuse is at the battery
practice: north-america
systems: { vehicle: 12 V }
places: { bay: { label: Battery bay }, rear: { label: Rear } }
routes: [ { from: bay, to: rear, length: 4 m, in: free } ]
parts:
  battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: 80 Ah }
  main-fuse: { kind: fuse, at: bay, family: blade-f, rating: 15 A }
  lamp: { kind: load, at: rear, current: 5 A }
wires:
  lead: { from: battery.+, to: main-fuse.line, size: 12 AWG, insulation: pvc-105, length: 15 cm }
  branch: { from: main-fuse.load, to: lamp.+, size: 12 AWG, insulation: pvc-105 }
  back: { from: lamp.-, to: battery.-, size: 12 AWG, insulation: pvc-105 }
`,
};

const exposureSubject = (e: Exposure): Subject => ({
  id: `${e.wire}/${e.source.part}`,
  label: `${e.wire} from ${e.source.label}`,
});

/** Longer than this (m) nothing is called a tap: the greatest distance that any practice permits. */
const LONGEST_TAP = 1.016;

/** Wires behind a device that may be a tap: the judgement says whether the distance makes them one. */
function tapSubjects(op: Operation): readonly Subject[] {
  const bare = new Set(exposuresOf(op).map((e) => e.wire));
  return tapCandidates(op)
    .filter((tap) => !bare.has(tap.wire) && atMost(tap.distance, LONGEST_TAP))
    .map((tap) => ({ id: `${tap.wire}/${partOf(tap.near)}`, label: `tap ${tap.wire}` }));
}

const exposureOf = (op: Operation, subject: Subject): Exposure | null => byName(op).get(subject.id) ?? null;

/** Of two of one name the first. */
const byName: (op: Operation) => ReadonlyMap<string, Exposure> = perOperation(
  (op) =>
    new Map(
      exposuresOf(op)
        .toReversed()
        .map((e) => [`${e.wire}/${e.source.part}`, e]),
    ),
);

function tapOf(op: Operation, practice: Practice, subject: Subject): Tap | null {
  return [...tapsOf(op, practice).values()].find((t) => `${t.wire}/${partOf(t.near)}` === subject.id) ?? null;
}

function judgeExposure(e: Exposure, op: Operation, practice: Practice): Judgement {
  const limited = byOwnLimit(e, op);
  if (limited !== null) return limited;
  const unknown = unknownLengths(op, e);
  const tap = tapsOf(op, practice).get(e.wire);
  if (tap !== undefined && tap.near === e.near && e.way.length > 1) return judgeTap(tap, op, practice);
  if (unknown.length > 0) {
    const says = `How far the first device on ${e.wire} is from ${e.source.label} is not known.`;
    return missing(says, unknown, { about: [e.wire, e.source.part] });
  }
  const unsure = unsureLimit(e, op, practice);
  if (unsure !== null) return unsure;
  if (e.source.missing !== null && !e.source.stiff) {
    const within = allowing(allowedFor(op, practice, e.way), e.distance);
    if (within === null)
      return missing(`Whether ${e.source.label} can burn ${e.wire} is not known.`, [e.source.missing], {
        value: { value: e.distance, unit: 'm' },
        about: [e.wire, e.source.part],
      });
  }
  return byDistance(e, op, practice);
}

/** A source that gives no more than the wire carries needs no device; one that is fused before its terminal has it there. */
function byOwnLimit(e: Exposure, op: Operation): Judgement | null {
  const { source } = e;
  const wire = op.wires.get(e.wire);
  const own = wire === undefined ? null : ownLimit(op, wire, source);
  if (own === null) return null;
  const { basis, verdict } = own;
  const most = basis.sourced.value;
  const how = source.limit === null ? 'is fused before its terminal at' : 'gives by itself no more than';
  return judgement({
    holds: true,
    says: () => `${source.label} ${how} ${amps(most)}; ${e.wire} carries that for good.`,
    value: { value: most, unit: 'A' },
    limit: { value: verdict.limit, unit: 'A' },
    margin: verdict.limit === null ? null : verdict.limit - most,
    working: () => [
      step(`Most that ${source.label} gives`, basis.label, most, 'A', { about: [source.part] }),
      ...verdict.steps(),
    ],
    restsOn: [],
    limits: [basis, ...verdict.limits],
    about: [e.wire, source.part],
  });
}

/** A limit of its own against a wire of which nobody can say what it carries; null: it is known, or the distance answers. */
function unsureLimit(e: Exposure, op: Operation, practice: Practice): Judgement | null {
  const wire = op.wires.get(e.wire);
  const basis = e.source.limit ?? e.source.upstreamFuse;
  if (wire === undefined || basis === null || e.source.stiff) return null;
  const verdict = againstAmpacity(op, wire, basis.sourced.value);
  if (verdict.holds !== null || allowing(allowedFor(op, practice, e.way), e.distance) !== null) return null;
  const says = `${e.source.label} gives at most ${amps(basis.sourced.value)}; whether ${e.wire} carries that for good is not known.`;
  return missing(says, verdict.missing, {
    value: { value: basis.sourced.value, unit: 'A' },
    working: () => verdict.steps(),
    about: [e.wire, e.source.part],
  });
}

function unknownLengths(op: Operation, e: Exposure): readonly Need[] {
  return e.way
    .filter((id) => op.wires.get(id)?.length === null)
    .map((id) =>
      need(
        `wires.${id}.length`,
        `length of ${id}`,
        'the distance to the first device',
        'tape along the wire',
        'tape',
      ),
    );
}

function byDistance(e: Exposure, op: Operation, practice: Practice): Judgement {
  const rows = allowedFor(op, practice, e.way);
  const allowed = allowing(rows, e.distance);
  const limit = (allowed ?? rows.at(-1))?.basis ?? practice.reach.plain;
  const met = endsAtDevice(op, e);
  return judgement({
    holds: allowed !== null,
    says: () => distanceSentence(e, met, allowed !== null),
    value: { value: e.distance, unit: 'm' },
    limit: { value: limit.sourced.value, unit: 'm' },
    margin: limit.sourced.value - e.distance,
    working: () => [...waySteps(op, e), ...rows.map((row) => allowedStep(row))],
    restsOn: () => e.way.map((id) => op.wires.get(id)?.length).filter((b) => b !== null && b !== undefined),
    limits: [limit],
    about: [...e.way, e.source.part],
  });
}

function distanceSentence(e: Exposure, device: string | null, holds: boolean): string {
  const { label } = e.source;
  if (device === null)
    return `${e.wire} has no device between it and ${label}: ${metres(e.distance)} of conductor lie bare to it.`;
  const where = `the first device on ${e.wire} (${device}) is ${metres(e.distance)} from ${label}`;
  return holds ? `${capital(where)}.` : `${capital(where)}: a short before it is cleared by nothing.`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const endsAtDevice = (op: Operation, e: Exposure): string | null => {
  const far = placedAt(op, e.far);
  return far?.ability.protects === undefined ? null : far.id;
};

function waySteps(op: Operation, e: Exposure): readonly Step[] {
  const how = e.way.map((id) => `${metres(lengthOf(op, id))} (${id})`).join(' + ');
  return [
    step(`Conductor from ${e.source.terminal} to ${e.far}`, how, e.distance, 'm', { about: [...e.way] }),
  ];
}

const allowedStep = (row: Allowed): Step =>
  step(
    row.covered ? 'Permitted, sheathed or enclosed' : 'Permitted',
    row.basis.label,
    row.basis.sourced.value,
    'm',
    { source: row.basis.sourced.source },
  );

function judgeTap(tap: Tap, op: Operation, practice: Practice): Judgement {
  const rows = allowedFor(op, practice, [tap.wire]);
  const allowed = allowing(rows, tap.distance);
  const limit = (allowed ?? rows.at(-1))?.basis ?? practice.reach.plain;
  const upstream = allowed === rows[0] ? null : upstreamOf(tap, op, practice);
  if (upstream !== null) return upstream;
  const length = op.wires.get(tap.wire)?.length ?? null;
  return judgement({
    holds: allowed !== null,
    says: () =>
      `${tap.wire} leaves ${tap.leaves} and has its own device (${tap.device}) after ${metres(tap.distance)}.`,
    value: { value: tap.distance, unit: 'm' },
    limit: { value: limit.sourced.value, unit: 'm' },
    margin: limit.sourced.value - tap.distance,
    working: () => [
      step(`From ${tap.near} to ${tap.device}`, metres(tap.distance), tap.distance, 'm', {
        about: [tap.wire],
      }),
      ...rows.map((row) => allowedStep(row)),
    ],
    restsOn: length === null ? [] : [length],
    limits: [limit],
    about: [tap.wire, tap.device],
  });
}

/**
 * A tap at a doubtful distance that the devices upstream protect by what is known: its distance decides nothing. null: they do
 * not, or it rests on figures from memory as well.
 */
function upstreamOf(tap: Tap, op: Operation, practice: Practice): Judgement | null {
  const wire = op.wires.get(tap.wire);
  const flow = wire === undefined ? null : sustainedInto(op, wire);
  if (wire === undefined || flow === null || !Number.isFinite(flow.amps)) return null;
  const verdict = againstAmpacity(op, wire, flow.amps, practice.ratingFactor);
  const cleared = verdict.holds === true ? clearedBy(op, wire) : null;
  if (cleared === null) return null;
  const limits = [...flow.limits.map((l) => l.basis), ...verdict.limits, ...cleared];
  if (limits.some((basis) => basis.sourced.prov === 'memory')) return null;
  const who = [...new Set(flow.limits.map((l) => l.label))];
  return judgement({
    holds: true,
    says: () =>
      `${tap.wire} is protected upstream (${listed(who)}): it carries ${amps(flow.amps)} for good, and a short on it is cleared in time.`,
    value: { value: flow.amps, unit: 'A' },
    limit: { value: verdict.limit, unit: 'A' },
    margin: verdict.limit === null ? null : verdict.limit - flow.amps,
    working: () => verdict.steps(),
    limits,
    about: [tap.wire, tap.device, ...flow.limits.map((l) => l.part)],
  });
}

/** A fuse put in at the end where the source meets the wire. */
function deviceAtSource(e: Exposure, op: Operation, practice: Practice): readonly Remedy[] {
  const wire = op.wires.get(e.wire);
  if (wire === undefined || e.way.length !== 1) return [];
  const least = continuousInWire(op, e.wire).amps / HEAT_SHARE;
  const most = againstAmpacity(op, wire, least, practice.ratingFactor).limit;
  if (most === null) return [];
  const family =
    e.source.stiff && least > BLADE_MOST ? 'class-t' : e.source.stiff ? 'cartridge' : 'bolt-down';
  return ratingsWithin(least, most)
    .slice(0, 2)
    .map((rating) => fuseAt(op, wire, e.near, rating, family));
}

/** Continuous share of a fuse's rating in heat, to propose a rating; the proposal is judged again before it is offered. */
const HEAT_SHARE = 0.8;
const BLADE_MOST = 25;
