/**
 * The vehicle view: the outline with the parts where they sit, all wires at once. Parts of a place are laid out among themselves
 * as on a sheet; the blocks are set by station and level; wires between them are led round what stands there. It is given only
 * when it comes out clean.
 */
import type { Id } from '../../contracts/index.ts';
import { bendsOf, crossingsOf, overlapsOf } from '../sheet/judge.ts';
import { makeModel } from '../sheet/make.ts';
import type { Layouts } from '../sheet/memo.ts';
import type { Edge, Port } from '../sheet/model.ts';
import {
  allBoxes,
  boxOf,
  cleaner,
  labelBox,
  movedBy,
  type Box,
  type Picture,
  type PlacedWire,
} from '../sheet/picture.ts';
import type { Point } from '../sheet/elk.ts';
import type { Subject, SubjectPlace } from '../subject.ts';
import { arrangements, SCREEN, type Arranged } from './arrange.ts';
import { layBlock, movedBlock, type Block, type Exit } from './block.ts';
import { labelled } from './labels.ts';
import type { Profile } from './profile.ts';
import { route } from './route.ts';

export interface VehicleView {
  readonly picture: Picture;
  /** Roof line at 0, floor line at `floor`; the body reaches from 0 to `width`. */
  readonly arranged: Arranged;
  readonly profile: Profile;
  /** Where each place's parts stand. */
  readonly places: readonly { readonly place: Id; readonly box: Box }[];
}

/** Usual length of the drawn vehicle, and the most that still reads easily, mm. */
const USUAL = 230;
const MOST_WIDTH = 300;
const MOST_HEIGHT = 190;
/** More wires than this are a sheet's work. */
const MOST_WIRES = 34;
/** Crossings that still read easily, by wires. */
const CROSSINGS_PER_WIRE = 0.4;
/** A wire that goes round by more than this is no map any more. */
const DETOUR = { times: 1.7, more: 30 } as const;

/** So many ways to set the blocks are tried. */
const TRIES = 4;

/** Few enough wires to be tried. */
export const mayBeVehicle = ({ wires }: Subject): boolean => wires.size > 0 && wires.size <= MOST_WIRES;

/** null: it does not fit, or does not come out clean. */
export async function vehicleView(
  subject: Subject,
  layouts: Layouts,
  thoroughness: number,
): Promise<VehicleView | null> {
  const wires = [...subject.wires.values()].toSorted((a, b) => (a.id < b.id ? -1 : 1));
  if (!mayBeVehicle(subject)) return null;
  const model = makeModel(subject, wires, { mode: 'slim', repeated: new Set(), brief: true });
  const most = Math.max(2, CROSSINGS_PER_WIRE * wires.length);
  for (const roomy of [false, true]) {
    const sized: Sized[] = [];
    for (const index of model.places) {
      const place = subject.places[index];
      if (place === undefined) return null;
      sized.push(sizedBlock(await layBlock(model, index, { layouts, thoroughness, roomy }), place));
    }
    const tried = arrangements(sized, vehicleLength(subject), USUAL)
      .filter(easy)
      .slice(0, TRIES)
      .flatMap((arranged) => setAndWired(sized, model.edges, arranged));
    const best = tried.toSorted((a, b) => costOf(a) - costOf(b))[0];
    if (best !== undefined && crossingsOf(best.picture) <= most) return best;
  }
  return null;
}

const costOf = ({ picture }: VehicleView): number =>
  40 * crossingsOf(picture) +
  8 * bendsOf(picture) +
  picture.wires.reduce((sum, wire) => sum + lengthOf(wire.points), 0);

export const lengthOf = (points: readonly Point[]): number =>
  points
    .slice(1)
    .reduce(
      (sum, b, i) => sum + Math.abs(b.x - (points[i]?.x ?? b.x)) + Math.abs(b.y - (points[i]?.y ?? b.y)),
      0,
    );

const easy = ({ width, floor, over, under }: Arranged): boolean =>
  width <= MOST_WIDTH && floor + over + under <= MOST_HEIGHT;

function setAndWired(
  sized: readonly Sized[],
  edges: readonly Edge[],
  arranged: Arranged,
): readonly VehicleView[] {
  const set = sized.map((each, i) => {
    const spot = arranged.spots[i] ?? { x: 0, y: 0 };
    return sizedBlock(
      movedBlock(each.block, spot.x - each.box.left, spot.y - each.box.top, movedBy),
      each.place,
    );
  });
  const profile = profileFor(arranged, set);
  const picture = wired(
    set.map((each) => each.block),
    edges,
    { bounds: boundsOf(arranged), outside: outsideOf(profile) },
  );
  if (picture === null || overlapsOf(picture).length > 0) return [];
  return [{ picture, arranged, profile, places: set.map(({ place, box }) => ({ place: place.id, box })) }];
}

interface Sized {
  readonly block: Block;
  readonly place: SubjectPlace;
  readonly box: Box;
  readonly width: number;
  readonly height: number;
}

function sizedBlock(block: Block, place: SubjectPlace): Sized {
  const exits = block.exits.flatMap((exit) =>
    exit.points.map(({ x, y }) => ({ left: x, right: x, top: y, bottom: y })),
  );
  const boxes = [...allBoxes(block.picture), ...exits];
  const box: Box = {
    left: Math.min(...boxes.map((b) => b.left)),
    top: Math.min(...boxes.map((b) => b.top)),
    right: Math.max(...boxes.map((b) => b.right)),
    bottom: Math.max(...boxes.map((b) => b.bottom)),
  };
  return { block, place, box, width: box.right - box.left, height: box.bottom - box.top };
}

