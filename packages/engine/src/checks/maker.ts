/** What the charger's maker prints for its input: fuse, cable, input current, beside what is fitted and computed. */
import type {
  Basis,
  Check,
  Judgement,
  LaidWire,
  Need,
  Operation,
  Placed,
  Remedy,
  Step,
} from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { parseSize, type Size } from '../quantity/index.ts';
import type { Charger } from './support/charger.ts';
import { chargerById, chargers } from './support/charger.ts';
import { fedThrough } from './support/chargers.ts';
import { devicesOf } from './support/downstream.ts';
import { need, partNeed } from './support/figures-needed.ts';
import { van } from './support/examples.ts';
import { judgement, missing, step } from './support/judgement.ts';
import { rate } from './support/remedies.ts';
import { amps, atMost, square } from './support/short-text.ts';
import { capital } from './support/words.ts';
import { leastBy } from './support/worst.ts';

export const maker: Check = {
  id: 'maker',
  title: "The maker's printed instruction is kept",
  family: "maker's instruction",
  danger: false,
  statements: TOPICS.makersInstruction,
  subjects: (op) =>
    chargers(op)
      .filter(says)
      .map((c) => ({ id: c.part.id, label: c.part.label })),
  judge: (subject, op) => judge(chargerById(op, subject.id), op),
  remedies: (subject, op) => remedies(chargerById(op, subject.id), op),
  failing: printed('{ fuse: 50 A, cable: 50 mm2, input: 60 A }'),
  passing: printed('{ fuse: 60 A, cable: 35 mm2, input: 40 A }'),
};

function printed(instruction: string): string {
  return van('A charger with a printed instruction', {
    parts: {
      charger: `{ kind: dc-charger, at: locker, current: 30 A, enable: signal, starts: 12.3 V after 15 s, stops: 12.0 V after 5 s, low-input: stops, negative: common, efficiency: 0.88, maker: ${instruction} }`,
    },
  });
}

/** Which computed and printed input currents count as the same. */
const SAME_SHARE = 0.05;

const says = ({ does: { maker: m } }: Charger): boolean =>
  m.fuse !== null || m.cable !== null || m.input !== null;

/** One thing printed against what is there. */
interface Row {
  readonly holds: boolean;
  readonly note: boolean;
  readonly text: string;
  readonly steps: readonly Step[];
  readonly bases: readonly Basis[];
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: string;
}

type Answer = Row | { readonly needs: readonly Need[] } | null;

function judge(charger: Charger, op: Operation): Judgement {
  const answers = [fuseRow(charger, op), cableRow(charger, op), inputRow(charger)].filter((a) => a !== null);
  const rows = answers.flatMap((a) => ('needs' in a ? [] : [a]));
  const needs = answers.flatMap((a) => ('needs' in a ? a.needs : []));
  const failing = rows.filter((r) => !r.holds);
  const about = [
    charger.part.id,
    ...fitted(charger, op).map((p) => p.id),
    ...feeds(charger, op).map((w) => w.id),
  ];
  if (needs.length > 0 && failing.length === 0)
    return missing(`Whether the instruction of ${charger.part.label} is kept cannot be said.`, needs, {
      about,
    });
  const shown = failing[0] ?? rows.find((r) => r.note) ?? rows[0];
  const told = failing.length > 0 ? failing : rows.filter((r) => r.note);
  const text = told.length > 0 ? told : rows;
  return judgement({
    holds: failing.length === 0,
    ...(failing.length === 0 && told.length > 0 ? { note: 'advice' as const } : {}),
    says: () => `The maker of ${charger.part.label} ${text.map((r) => r.text).join('; ')}.`,
    value: { value: shown?.value ?? null, unit: shown?.unit ?? '' },
    limit: { value: shown?.limit ?? null, unit: shown?.unit ?? '' },
    working: rows.flatMap((r) => r.steps),
    restsOn: rows.flatMap((r) => r.bases),
    about,
  });
}

/** Devices that all of its input current passes. */
const fitted = (charger: Charger, op: Operation): readonly Placed[] =>
  devicesOf(op).filter((p) => fedThrough(op, p.id).some((f) => f.charger === charger.part.id));

/** Wires that all of its input current passes. */
const feeds = (charger: Charger, op: Operation): readonly LaidWire[] =>
  [...op.wires.values()].filter((w) => fedThrough(op, w.id).some((f) => f.charger === charger.part.id));

