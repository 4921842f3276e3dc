/** From a build as it is judged to what its drawing shows. */
import type { Id, LaidWire, Operation, Placed, Stated, SymbolData } from '../contracts/index.ts';
import { partOf, refOf, terminalOf } from '../checks/support/refs.ts';
import { formatQuantity, NO_BREAK_SPACE } from '../quantity/index.ts';
import { colourCode } from './colours.ts';
import { designations, wireNumbers, type Designation } from './numbers.ts';
import { placesOf } from './places.ts';
import { ratingTexts } from './protected-at.ts';
import { rolesOf } from './roles.ts';
import {
  NO_PLACE,
  type Subject,
  type SubjectEnd,
  type SubjectPart,
  type SubjectRoute,
  type SubjectWire,
} from './subject.ts';
import { depths, viewsOf, type Rows } from './views.ts';

/** The subject of a drawing. Parts that the build does not name (implied ones) and parts without terminals are not drawn. */
export function subjectOf(op: Operation): Subject {
  const { build } = op;
  const drawn = drawnParts(op);
  const parts = subjectParts(op, drawn);
  const unplaced = [...parts.values()].some((part) => part.place === NO_PLACE);
  return {
    title: build.title,
    revision: build.revision ?? '',
    practice: build.practice === undefined ? 'not named' : PRACTICES[build.practice],
    imperialSizes:
      2 * [...op.wires.values()].filter((w) => /AWG|SAE/.test(w.sizeText)).length > op.wires.size,
    vehicleLength: typeof build.vehicle.length === 'object' ? build.vehicle.length.value : null,
    places: placesOf(build, unplaced),
    routes: routesOf(op),
    parts,
    wires: subjectWires(op, drawn),
  };
}

const PRACTICES = { europe: 'Europe', 'north-america': 'North America' } as const;

interface Drawn {
  readonly part: Placed;
  readonly symbol: SymbolData;
}

function drawnParts(op: Operation): readonly Drawn[] {
  return [...op.parts.values()].flatMap((part) => {
    const symbol = part.implied ? undefined : part.kind.symbol?.(part.read);
    return symbol === undefined || symbol.terminals.length === 0 ? [] : [{ part, symbol }];
  });
}

function subjectParts(op: Operation, drawn: readonly Drawn[]): ReadonlyMap<Id, SubjectPart> {
  const named = designations(
    drawn.map(({ part, symbol }) => ({ id: part.id, letter: symbol.letter ?? part.kind.letter })),
    op.wires.size,
  );
  const wiring = wiringOf(op);
  return new Map(
    drawn.map(({ part, symbol }) => {
      const designation = named.get(part.id) ?? { text: part.id, digits: 1 };
      return [part.id, subjectPart(op, part, symbol, designation, wiring.get(part.id) ?? UNWIRED)];
    }),
  );
}

/** Of a part: its terminals with a wire, and its wires that lead back to itself, in words. */
interface PartWiring {
  readonly wired: Set<string>;
  readonly loops: string[];
}

const UNWIRED: PartWiring = { wired: new Set(), loops: [] };

function wiringOf(op: Operation): ReadonlyMap<Id, PartWiring> {
  const of = new Map<Id, PartWiring>();
  const at = (part: Id): PartWiring => {
    const known = of.get(part) ?? { wired: new Set(), loops: [] };
    of.set(part, known);
    return known;
  };
  for (const wire of op.wires.values()) {
    const [from, to] = [endOf(wire.from), endOf(wire.to)];
    for (const end of [from, to]) at(end.part).wired.add(end.terminal);
    // A wire from a part to itself is told, not drawn.
    if (from.part === to.part)
      at(from.part).loops.push(`${terminalText(from.terminal)} to ${terminalText(to.terminal)}`);
  }
  return of;
}

function subjectPart(
  op: Operation,
  part: Placed,
  symbol: SymbolData,
  designation: Designation,
  { wired, loops }: PartWiring,
): SubjectPart {
  const label = part.read.raw('label');
  const place = part.at !== null && op.build.places.has(part.at) ? part.at : NO_PLACE;
  return {
    id: part.id,
    designation: designation.text,
    digits: designation.digits,
    name: typeof label === 'string' && label.trim() !== '' ? label : spoken(part.id),
    title: part.kind.title,
    place,
    symbol,
    wired,
    notes: [...throughBody(part), ...loops],
  };
}

/** `feed-fuse` -> `Feed fuse`: what stands under a symbol without a label. */
function spoken(id: Id): string {
  const words = id.replaceAll(/[-_]+/g, ' ').trim();
  return words === '' ? id : words.charAt(0).toUpperCase() + words.slice(1);
}