function vehicleLength(subject: Subject): number {
  const stations = subject.places.map((place) => place.station ?? 0);
  return subject.vehicleLength ?? Math.max(1, ...stations) + 0.8;
}

const boundsOf = ({ width, floor, over, under }: Arranged): Box => ({
  left: 2,
  right: width - 2,
  top: over === 0 ? 2 : -over,
  bottom: under === 0 ? floor - 2 : floor + under,
});

/** The profile that holds every block: the bonnet over the engine space, the windscreen before what stands high. */
function profileFor({ width, floor, bonnet }: Arranged, set: readonly Sized[]): Profile {
  const engine = set.filter(({ place }) => place.engineSpace);
  const others = set.filter(({ place, box }) => !place.engineSpace && box.bottom > 0);
  const top = Math.max(3, Math.min(0.55 * floor, ...engine.map(({ box }) => box.top - 8)));
  const high = others.filter(({ box }) => box.top - 6 < top).map(({ box }) => box.left - 2);
  const brow = Math.max(bonnet + 3, Math.min(bonnet + SCREEN - 4, ...high));
  return {
    left: 0,
    right: width,
    roof: 0,
    floor,
    bonnet: { end: bonnet, top },
    brow,
    wheel: Math.min(14, 0.2 * floor),
  };
}

/** Over the bonnet and before the windscreen no wire runs. */
function outsideOf({ left, roof, bonnet, brow }: Profile): readonly Box[] {
  const half = (bonnet.top + roof) / 2;
  return [
    { left: left - 10, right: bonnet.end, top: roof - 40, bottom: bonnet.top + 1 },
    { left: bonnet.end, right: (bonnet.end + brow) / 2, top: roof - 40, bottom: half },
    { left: bonnet.end, right: brow - 2, top: roof - 40, bottom: roof + half / 2 },
  ];
}

/** A wire between two blocks: its two ways out, and what is still to be laid between them. */
interface Open {
  readonly edge: Edge;
  readonly source: Exit;
  readonly target: Exit;
  readonly span: number;
}

interface Room {
  readonly bounds: Box;
  readonly outside: readonly Box[];
}

/** How often each wire may look for a better way, once all lie. */
const AGAIN = 2;

/** The blocks with the wires between them; short ones first. null: a wire or its label finds no room, or goes too far round. */
function wired(blocks: readonly Block[], edges: readonly Edge[], room: Room): Picture | null {
  const open = openWires(blocks, edges);
  const parts = blocks.flatMap((block) => block.picture.nodes);
  const inside = blocks.flatMap((block) => block.picture.wires);
  const ways = new Map<Id, readonly (readonly Point[])[]>(
    open.map((each) => [each.edge.wire.id, [each.source.points, each.target.points]]),
  );
  for (let round = 0; round <= AGAIN; round += 1) {
    for (const each of open) {
      const others = [...ways].flatMap(([wire, points]) => (wire === each.edge.wire.id ? [] : points));
      const points = wayOf(each, { ...room, parts, inside, others });
      if (points === null) return null;
      ways.set(each.edge.wire.id, [points]);
    }
  }
  const laid = open.map(({ edge }) => ({ edge, points: ways.get(edge.wire.id)?.[0] ?? [] }));
  if (laid.some(({ points }) => goesRound(points))) return null;
  const named = labelled(laid, { nodes: parts, wires: inside }, room.bounds);
  return named === null ? null : { nodes: parts, wires: [...inside, ...named].toSorted(byWire) };
}

function openWires(blocks: readonly Block[], edges: readonly Edge[]): readonly Open[] {
  const exits = new Map(
    blocks.flatMap((block) => block.exits.map((exit) => [`${exit.wire}\n${exit.end}`, exit] as const)),
  );
  const exitAt = (edge: Edge, port: Port): Exit | undefined => exits.get(`${edge.wire.id}\n${port.end}`);
  return edges
    .flatMap((edge): readonly Open[] => {
      const [source, target] = [exitAt(edge, edge.source.port), exitAt(edge, edge.target.port)];
      if (source === undefined || target === undefined) return [];
      return [{ edge, source, target, span: lengthOf([lastOf(source), lastOf(target)]) }];
    })
    .toSorted((a, b) => a.span - b.span || (a.edge.wire.id < b.edge.wire.id ? -1 : 1));
}

interface Standing extends Room {
  readonly parts: Picture['nodes'];
  readonly inside: Picture['wires'];
  readonly others: readonly (readonly Point[])[];
}

function wayOf(
  { source, target }: Open,
  { bounds, outside, parts, inside, others }: Standing,
): readonly Point[] | null {
  const way = route(
    {
      bounds,
      parts: [...parts.map(boxOf), ...outside],
      labels: inside.map(labelBox),
      wires: [...inside.map((w) => w.points), ...others],
    },
    { ...lastOf(source), way: source.way },
    { ...lastOf(target), way: target.way },
  );
  return way === null ? null : cleaner([...source.points, ...way, ...target.points.toReversed()]);
}

function goesRound(points: readonly Point[]): boolean {
  const [a, b] = [points[0], points.at(-1)];
  if (a === undefined || b === undefined) return false;
  return lengthOf(points) > DETOUR.times * lengthOf([a, b]) + DETOUR.more;
}

const lastOf = (exit: Exit): Point => exit.points.at(-1) ?? { x: 0, y: 0 };
const byWire = (a: PlacedWire, b: PlacedWire): number => (a.edge.wire.id < b.edge.wire.id ? -1 : 1);
