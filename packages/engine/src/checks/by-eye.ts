/** What the build states and no arithmetic judges: said, so that nobody takes silence for a verdict. */
import type { Check, Judgement, Operation, Place, Placed, Wire } from '../contracts/index.ts';
import { isKnownEnd } from '../document/index.ts';
import { TOPICS } from '../practices/index.ts';
import { confirms } from '../devices/confirms.ts';
import { van } from './support/examples.ts';
import { judgement } from './support/judgement.ts';
import { metres } from './support/short-text.ts';
import { capital, degrees, listed } from './support/words.ts';

export const byEye: Check = {
  id: 'by-eye',
  title: 'Stated, and for your own eye',
  family: 'placement',
  danger: false,
  statements: TOPICS.byEye,
  afterAll: true,
  subjects: (op) => [
    ...[...op.build.places.values()]
      .filter((place) => ofPlace(place, op).length > 0)
      .map((place) => ({ id: place.id, label: place.label ?? place.id })),
    ...[...op.parts.values()]
      .filter((part) => states(part))
      .map((part) => ({ id: part.id, label: part.label })),
    ...[...op.build.wires.values()]
      .filter((wire) => unknownEnds(wire).length > 0 || tooShort(op, wire) !== null)
      .map(({ id }) => ({ id, label: id })),
    ...(op.build.confirmed.length > 0 ? [{ id: CONFIRMED, label: 'what is confirmed' }] : []),
  ],
  judge(subject, op) {
    if (subject.id === CONFIRMED) return judgeConfirmed(op);
    const wire = op.build.wires.get(subject.id);
    if (wire !== undefined && ofWire(wire, op).length > 0) return judge(ofWire(wire, op), wire.id, [wire.id]);
    const part = op.parts.get(subject.id);
    const place = op.build.places.get(subject.id);
    if (part !== undefined && states(part)) return judge(ofPart(part), part.label, [part.id]);
    return judge(place === undefined ? [] : ofPlace(place, op), subject.label, [subject.id]);
  },
  failing: van('A charger of which more is told than can be computed', {
    places: { locker: '{ label: Locker, hottest: 45 °C, coldest: 5 °C, wet: yes }' },
  }),
  passing: van('A charger that says it works one way only', {
    parts: {
      charger:
        '{ kind: dc-charger, at: locker, current: 30 A, enable: signal, starts: 12.3 V after 15 s, stops: 12.0 V after 5 s, low-input: stops, negative: common, two-way: no }',
    },
  }),
};

/** No part or place is called so: a name has no space in it. */
const CONFIRMED = 'what is confirmed';

/** A confirmation of something on which nothing here rests changes nothing, and may be a slip of the pen. */
function judgeConfirmed(op: Operation): Judgement {
  const used = op.assumed().filter((b) => b.sourced.prov === 'confirmed');
  const idle = op.build.confirmed.filter(({ table }) => !used.some((b) => confirms(table, b.path, b.label)));
  const names = listed(idle.map(({ table }) => `"${table}"`));
  return idle.length === 0
    ? judgement({ holds: true, says: 'All that is confirmed is used.', about: [] })
    : judgement({
        holds: true,
        note: 'advice',
        says: `Nothing here rests on what is confirmed as ${names}: an open finding names the table that it wants.`,
        about: [],
      });
}

function judge(remarks: readonly string[], label: string, about: readonly string[]): Judgement {
  return remarks.length === 0
    ? judgement({ holds: true, says: `Nothing is stated of ${label} that is not judged.`, about })
    : judgement({ holds: true, note: 'advice', says: `${capital(label)}: ${remarks.join('; ')}.`, about });
}

/** Fields of parts that are read for papers and for people. */
const FIELDS = ['two-way', 'profile', 'coded', 'discharge-lowest'] as const;

const states = (part: Placed): boolean =>
  FIELDS.some((field) => field in part.kind.fields && part.read.given(field));

function ofPart({ read, kind }: Placed): readonly string[] {
  const has = (field: (typeof FIELDS)[number]): boolean => field in kind.fields && read.given(field);
  const remarks: string[] = [];
  if (has('two-way') && read.flag('two-way') === true)
    remarks.push('how much it gives back to its input side, and when, is not computed, only that it can');
  if (has('profile'))
    remarks.push('its profile is not computed: the set voltages and the rated current count');
  if (has('coded') && read.flag('coded') === true)
    remarks.push('a coded signal is counted as plain volts: ask the maker what may listen to it');
  if (has('discharge-lowest')) {
    const lowest = read.quantity('discharge-lowest');
    if (lowest !== null)
      remarks.push(`discharging below ${degrees(lowest.sourced.value)} is not looked for: mind it in winter`);
  }
  return remarks;
}

const unknownEnds = (wire: Wire): readonly string[] => [wire.from, wire.to].filter((end) => !isKnownEnd(end));

/** A wire may cut a corner of the ways as they were measured; this share of them it cannot be shorter than. */
const SHORTER = 0.9;

/** A typed length that is less than the wire's way along the routes, and that way, m; null: it is not, or it has no way. */
function tooShort(op: Operation, { id }: Wire): { readonly typed: number; readonly way: number } | null {
  const wire = op.wires.get(id);
  if (wire?.lengthFrom !== 'typed' || wire.length === null) return null;
  let way = 0;
  for (const { route } of wire.segments) {
    const length = route === null ? null : (op.build.routes[route]?.length ?? null);
    if (length !== null && length !== 'unknown') way += length.value;
  }
  const typed = wire.length.sourced.value;
  return typed < SHORTER * way ? { typed, way } : null;
}

function ofWire(wire: Wire, op: Operation): readonly string[] {
  const short = tooShort(op, wire);
  return [
    ...(short === null
      ? []
      : [
          `it is ${metres(short.typed)} long, and its way along the routes ${metres(short.way)}: one of the two is wrong, and with it all that hangs on its resistance`,
        ]),
    ...ofEnds(wire),
  ];
}

function ofEnds(wire: Wire): readonly string[] {
  if (unknownEnds(wire).length === 0) return [];
  return unknownEnds(wire).length === 2
    ? ['where its ends go is not known: it is in no computation']
    : ['where its other end goes is not known: it leads nowhere in every computation'];
}

function ofPlace(place: Place, op: Operation): readonly string[] {
  const here = [...op.parts.values()].filter((part) => part.at === place.id).map((part) => part.id);
  if (here.length === 0) return [];
  const names = listed(here);
  return [
    ...(place.wet ? [`water reaches it, and whether ${names} bear that is for you to see`] : []),
    ...(place.crashZone
      ? [`it may be crushed, and what ${names} would feed or cut then is not computed`]
      : []),
  ];
}
