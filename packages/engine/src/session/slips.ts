/** What can be said of one part, wire or place of a build: given values, what stands in where nothing is given, terminals. */
import type {
  Basis,
  Build,
  Field,
  FieldTable,
  Id,
  Kind,
  Operation,
  Path,
  Registry,
  Shape,
  ValueReader,
} from '../contracts/index.ts';
import { PLACE_FIELDS, WIRE_FIELDS } from '../document/tables.ts';
import type { DocumentSource, Notation } from '../document/index.ts';
import type { DrawingSubject } from '../drawing/index.ts';
import { dimensionInfo } from '../quantity/index.ts';
import { basisAmount, printValue } from '../report/index.ts';

export interface SlipField {
  /** Where it stands in the document, or would stand. */
  readonly path: Path;
  readonly name: string;
  /** Meaning, unit, range. */
  readonly doc: string;
  /** Some verdicts stay open without it. */
  readonly wanted: boolean;
  /** As typed; null: not given. */
  readonly given: string | null;
  /** It is one word or quantity, so that it can be typed in a line. */
  readonly plain: boolean;
  /** What stands in while it is not given; null: nothing does. */
  readonly assumed: string | null;
  readonly choices: readonly string[];
  /** How it may be written. */
  readonly example: string;
}

export interface SlipFigure {
  readonly label: string;
  readonly value: string;
}

export interface Slip {
  readonly id: Id;
  readonly what: 'part' | 'wire' | 'place';
  /** `F1`, `W3`; of a place empty. */
  readonly designation: string;
  readonly name: string;
  /** Kind of a part in plain words; `feed-fuse.load to charger.in+` of a wire. */
  readonly title: string;
  /** Line of its key in the text; null: it is not written there. */
  readonly line: number | null;
  readonly fields: readonly SlipField[];
  readonly figures: readonly SlipFigure[];
  /** Terminals of a part; `new`: the next free one where there is any number. */
  readonly terminals: readonly { readonly name: string; readonly wires: readonly Id[] }[];
}

export interface SlipsOf {
  readonly build: Build;
  readonly operation: Operation;
  readonly registry: Registry;
  readonly source: DocumentSource;
  readonly subject: DrawingSubject;
}

/** null: nothing of that name. */
export function slipOf(of: SlipsOf, id: Id): Slip | null {
  if (of.build.parts.has(id)) return partSlip(of, id);
  if (of.build.wires.has(id)) return wireSlip(of, id);
  return of.build.places.has(id) ? placeSlip(of, id) : null;
}

function partSlip(of: SlipsOf, id: Id): Slip | null {
  const part = of.build.parts.get(id);
  const kind = part === undefined ? undefined : of.registry.kinds.get(part.kind);
  if (part === undefined || kind === undefined) return null;
  const read = of.registry.readerFor(part, of.build);
  const table = { ...kind.fields, ...of.registry.common };
  const drawn = of.subject.parts.get(id);
  const where: Field = { shape: { shape: 'choice', of: [...of.build.places.keys()] }, doc: 'Where it sits.' };
  return {
    id,
    what: 'part',
    designation: drawn?.designation ?? '',
    name: drawn?.name ?? id,
    title: kind.title,
    line: of.source.keySpan(['parts', id])?.line ?? null,
    fields: [
      fieldOf(of, ['parts', id, 'at'], 'at', where, null),
      ...ordered(table, ['parts', id], of, (name, field) => assumedOf(read, name, field)),
    ],
    figures: [],
    terminals: terminalsOf(of, id, kind, read),
  };
}

function wireSlip(of: SlipsOf, id: Id): Slip {
  const wire = of.build.wires.get(id);
  const laid = of.operation.wires.get(id);
  const drawn = of.subject.wires.get(id);
  const stands: Readonly<Record<string, string | null>> = {
    length:
      laid?.length === undefined || laid.length === null
        ? null
        : `${basisAmount(laid.length)}, along its way`,
    insulation: laid?.insulationAssumed === true ? laid.insulation : null,
    material: 'copper',
    sheathed: 'no',
    number: drawn?.number ?? null,
  };
  return {
    id,
    what: 'wire',
    designation: drawn?.number ?? id,
    name: id,
    title: wire === undefined ? '' : `${wire.from} to ${wire.to}`,
    line: of.source.keySpan(['wires', id])?.line ?? null,
    fields: ordered(WIRE_FIELDS, ['wires', id], of, (name) => stands[name] ?? null, [
      'size',
      'length',
      'via',
      'insulation',
      'colour',
    ]),
    figures: [
      ...figure(
        'Copper',
        laid?.areaMm2 === undefined || laid.areaMm2 === null ? '' : printValue(laid.areaMm2, 'mm2', true),
      ),
      ...figure('Length', amount(laid?.length)),
      ...figure('At 20 °C', milliohms(laid?.ohms20)),
      ...figure('Protected at', drawn?.rating ?? ''),
    ],
    terminals: [],
  };
}

function placeSlip(of: SlipsOf, id: Id): Slip {
  return {
    id,
    what: 'place',
    designation: '',
    name: of.build.places.get(id)?.label ?? id,
    title: 'place',
    line: of.source.keySpan(['places', id])?.line ?? null,
    fields: ordered(PLACE_FIELDS, ['places', id], of, () => null),
    figures: [],
    terminals: [],
  };
}

