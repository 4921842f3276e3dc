/** Continuous current that a laid wire may carry, with every factor that made it. */
import type {
  Ampacity,
  AmpacityAnswer,
  AmpacityQuestion,
  AmpacityTable,
  Basis,
  LaidWire,
  Practice,
  Segment,
} from '../contracts/index.ts';
import type { Values } from '../devices/values.ts';
import { insulatedWallFactor } from '../reference/index.ts';

type Factor = Ampacity['factors'][number];

/** Air that an engine-space factor stands for, °C (33 CFR 183.425 note 1). */
const ENGINE_SPACE_AIR = 50;

const LAID: Readonly<Record<Segment['in'], string>> = {
  free: 'lying free',
  conduit: 'in conduit',
  loom: 'in a loom',
  bundle: 'in a bundle',
  spaced: 'spaced from others',
};

/**
 * Ampacity of a wire in the hottest air along its way, one answer per table of the practice, in its order. `counts`: loaded conductors per
 * segment, the wire itself included (see `bundles`). The worst segment governs; a segment without a figure leaves the wire without one.
 */
export function ampacityOf(
  wire: LaidWire,
  counts: readonly number[],
  practice: Practice,
  values: Values,
): readonly Ampacity[] {
  return practice.tables.map((table) => worst({ wire, counts, table, practice, values }));
}

/**
 * The same in air of `airC` °C, by the first table that has a figure, A, for predicting a temperature in one condition (see
 * `steadyTemperature`): the current that brings the wire to its insulation's rating in that air; null without a figure. Below
 * 30 °C it may exceed the table. An engine-space factor, which stands for 50 °C, counts only in air that is at least so hot,
 * or as hot as the place ever gets.
 *
 * `known`: what was found before for this wire in this air under these values; it is added to.
 */
export function ampsAt(
  wire: LaidWire,
  airC: number,
  counts: readonly number[],
  practice: Practice,
  values: Values,
  known: SegmentAmps = [],
): number | null {
  const { tables } = practice;
  const { segments } = wire;
  let first: number | null = null;
  for (let t = 0; t < tables.length; t += 1) {
    let least: number | null = Infinity;
    for (let n = 0; n < segments.length; n += 1) {
      const at = t * segments.length + n;
      let alone = known[at];
      if (alone === undefined) {
        alone = alikeOn({ wire, table: tables[t]!, values }, segments[n]!, airC);
        known[at] = alone;
      }
      if (alone === null || least === null) least = null;
      else {
        const beside = bundleFactor(practice, values, counts[n] ?? 1);
        least = Math.min(least, alone.amps * beside * alone.wall);
      }
    }
    first ??= least;
  }
  return first;
}

/** What a segment may carry with nothing beside it, A, before the factor for a wall; that factor. */
interface Alone {
  readonly amps: number;
  readonly wall: number;
}

/** What each segment of a wire may carry alone, by table and segment; null without a figure. */
export type SegmentAmps = (Alone | null)[];

/** Of segments that are alike, by the table and the air. */
type Alike = Map<AmpacityTable, Map<number, Alone | null>>;

const alikes = new WeakMap<Values, Map<string, Alike>>();
/** Of a segment: what was found for those that are like it under the values at hand. */
const alikeTo = new WeakMap<Segment, { readonly values: Values; readonly alike: Alike }>();

/** As `aloneOn`, which is asked once for all wires and segments of one sort. */
function alikeOn(asking: AskingAlone, segment: Segment, airC: number): Alone | null {
  const { wire, table, values } = asking;
  let known = alikeTo.get(segment);
  if (known?.values !== values) {
    const alike = kept(knownOf(alikes, values), sortOf(wire, segment), (): Alike => new Map());
    known = { values, alike };
    alikeTo.set(segment, known);
  }
  const byAir = kept(known.alike, table, () => new Map<number, Alone | null>());
  return kept(byAir, airC, () => aloneOn(asking, segment, airC));
}

/** Equal for segments that carry the same alone in the same air. */
const sortOf = (wire: LaidWire, segment: Segment): string =>
  [
    wire.areaMm2,
    wire.copper,
    wire.sizeText,
    wire.insulation,
    wire.rating,
    segment.in,
    segment.insulatedWall,
    segment.engineSpace ? segment.hottest.sourced.value : '',
  ].join('|');

/** As `onSegment` multiplies, in the same order, without what is only to be shown. */
function aloneOn({ wire, table, values }: AskingAlone, segment: Segment, airC: number): Alone | null {
  const question = ask(wire, segment, airC);
  const answer = question === null ? null : look(table, question);
  if (answer === null || answer.amps === null || answer.basis === null) return null;
  const base = figure(values, answer.basis).sourced.value;
  if (answer.airBasis !== null) figure(values, answer.airBasis);
  const wall = insulatedWallFactor(segment.insulatedWall);
  if (wall.value !== 1) figure(values, wallFigure(wall));
  return { amps: base * answer.airFactor, wall: wall.value };
}

const besides = new WeakMap<Values, Map<number, number>>();

/** The practice's factor for so many loaded conductors; noted as used where it changes anything. */
const bundleFactor = (practice: Practice, values: Values, count: number): number =>
  kept(knownOf(besides, values), count, () => {
    const beside = bundleFigure(practice, count);
    if (beside.sourced.value !== 1) figure(values, beside);
    return beside.sourced.value;
  });

/** The figure of the first table that has one, before any factor, A; null without one. */
export function tableValue(wire: LaidWire, segment: Segment, practice: Practice): number | null {
  const question = ask(wire, segment, segment.hottest.sourced.value);
  if (question === null) return null;
  for (const table of practice.tables) {
    const { amps } = look(table, question);
    if (amps !== null) return amps;
  }
  return null;
}

