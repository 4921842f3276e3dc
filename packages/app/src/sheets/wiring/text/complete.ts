/** What may be written at a caret: names and values from the document's schema, and names from the build itself. */
import type { DrawingSubject, JsonSchema } from '@loomwright/engine';
import { caretAt, type Caret } from './caret.ts';

export interface Completion {
  readonly label: string;
  /** What is put in the place of what was typed. */
  readonly insert: string;
  readonly doc: string;
}

export interface Completed {
  readonly from: number;
  readonly to: number;
  readonly items: readonly Completion[];
}

type Schema = Readonly<Record<string, unknown>>;

const MOST = 40;

export function completeAt(
  text: string,
  at: number,
  schema: JsonSchema,
  subject: DrawingSubject | null,
): Completed {
  const caret = caretAt(text, at);
  const offered = caret.key === null ? names(caret, schema, text) : values(caret, schema, text, subject);
  const typed = caret.typed.toLowerCase();
  const fitting = offered.filter(({ label }) => label.toLowerCase().includes(typed));
  const first = fitting.toSorted(
    (a, b) =>
      Number(b.label.toLowerCase().startsWith(typed)) - Number(a.label.toLowerCase().startsWith(typed)),
  );
  return { from: caret.from, to: at, items: first.slice(0, MOST) };
}

function names(caret: Caret, schema: JsonSchema, text: string): readonly Completion[] {
  const here = schemaAt(caret.path, schema, text);
  return branches(here, schema).flatMap((branch) =>
    Object.entries(record(branch['properties'])).flatMap(([name, field]) =>
      caret.beside.includes(name) ? [] : [{ label: name, insert: `${name}: `, doc: docOf(field) }],
    ),
  );
}

function values(
  { path, key }: Caret,
  schema: JsonSchema,
  text: string,
  subject: DrawingSubject | null,
): readonly Completion[] {
  if (key === null) return [];
  const field = schemaAt([...path, key], schema, text);
  const found = branches(field, schema).flatMap((branch) => [
    ...list(branch['enum']).map(String),
    ...list(record(branch['items'])['enum']).map(String),
    ...list(branch['examples']).map(String).filter(isWritten),
  ]);
  const words = [...new Set([...referencesFor(path, key, subject), ...found])];
  return words.map((word) => ({ label: word, insert: word, doc: docOf(field) }));
}

/** An example that can be written as it is, not words about one. */
const isWritten = (example: string): boolean => !/^(an?|the) |,| such as /.test(example);

/** Names of places, terminals, wires and sections, where the document asks for them. */
function referencesFor(
  path: readonly string[],
  key: string,
  subject: DrawingSubject | null,
): readonly string[] {
  if (subject === null) return [];
  const places = subject.places.filter((place) => place.id !== '').map((place) => place.id);
  const [section] = path;
  if (section === 'parts' && key === 'at') return places;
  if (section === 'routes' && (key === 'from' || key === 'to')) return places;
  if (section === 'wires' && key === 'via') return places;
  if ((section === 'wires' || section === 'measured') && (key === 'from' || key === 'to'))
    return terminalsOf(subject);
  return [];
}

const terminalsOf = (subject: DrawingSubject): readonly string[] =>
  [...subject.parts.values()].flatMap((part) => {
    const { terminals } = part.symbol;
    const all = terminals === 'numbered' ? ['1', '2', '3'] : terminals;
    return all.map((terminal) => `${part.id}.${terminal}`);
  });

/** The schema of what stands at a path. */
function schemaAt(path: readonly string[], schema: JsonSchema, text: string): Schema {
  let here: Schema = schema;
  for (let i = 0; i < path.length; i += 1) {
    const step = path[i] ?? '';
    if (i === 1 && path[0] === 'parts') {
      const kind = kindOf(step, text);
      const own = record(record(schema['$defs'])[`part-${kind}`]);
      here = Object.keys(own).length > 0 ? own : record(record(next(here, step, schema)));
      continue;
    }
    here = next(here, step, schema);
  }
  return here;
}

/** The kind that a part is written with. */
function kindOf(part: string, text: string): string {
  const begin = new RegExp(`^ +${part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}:`, 'm').exec(text)?.index ?? -1;
  if (begin < 0) return '';
  const after = text.slice(begin, begin + 2000);
  const own = /\n {0,3}[\w-]+:/.exec(after.slice(1));
  const block = own === null ? after : after.slice(0, own.index + 1);
  return /\bkind: *([\w-]+)/.exec(block)?.[1] ?? '';
}

function next(here: Schema, step: string, root: JsonSchema): Schema {
  for (const branch of branches(here, root)) {
    const field = record(branch['properties'])[step];
    if (field !== undefined) return record(field);
  }
  for (const branch of branches(here, root)) {
    const { items, additionalProperties } = branch as { items?: unknown; additionalProperties?: unknown };
    if (typeof items === 'object' && items !== null) {
      const inItem = branches(record(items), root).find(
        (each) => record(each['properties'])[step] !== undefined,
      );
      if (inItem !== undefined) return record(record(inItem['properties'])[step]);
    }
    if (typeof additionalProperties === 'object' && additionalProperties !== null)
      return record(additionalProperties);
  }
  return {};
}

/** The schema itself and all its alternatives; of a list also what its items may be. */
function branches(schema: Schema, root: JsonSchema): readonly Schema[] {
  const reference = schema['$ref'];
  if (typeof reference === 'string') {
    const name = reference.replace('#/$defs/', '');
    return branches(record(record(root['$defs'])[name]), root);
  }
  const items = record(schema['items']);
  return [
    schema,
    ...list(schema['anyOf']).flatMap((each) => branches(record(each), root)),
    ...(Object.keys(items).length > 0 ? branches(items, root) : []),
  ];
}

const record = (value: unknown): Schema =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Schema) : {};
const list = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
const docOf = (schema: unknown): string => {
  const { description } = record(schema);
  return typeof description === 'string' ? description : '';
};