function throughBody(part: Placed): readonly string[] {
  return part.ability.consumes?.minus === null ? [`return: body`] : [];
}

/** As printed: with a true minus. */
export const terminalText = (terminal: string): string => terminal.replaceAll('-', '\u2212');

function routesOf(op: Operation): readonly SubjectRoute[] {
  return op.build.routes.flatMap((route) => {
    if (route.from === route.to) return [];
    const length = route.length === undefined || route.length === 'unknown' ? '?' : typedLength(route.length);
    const how = route.in === 'free' ? '' : `${route.in} `;
    return [{ from: route.from, to: route.to, text: `${how}${length}` }];
  });
}

const typedLength = (stated: Stated): string => stated.text.replaceAll(/\s+/g, NO_BREAK_SPACE);

function subjectWires(op: Operation, drawn: readonly Drawn[]): ReadonlyMap<Id, SubjectWire> {
  const rows: Rows = new Map(
    drawn.map(({ part, symbol }) => [
      part.id,
      (symbol.rows ?? []).flatMap(({ left, right }) =>
        left === null || right === null ? [] : [[left, right] as const],
      ),
    ]),
  );
  const roles = rolesOf(op);
  const views = viewsOf(op, roles, rows);
  const depth = depths(op, roles, rows);
  const numbers = wireNumbers(op.build);
  const ratings = ratingTexts(op);
  const shown = new Set(drawn.map(({ part }) => part.id));
  const wires: [Id, SubjectWire][] = [];
  for (const wire of op.wires.values()) {
    const from = endOf(wire.from);
    const to = endOf(wire.to);
    if (from.part === to.part || !shown.has(from.part) || !shown.has(to.part)) continue;
    const number = numbers.get(wire.id) ?? { text: wire.id, digits: 1 };
    wires.push([
      wire.id,
      {
        id: wire.id,
        number: number.text,
        digits: number.digits,
        from,
        to,
        view: views.get(wire.id) ?? 'power',
        size: sizeText(wire),
        colour: colourCode(op.build.wires.get(wire.id)?.colour),
        length: lengthText(op, wire),
        rating: ratings.get(wire.id) ?? '',
        areaMm2: wire.areaMm2,
        assumed: false,
        depth: { from: depth(wire.from), to: depth(wire.to) },
      },
    ]);
  }
  return new Map([...wires, ...assumedWires(op, drawn)]);
}

const endOf = (ref: string): SubjectEnd => ({ part: partOf(ref), terminal: terminalOf(ref) });

/** `25` for 25 mm², `4 AWG` as it is. */
function sizeText(wire: LaidWire): string {
  const text = wire.sizeText;
  if (text === 'unknown') return '?';
  return text.replace(/\u00A0mm²$/, '');
}

function lengthText(op: Operation, wire: LaidWire): string {
  const length = wire.length?.sourced.value;
  if (length === undefined) return '';
  const decimals = length < 1 ? 2 : 1;
  return formatQuantity(length, 'length', { units: op.build.units, trim: true, decimals });
}

/** Parts without wires that are taken to sit at the vehicle battery's posts: joined to it by lines that say so. */
function assumedWires(op: Operation, drawn: readonly Drawn[]): readonly (readonly [Id, SubjectWire])[] {
  const { posts } = op;
  if (posts === null) return [];
  return drawn.flatMap(({ part }) => {
    const at = part.kind.atPostsWhenUnwired;
    if (at === undefined || [at.plus, at.minus].some((t) => op.wiresAt(refOf(part.id, t)).length > 0))
      return [];
    const feeds = part.ability.generates !== undefined;
    const join = (terminal: string, post: string, view: 'power' | 'negative'): readonly [Id, SubjectWire] => {
      const id = `${part.id}.${terminal}`;
      return [id, assumedWire(id, { part: part.id, terminal }, endOf(post), view, feeds)];
    };
    return [join(at.plus, posts.plus, 'power'), join(at.minus, posts.minus, 'negative')];
  });
}

function assumedWire(
  id: Id,
  from: SubjectEnd,
  to: SubjectEnd,
  view: 'power' | 'negative',
  feeds: boolean,
): SubjectWire {
  return {
    id,
    number: 'assumed',
    digits: 1,
    from,
    to,
    view,
    size: '',
    colour: '',
    length: '',
    rating: '',
    areaMm2: null,
    assumed: true,
    depth: feeds && view === 'power' ? { from: 0, to: 1 } : { from: 1, to: 0 },
  };
}