/** Questions that a table remembers. A table answers the same question alike for every build. */
const MOST_QUESTIONS = 5000;

const answers = new WeakMap<AmpacityTable, Map<string, AmpacityAnswer>>();

function look(table: AmpacityTable, q: AmpacityQuestion): AmpacityAnswer {
  const known = knownOf(answers, table);
  if (known.size > MOST_QUESTIONS) known.clear();
  const key = `${q.areaMm2}|${q.awg}|${q.insulation}|${q.insulationC}|${q.in}|${q.airC}|${q.engineSpace}`;
  return kept(known, key, () => table.look(q));
}

/** What a wire may carry with nothing beside it is asked of one table, under these values. */
interface AskingAlone {
  readonly wire: LaidWire;
  readonly table: AmpacityTable;
  readonly values: Values;
}

interface Asking extends AskingAlone {
  readonly counts: readonly number[];
  readonly practice: Practice;
}

function worst(asking: Asking): Ampacity {
  const answers = asking.wire.segments.map((segment, i) =>
    onSegment(asking, segment, asking.counts[i] ?? 1, segment.hottest.sourced.value),
  );
  const [first, ...others] = answers;
  if (first === undefined) throw new Error('a wire has at least one segment');
  return others.reduce((least, answer) => ((answer.amps ?? -1) < (least.amps ?? -1) ? answer : least), first);
}

/** AWG number by the size as it is written; '' for others. */
const gauges = new Map<string, string>();

function ask(wire: LaidWire, segment: Segment, airC: number): AmpacityQuestion | null {
  if (wire.areaMm2 === null || !wire.copper) return null;
  return {
    areaMm2: wire.areaMm2,
    awg: kept(gauges, wire.sizeText, () => /^(\S+)\sAWG$/.exec(wire.sizeText)?.[1] ?? '') || null,
    insulation: wire.insulation,
    insulationC: wire.rating,
    in: segment.in,
    airC,
    engineSpace: segment.engineSpace && airC >= Math.min(ENGINE_SPACE_AIR, segment.hottest.sourced.value),
  };
}

function onSegment(asking: Asking, segment: Segment, count: number, airC: number): Ampacity {
  const { wire, table, values } = asking;
  const question = ask(wire, segment, airC);
  if (question === null) return none(wire, airC, count, wire.copper ? 'the size is not known' : NO_CLAD);
  const answer = look(table, question);
  if (answer.amps === null || answer.basis === null) return none(wire, airC, count, answer.reason);
  const base = figure(values, answer.basis);
  const factors = factorsOf(asking, segment, count, answer);
  return {
    amps: factors.reduce((amps, factor) => amps * factor.value, base.sourced.value),
    base,
    airC,
    factors,
    reason: null,
    insulationC: wire.rating,
    bundled: count,
  };
}

const NO_CLAD = 'no table gives a current for copper-clad aluminium';

const none = (wire: LaidWire, airC: number, bundled: number, reason: string | null): Ampacity => ({
  amps: null,
  base: null,
  airC,
  factors: [],
  reason: reason ?? 'the table has no figure',
  insulationC: wire.rating,
  bundled,
});

const together = new WeakMap<Practice, Map<number, Basis>>();

/** The practice's factor for so many loaded conductors; one object for each count. */
const bundleFigure = (practice: Practice, count: number): Basis =>
  kept(knownOf(together, practice), count, () => practice.bundle(count));

/** Air, bundle, wall; those that change nothing are left out. */
function factorsOf(
  asking: Asking,
  segment: Segment,
  count: number,
  answer: AmpacityAnswer,
): readonly Factor[] {
  const { practice, values } = asking;
  const factors: Factor[] = [];
  if (answer.airBasis !== null || answer.airFactor !== 1) {
    const basis = answer.airBasis === null ? null : figure(values, answer.airBasis);
    factors.push({ label: answer.airLabel, value: answer.airFactor, basis });
  }
  const beside = bundleFigure(practice, count);
  if (beside.sourced.value !== 1) {
    factors.push({
      label: `${count} loaded conductors ${LAID[segment.in]}`,
      value: beside.sourced.value,
      basis: figure(values, beside),
    });
  }
  const wall = insulatedWallFactor(segment.insulatedWall);
  if (wall.value !== 1) {
    factors.push({ label: 'in wall insulation', value: wall.value, basis: figure(values, wallFigure(wall)) });
  }
  return factors;
}

const published = (path: string, label: string, sourced: Basis['sourced']): Basis => ({
  path,
  label,
  sourced,
  how: 'read the standard, confirm it once',
  effort: 'confirm',
  assumed: true,
});

/** Figures under an assumption, by the figure as published. */
const figures = new WeakMap<Values, Map<Basis, Basis>>();

const wallFigure = (factor: Basis['sourced']): Basis =>
  published('table:insulated-wall/bs-7671', 'factor in wall insulation', factor);

/** A published figure under the present assumption; less of it means a hotter wire, so a band is slack downwards. */
const figure = (values: Values, basis: Basis): Basis =>
  kept(knownOf(figures, values), basis, () =>
    values.figure(basis.path, basis.sourced, {
      label: basis.label,
      how: basis.how,
      effort: basis.effort,
      slack: 'down',
    }),
  );

/** What is known of an owner; it goes with the owner. */
function knownOf<O extends object, K, V>(all: WeakMap<O, Map<K, V>>, owner: O): Map<K, V> {
  let known = all.get(owner);
  if (known === undefined) {
    known = new Map();
    all.set(owner, known);
  }
  return known;
}

function kept<K, V>(known: Map<K, V>, key: K, make: () => V): V {
  const old = known.get(key);
  if (old !== undefined) return old;
  const made = make();
  known.set(key, made);
  return made;
}
