/** A current against the ampacity of a wire, by every table that the practice tries. */
import type { Ampacity, Basis, Id, LaidWire, Need, Operation, Step } from '../../contracts/index.ts';
import { distinct, need } from './figures-needed.ts';
import { perKey } from './memo.ts';
import { amps, atMost, celsius, factor } from './short-text.ts';

export interface AmpacityVerdict {
  /** null: no table has a figure. */
  readonly holds: boolean | null;
  /** The table that decides. */
  readonly chosen: Ampacity | null;
  /** Permitted current by it, A. */
  readonly limit: number | null;
  readonly limits: readonly Basis[];
  /** The air that the figure is for. */
  readonly air: readonly Basis[];
  readonly missing: readonly Need[];
  /** Written when asked for. */
  steps(): readonly Step[];
}

/** Behind a device or limit of at most this many amperes the smallest wires need no table, from half a square millimetre on. */
const SMALL_AMPS = 3;
const SMALL_AREA = 0.5;

/**
 * The tables in turn: the first that holds decides (a later one from memory leaves the verdict unconfirmed); when none holds
 * the most generous is named. `share` is the part of the ampacity that may be used.
 */
export function againstAmpacity(op: Operation, wire: LaidWire, current: number, share = 1): AmpacityVerdict {
  const tables = op.ampacity(wire.id);
  const known = tables.filter((t) => t.amps !== null);
  const steps = (): readonly Step[] => tables.flatMap((t) => ampacitySteps(wire.id, t));
  const unknown = insulationNeeded(wire, tables);
  if (unknown !== null) {
    return { ...NOTHING, chosen: tables[0] ?? null, missing: [unknown], steps };
  }
  const passes = (t: Ampacity): boolean => t.amps !== null && atMost(current, share * t.amps);
  const small = smallWire(wire, tables, current);
  const holding = known.find((t) => passes(t));
  const chosen =
    (small === null ? holding : tables[0]) ?? holding ?? mostGenerous(known) ?? tables[0] ?? null;
  const limit = chosen?.amps === undefined || chosen.amps === null ? null : share * chosen.amps;
  if (small !== null) {
    const all = (): readonly Step[] => [...steps(), smallStep(wire, current)];
    return { ...NOTHING, holds: true, chosen, limit: SMALL_AMPS, limits: small, steps: all };
  }
  if (known.length === 0) return { ...NOTHING, chosen, limit, missing: [noFigure(wire, tables)], steps };
  const air = airOf(wire, chosen);
  return { ...NOTHING, holds: holding !== undefined, chosen, limit, limits: basesOf(chosen), air, steps };
}

const NOTHING = { holds: null, limit: null, limits: [], air: [], missing: [] } as const;

/** The air of the segment that governs. */
export const airOf = (wire: LaidWire, ampacity: Ampacity | null): readonly Basis[] =>
  ampacity === null
    ? []
    : [wire.segments.find((s) => s.hottest.sourced.value === ampacity.airC)?.hottest ?? wire.hottest];

/** Base figure and factors of an ampacity. */
export const basesOf = (ampacity: Ampacity | null): readonly Basis[] =>
  ampacity === null ? [] : figuresOf(ampacity);

const figuresOf = perKey((ampacity: Ampacity) =>
  distinct([ampacity.base, ...ampacity.factors.map((f) => f.basis)]),
);

function mostGenerous(known: readonly Ampacity[]): Ampacity | undefined {
  return known.reduce<Ampacity | undefined>(
    (best, t) => (best === undefined || (t.amps ?? 0) > (best.amps ?? 0) ? t : best),
    undefined,
  );
}

/** The bases that serve when a wire below the tables carries at most 3 A; null: the rule does not apply. */
function smallWire(wire: LaidWire, tables: readonly Ampacity[], current: number): readonly Basis[] | null {
  const area = wire.areaMm2;
  if (area === null || area < SMALL_AREA || !atMost(current, SMALL_AMPS)) return null;
  const below = tables.find((t) => t.base?.sourced.prov === 'practice');
  if (below === undefined || below.airC >= wire.rating) return null;
  return distinct([below.base]);
}

const smallStep = (wire: LaidWire, current: number): Step => ({
  what: `Size of ${wire.id}, below the tables`,
  how: `${amps(current)} at most behind a device or limit of ${SMALL_AMPS} A needs no more from 0.5 mm² on`,
  value: SMALL_AMPS,
  unit: 'A',
  source: 'common practice, no source',
  about: [wire.id],
});

/** In air above this the least insulation that is sold is no fair guess, °C. */
const GUESSED_UP_TO = 60;

/** In hot air nothing is said of a wire whose insulation nobody gave; null: it is given, or the air is mild. */
function insulationNeeded(wire: LaidWire, tables: readonly Ampacity[]): Need | null {
  if (!wire.insulationAssumed || wire.areaMm2 === null) return null;
  const air = Math.max(...tables.map((t) => t.airC), ...wire.segments.map((s) => s.hottest.sourced.value));
  if (!(air > GUESSED_UP_TO)) return null;
  return need(
    `wires.${wire.id}.insulation`,
    `insulation of ${wire.id}`,
    `the air gets ${celsius(air)} there, and ${wire.insulation} is only a guess`,
    'read it on the cable',
  );
}

export function noFigure(wire: LaidWire, tables: readonly Ampacity[]): Need {
  const reason = tables.find((t) => t.reason !== null)?.reason ?? 'no table has a figure for this wire';
  if (wire.areaMm2 === null)
    return need(
      `wires.${wire.id}.size`,
      `size of ${wire.id}`,
      'without it nothing can be said of its ampacity',
      'read it on the cable',
    );
  return need(`wires.${wire.id}.ampacity`, `ampacity of ${wire.id}`, reason, 'ask the maker of the cable');
}

/** "120 × 0.85 × 0.7": base, factors, result. */
export function ampacitySteps(wire: Id, t: Ampacity): readonly Step[] {
  if (t.amps === null || t.base === null) {
    const why = t.reason ?? 'no figure';
    return [{ what: `Ampacity of ${wire}`, how: why, value: null, unit: 'A', about: [wire] }];
  }
  const product = [
    amps(t.base.sourced.value),
    ...t.factors.map((f) => `${factor(f.value)} (${f.label})`),
  ].join(' × ');
  return [
    {
      what: `Ampacity of ${wire} in air of ${celsius(t.airC)}`,
      how: product,
      value: t.amps,
      unit: 'A',
      source: t.base.sourced.source,
      about: [wire],
    },
  ];
}