const figure = (label: string, value: string): readonly SlipFigure[] =>
  value === '' ? [] : [{ label, value }];
const amount = (basis: Basis | null | undefined): string =>
  basis === null || basis === undefined ? '' : basisAmount(basis);
const milliohms = (basis: Basis | null | undefined): string =>
  basis === null || basis === undefined ? '' : printValue(basis.sourced.value * 1000, 'mΩ');

/** Given ones first, then those that verdicts wait for, then the rest; `first` ahead of all. */
function ordered(
  table: FieldTable,
  base: Path,
  of: SlipsOf,
  assumed: (name: string, field: Field) => string | null,
  first: readonly string[] = [],
): readonly SlipField[] {
  const fields = Object.entries(table).map(([name, field]) =>
    fieldOf(of, [...base, name], name, field, assumed(name, field)),
  );
  const rank = (f: SlipField): number => {
    const at = first.indexOf(f.name);
    return at >= 0 ? at - first.length : f.given !== null ? 0 : f.wanted ? 1 : 2;
  };
  return fields.toSorted((a, b) => rank(a) - rank(b));
}

function fieldOf(of: SlipsOf, path: Path, name: string, field: Field, assumed: string | null): SlipField {
  const notation = of.source.notation(path);
  return {
    path,
    name,
    doc: field.doc,
    wanted: field.wanted === true,
    given: notation === undefined ? null : flow(notation),
    plain: notation === undefined ? isPlain(field.shape) : typeof notation !== 'object',
    assumed: notation === undefined || notation === 'unknown' ? assumed : null,
    choices: choicesOf(field.shape),
    example: exampleOf(field.shape),
  };
}

/** In one line, as documents write it. */
export function flow(value: Notation): string {
  if (Array.isArray(value)) return `[${(value as readonly Notation[]).map(flow).join(', ')}]`;
  if (typeof value === 'object')
    return `{ ${Object.entries(value)
      .map(([key, item]) => `${key}: ${flow(item)}`)
      .join(', ')} }`;
  return typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
}

function assumedOf(read: ValueReader, name: string, field: Field): string | null {
  const stands = field.fallback?.(read, read.about) ?? null;
  if (typeof stands === 'boolean') return stands ? 'yes' : 'no';
  if (stands === null || typeof stands === 'string') return stands;
  const basis = read.resolve(name, null, stands, { label: name, how: '', effort: 'read' });
  return basis === null ? null : basisAmount(basis);
}

const PLAIN: ReadonlySet<string> = new Set(['quantity', 'number', 'choice', 'flag', 'text', 'phrase']);

function isPlain(shape: Shape): boolean {
  return shape.shape === 'any-of' ? shape.of.some(isPlain) : PLAIN.has(shape.shape);
}

function choicesOf(shape: Shape): readonly string[] {
  if (shape.shape === 'choice') return shape.of;
  if (shape.shape === 'flag') return ['yes', 'no'];
  return shape.shape === 'any-of' ? shape.of.flatMap(choicesOf) : [];
}

function exampleOf(shape: Shape): string {
  switch (shape.shape) {
    case 'quantity':
      return dimensionInfo(shape.dimension).example;
    case 'phrase':
    case 'any-of':
      return shape.expected;
    case 'choice':
      return shape.of.join(', ');
    case 'flag':
      return 'yes or no';
    default:
      return '';
  }
}

function terminalsOf(of: SlipsOf, id: Id, kind: Kind, read: ValueReader): Slip['terminals'] {
  const terminals = kind.terminals(read);
  const wires = (name: string): readonly Id[] => of.operation.wiresAt(`${id}.${name}`);
  if (terminals.type === 'named') return terminals.names.map((name) => ({ name, wires: wires(name) }));
  const used = [...of.build.wires.values()]
    .flatMap((wire) => [wire.from, wire.to])
    .filter((ref) => ref.startsWith(`${id}.`))
    .map((ref) => ref.slice(id.length + 1));
  const numbers = [...new Set(used)].toSorted((a, b) => Number(a) - Number(b));
  let next = 1;
  while (numbers.includes(String(next))) next += 1;
  return [...numbers, String(next)].map((name) => ({ name, wires: wires(name) }));
}

/** A kind of part that can be added. */
export interface KindEntry {
  readonly name: string;
  readonly title: string;
  readonly letter: string;
  /** Fields that verdicts wait for, with how they may be written. */
  readonly wanted: readonly {
    readonly name: string;
    readonly doc: string;
    readonly example: string;
    readonly choices: readonly string[];
  }[];
}

export function kindEntries(registry: Registry): readonly KindEntry[] {
  return [...registry.kinds.values()].map((kind) => ({
    name: kind.name,
    title: kind.title,
    letter: kind.letter,
    wanted: Object.entries(kind.fields).flatMap(([name, field]) =>
      field.wanted === true && isPlain(field.shape)
        ? [{ name, doc: field.doc, example: exampleOf(field.shape), choices: choicesOf(field.shape) }]
        : [],
    ),
  }));
}
