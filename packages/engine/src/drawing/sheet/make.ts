/** From the wires of a view to boxes with ports: which parts appear, in which shape, with which text, which terminal on which side. */
import type { Id } from '../../contracts/index.ts';
import type { Subject, SubjectPart, SubjectWire } from '../subject.ts';
import { clipped, textWidth, wrap, type Line, type Run } from '../text/measure.ts';
import { briefLabel, wireLabel } from './label.ts';
import type { Edge, Mode, Node, Port, Shape, SheetModel, Side } from './model.ts';
import { orient } from './orient.ts';

/** Widest a name is written, mm. */
const NAME_WIDTH: Readonly<Record<Mode, number>> = { wide: 26, mid: 20, slim: 16 };
const NAME_LINES = 3;

export interface ModelOptions {
  readonly mode: Mode;
  /** Parts that stand on other pages of the view too: a line is kept free for the reference. */
  readonly repeated: ReadonlySet<Id>;
  /** Labels say number, size and colour only. */
  readonly brief?: boolean;
}

/** A reference takes this room: two of them. */
export const REFERENCE_SPACE = 'see 00/C0 00/C0';

export function makeModel(
  subject: Subject,
  wires: readonly SubjectWire[],
  options: ModelOptions,
): SheetModel {
  const places = new Map(subject.places.map((place, i) => [place.id, i]));
  const placeOf = (part: Id): number => places.get(subject.parts.get(part)?.place ?? '') ?? places.size;
  const ports = portsOf(subject, wires, placeOf);
  const nodes = [...ports.keys()]
    .toSorted(byText)
    .flatMap((id) => node(subject.parts.get(id), placeOf(id), ports.get(id) ?? [], options));
  const owner = new Map(
    nodes.flatMap((n) => [...n.west, ...n.east].map((p) => [`${p.wire} ${p.end}`, { node: n.id, port: p }])),
  );
  const edges = wires.flatMap((wire): readonly Edge[] => {
    const ends = [owner.get(`${wire.id} from`), owner.get(`${wire.id} to`)];
    const source = ends.find((e) => e?.port.side === 'E');
    const target = ends.find((e) => e?.port.side === 'W');
    if (source === undefined || target === undefined) return [];
    const apart = placeOf(wire.from.part) !== placeOf(wire.to.part);
    const tall = options.mode === 'slim' || (options.mode === 'mid' && !apart);
    const label = options.brief === true ? briefLabel(wire) : wireLabel(wire, tall);
    return [{ wire, source, target, label }];
  });
  return {
    mode: options.mode,
    nodes,
    edges: edges.toSorted((a, b) => byText(a.wire.id, b.wire.id)),
    places: [...new Set(nodes.map((n) => n.place))].toSorted((a, b) => a - b),
  };
}

/** By code points: the same everywhere, and free of the document's order. */
export const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function portsOf(
  subject: Subject,
  wires: readonly SubjectWire[],
  placeOf: (part: Id) => number,
): ReadonlyMap<Id, readonly Port[]> {
  const count = new Map<Id, string[]>();
  for (const wire of wires) {
    for (const end of [wire.from, wire.to])
      count.set(end.part, [...(count.get(end.part) ?? []), end.terminal]);
  }
  const inLine = (part: Id): boolean => {
    const used = count.get(part) ?? [];
    return used.length === 2 && onOneRow(subject.parts.get(part), used);
  };
  const forward = orient(wires, placeOf, inLine);
  const ports = new Map<Id, Port[]>();
  for (const wire of wires) {
    const east = forward.get(wire.id) === true ? 'from' : 'to';
    for (const end of ['from', 'to'] as const) {
      const { part, terminal } = wire[end];
      const side: Side = end === east ? 'E' : 'W';
      ports.set(part, [...(ports.get(part) ?? []), { wire: wire.id, end, terminal, side }]);
    }
  }
  return ports;
}

function onOneRow(part: SubjectPart | undefined, used: readonly string[]): boolean {
  const [a = '', b = ''] = used;
  return (part?.symbol.rows ?? []).some(
    ({ left, right }) => (left === a && right === b) || (left === b && right === a),
  );
}

function node(
  part: SubjectPart | undefined,
  place: number,
  ports: readonly Port[],
  options: ModelOptions,
): readonly Node[] {
  if (part === undefined) return [];
  const shape = shapeOf(part, ports);
  const width = NAME_WIDTH[options.mode];
  const beside = shape === 'round' && options.mode !== 'slim';
  const title = titleLines(part, width);
  const name = [
    ...clipped(wrap(part.name, width), NAME_LINES).map(plainLine),
    ...part.notes.flatMap((note) => wrap(note, width).map(plainLine)),
    ...(options.repeated.has(part.id) ? [[{ text: REFERENCE_SPACE, strong: false }]] : []),
  ];
  const stacked = shape === 'box' || shape === 'bar' || beside;
  return [
    {
      id: part.id,
      part,
      place,
      shape,
      west: sorted(part, ports, 'W'),
      east: sorted(part, ports, 'E'),
      head: stacked ? [...title, ...name] : title,
      foot: stacked ? [] : name,
      beside,
    },
  ];
}

const plainLine = (text: string): Line => [{ text, strong: false }];

/** Designation and plate: in one line where they fit, else what does not fit below. */
function titleLines(part: SubjectPart, width: number): readonly Line[] {
  const letter = part.designation.replace(/\d+$/, '');
  const first: Run = {
    text: part.designation,
    strong: true,
    room: textWidth(letter + '0'.repeat(part.digits), 'strong'),
  };
  const plate = wrap(part.symbol.plate?.join(' ') ?? '', width);
  const [start, ...rest] = plate;
  if (start === undefined) return [[first]];
  const whole: Line = [first, { text: start, strong: false }];
  const fits = (first.room ?? 0) + 0.9 + textWidth(start) <= width;
  return fits ? [whole, ...rest.map(plainLine)] : [[first], ...plate.map(plainLine)];
}

/** In the order of the symbol's terminals, then of the wires. */
function sorted(part: SubjectPart, ports: readonly Port[], side: Side): readonly Port[] {
  const { terminals } = part.symbol;
  const rank = (terminal: string): number => (terminals === 'numbered' ? 0 : terminals.indexOf(terminal));
  return ports
    .filter((port) => port.side === side)
    .toSorted((a, b) => rank(a.terminal) - rank(b.terminal) || byText(a.wire, b.wire));
}

/** The kind's own shape where the wires of this view allow it, else a box. */
function shapeOf(part: SubjectPart, ports: readonly Port[]): Shape {
  const { shape } = part.symbol;
  const sides = new Set(ports.map((port) => port.side));
  if (shape === 'bar' && new Set(ports.map((port) => port.terminal)).size >= 1) return 'bar';
  if (shape === 'round' && ports.length === 1) return 'round';
  if (shape === 'inline') {
    const used = ports.map((port) => port.terminal);
    if (
      ports.length === 1 &&
      part.symbol.rows?.some((r) => r.left === used[0] || r.right === used[0]) === true
    )
      return 'inline';
    if (ports.length === 2 && sides.size === 2 && onOneRow(part, used)) return 'inline';
  }
  return 'box';
}
