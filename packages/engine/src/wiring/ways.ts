/** Ways along the routes of a vehicle: shortest, or through named places. */
import type { Id, Route } from '../contracts/index.ts';

export interface Way {
  /** In order, both ends included. */
  readonly places: readonly Id[];
  /** Indexes of the routes between them. */
  readonly routes: readonly number[];
}

/** What the choice of a way needs to know of the routes. */
export interface Ground {
  readonly routes: readonly Route[];
  /** m; null: nobody knows. */
  length(route: number): number | null;
  /** °C of the hotter end: of two ways of one length the hotter is taken, whatever the places are called. */
  heat(route: number): number;
}

/** A route of unknown length is gone only where nothing else leads. */
const UNKNOWN_LENGTH = 1e6;
/** Lengths closer than this are one, m. */
const SAME = 1e-9;

interface Label {
  readonly place: Id;
  readonly metres: number;
  readonly heat: number;
  readonly way: Way;
}

/** The shortest way between two places; null where none leads. Ties: the hotter, then by the names of its places. */
export function shortestWay(ground: Ground, from: Id, to: Id): Way | null {
  const best = new Map<Id, Label>();
  const done = new Set<Id>();
  best.set(from, { place: from, metres: 0, heat: -Infinity, way: { places: [from], routes: [] } });
  for (let at = next(best, done); at !== null; at = next(best, done)) {
    if (at.place === to) return at.way;
    done.add(at.place);
    for (const label of onward(ground, at)) {
      const known = best.get(label.place);
      if (known === undefined || better(label, known)) best.set(label.place, label);
    }
  }
  return null;
}

function next(best: ReadonlyMap<Id, Label>, done: ReadonlySet<Id>): Label | null {
  let chosen: Label | null = null;
  for (const label of best.values()) {
    if (!done.has(label.place) && (chosen === null || better(label, chosen))) chosen = label;
  }
  return chosen;
}

function onward(ground: Ground, at: Label): readonly Label[] {
  return ground.routes.flatMap((route, i) => {
    const place = otherEnd(route, at.place);
    if (place === null) return [];
    return [
      {
        place,
        metres: at.metres + (ground.length(i) ?? UNKNOWN_LENGTH),
        heat: Math.max(at.heat, ground.heat(i)),
        way: { places: [...at.way.places, place], routes: [...at.way.routes, i] },
      },
    ];
  });
}

function otherEnd(route: Route, place: Id): Id | null {
  if (route.from === route.to) return null;
  if (route.from === place) return route.to;
  return route.to === place ? route.from : null;
}

function better(a: Label, b: Label): boolean {
  if (Math.abs(a.metres - b.metres) > SAME) return a.metres < b.metres;
  if (a.heat !== b.heat) return a.heat > b.heat;
  const names = [a.way.places.join('\n'), b.way.places.join('\n')] as const;
  return names[0] < names[1];
}

/**
 * The way through the places of `via`, in their order. Two that follow each other are joined by the route between them, else by
 * the shortest way; the ends are joined where the list does not begin or end with them. A list written from the other
 * end is turned round where that is shorter. null: some stretch cannot be gone.
 */
export function wayThrough(ground: Ground, from: Id | null, via: readonly Id[], to: Id | null): Way | null {
  const forward = joined(ground, [...ends(from), ...via, ...ends(to)]);
  const backward = joined(ground, [...ends(from), ...via.toReversed(), ...ends(to)]);
  if (forward === null || backward === null) return forward ?? backward;
  return metresOf(ground, backward) < metresOf(ground, forward) - SAME ? backward : forward;
}

const ends = (place: Id | null): readonly Id[] => (place === null ? [] : [place]);

/** Metres of a way, routes of unknown length left out. */
export function metresOf(ground: Ground, way: Way): number {
  return way.routes.reduce((sum, i) => sum + (ground.length(i) ?? 0), 0);
}

function joined(ground: Ground, stops: readonly Id[]): Way | null {
  const first = stops[0];
  if (first === undefined) return null;
  let way: Way = { places: [first], routes: [] };
  for (const stop of stops.slice(1)) {
    const at = way.places.at(-1) ?? first;
    if (at === stop) continue;
    const leg = directWay(ground, at, stop) ?? shortestWay(ground, at, stop);
    if (leg === null) return null;
    way = { places: [...way.places, ...leg.places.slice(1)], routes: [...way.routes, ...leg.routes] };
  }
  return way;
}

/** The shortest single route between two places. */
function directWay(ground: Ground, from: Id, to: Id): Way | null {
  let best: Label | null = null;
  ground.routes.forEach((route, i) => {
    if (otherEnd(route, from) !== to) return;
    const metres = ground.length(i) ?? UNKNOWN_LENGTH;
    const label = { place: to, metres, heat: ground.heat(i), way: { places: [from, to], routes: [i] } };
    if (best === null || better(label, best)) best = label;
  });
  return (best as Label | null)?.way ?? null;
}