/** The smallest device in the feed is no larger than the fuse that is printed; without a device protection speaks. */
function fuseRow(charger: Charger, op: Operation): Answer {
  const most = charger.does.maker.fuse;
  const devices = fitted(charger, op);
  if (most === null || devices.length === 0) return null;
  const rated = devices.flatMap((part) => {
    const rating = part.ability.protects?.rating ?? null;
    return rating === null ? [] : [{ part, rating }];
  });
  const least = leastBy(rated, (r) => r.rating.sourced.value);
  const limit = most.sourced.band?.[1] ?? most.sourced.value;
  if (least === null || (least.rating.sourced.value > limit && rated.length < devices.length))
    return { needs: devices.filter((p) => p.ability.protects?.rating === null).map(ratingOf) };
  const value = least.rating.sourced.value;
  const holds = atMost(value, limit);
  const { id } = least.part;
  return {
    holds,
    note: false,
    text: holds
      ? `prints a ${amps(limit)} fuse and ${id} is rated ${amps(value)}`
      : `prints a fuse of ${amps(limit)} at the most, but ${id} is rated ${amps(value)}`,
    steps: [
      step('fuse that is printed', most.sourced.source, limit, 'A', { about: [charger.part.id] }),
      step('smallest device in the feed', id, value, 'A', { about: [id] }),
    ],
    bases: [most, least.rating],
    value,
    limit,
    unit: 'A',
  };
}

const ratingOf = (part: Placed): Need => partNeed(part.id, 'rating', 'the maker prints a fuse');

const printedSize = (charger: Charger): Size | null => {
  const { cable } = charger.does.maker;
  const size = cable === null ? null : parseSize(cable);
  return size?.ok === true ? size.size : null;
};

/** No wire that carries its whole input is thinner than the cable that is printed. */
function cableRow(charger: Charger, op: Operation): Answer {
  const { cable } = charger.does.maker;
  if (cable === null) return null;
  const size = printedSize(charger);
  const none = { holds: true, steps: [], bases: [], value: null, limit: null, unit: 'mm²' };
  if (size === null)
    return {
      ...none,
      note: true,
      text: `prints the cable "${cable}", which is no size that can be compared`,
    };
  const wires = feeds(charger, op);
  const unknown = wires.filter((w) => w.areaMm2 === null);
  const thinnest = leastBy(
    wires.filter((w) => w.areaMm2 !== null),
    (w) => w.areaMm2 ?? 0,
  );
  const area = thinnest?.areaMm2 ?? null;
  if (unknown.length > 0 && (area === null || area >= size.areaMm2))
    return {
      needs: unknown.map((w) => need(`wires.${w.id}.size`, `size of ${w.id}`, 'the maker prints a cable')),
    };
  if (thinnest === null || area === null) return null;
  const holds = atMost(size.areaMm2, area);
  return {
    ...none,
    holds,
    note: false,
    text: holds
      ? `prints ${size.name} and no wire of the feed is thinner`
      : `prints ${size.name}, but ${thinnest.id} is ${thinnest.sizeText}`,
    steps: [
      step('cable that is printed', cable, size.areaMm2, 'mm²', { about: [charger.part.id] }),
      step('thinnest wire of the feed', `${thinnest.id}, ${square(area)}`, area, 'mm²', {
        about: [thinnest.id],
      }),
    ],
    value: area,
    limit: size.areaMm2,
  };
}

/** The larger of both governs; where they differ it is said. */
function inputRow(charger: Charger): Answer {
  const { maker: m, computedInput: computed } = charger.does;
  if (m.input === null || computed === null) return null;
  const [print, own] = [m.input.sourced.value, computed.sourced.value];
  const differs = Math.abs(print - own) > SAME_SHARE * own;
  const governs = print > own ? 'the printed one governs' : 'the computed one governs';
  return {
    holds: true,
    note: differs,
    text: differs
      ? `prints an input of ${amps(print)} where ${amps(own)} is computed: ${governs}`
      : `prints an input of ${amps(print)}, as computed`,
    steps: [
      step('input current that is printed', m.input.sourced.source, print, 'A', { about: [charger.part.id] }),
      step('input current that is computed', computed.label, own, 'A', { about: [charger.part.id] }),
    ],
    bases: [m.input, computed],
    value: print,
    limit: own,
    unit: 'A',
  };
}

function remedies(charger: Charger, op: Operation): readonly Remedy[] {
  const most = charger.does.maker.fuse?.sourced.value ?? null;
  const devices = fitted(charger, op).filter(
    (p) => most !== null && (p.ability.protects?.rating?.sourced.value ?? 0) > most,
  );
  const size = printedSize(charger);
  const thin = size === null ? [] : feeds(charger, op).filter((w) => (w.areaMm2 ?? Infinity) < size.areaMm2);
  const changes = [
    ...devices.slice(0, 1).flatMap((p) => rate(p.id, most ?? 0).changes),
    ...thin.map((w) => ({ set: ['wires', w.id, 'size'], to: size?.text ?? 'unknown' })),
  ];
  if (changes.length === 0) return [];
  return [{ title: capital(`as the maker of ${charger.part.label} prints`), changes }];
}
