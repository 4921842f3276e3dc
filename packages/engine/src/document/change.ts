/** Changes to a document: applied to its text, which is then read again. */
import type { Build, Change, Path, Registry } from '../contracts/index.ts';
import { plainNumber, quoted } from '../quantity/index.ts';
import { parseText } from './open.ts';
import { Placing } from './place-edit.ts';
import { readDocument } from './read.ts';
import { NotWritable } from './render.ts';
import { share } from './share.ts';
import { BYTE_ORDER_MARK, SourceText } from './source.ts';
import { splice, type Splice } from './splice.ts';
import type { Diagnostic, DocumentSource, Notation, ReadOptions, ReadResult } from './types.ts';

export type Edited =
  | {
      readonly ok: true;
      readonly text: string;
      readonly source: DocumentSource;
      /** Applied to the new text in one go they give back the old one to the byte. */
      readonly inverse: readonly Change[];
    }
  | { readonly ok: false; readonly diagnostics: readonly Diagnostic[] };

/**
 * Writes changes into the text of a document; everything that they do not touch stays as it is: comments, order, layout.
 *
 * Paths are those of the text (`['parts', 'charger', 'current']`, list items by index); values are in document notation
 * (`'40 A'`, `true`, `{ kind: 'fuse' }`). `set` puts a value, adding it (and what holds it) where there is none; a map set
 * over a map changes entry by entry. `add` puts a new entry, or an item before the one with that index. All or nothing.
 */
export function editText(source: DocumentSource, changes: readonly Change[]): Edited {
  const first = asSource(source);
  let now = first;
  for (const change of changes) {
    const next = changed(now, change);
    if (!(next instanceof SourceText)) return { ok: false, diagnostics: [next] };
    now = next;
  }
  return { ok: true, text: now.text, source: now, inverse: inverseOf(first, now, changes) };
}

export type Applied =
  | {
      readonly ok: true;
      readonly build: Build;
      readonly source: DocumentSource;
      /** Warnings and notes of the new text. */
      readonly diagnostics: readonly Diagnostic[];
      readonly inverse: readonly Change[];
    }
  | { readonly ok: false; readonly diagnostics: readonly Diagnostic[] };

/**
 * Applies changes to a document that was read. The new build shares with the old one every part, wire, place and other
 * value that is equal. Refused, with the diagnostics of the new text, when that text has an error.
 */
export function applyChanges(
  now: Pick<ReadResult, 'build' | 'source'>,
  changes: readonly Change[],
  registry: Registry,
  options: ReadOptions = {},
): Applied {
  const edited = editText(now.source, changes);
  if (!edited.ok) return edited;
  const { build, diagnostics, source } = readDocument(edited.text, registry, {
    file: now.source.file,
    ...options,
    before: edited.source,
  });
  if (build === null) return { ok: false, diagnostics };
  return { ok: true, build: share(now.build, build), source, diagnostics, inverse: edited.inverse };
}

function asSource(source: DocumentSource): SourceText {
  return source instanceof SourceText ? source : parseText(source.file, source.text).source;
}

/** The source after one change, or why it cannot be made. */
function changed(source: SourceText, change: Change): SourceText | Diagnostic {
  try {
    if ('set' in change && change.set.length === 0 && isTextPatch(change.to))
      return patched(source, change.to.$text);
    let now = source;
    for (const step of stepsOf(source, change)) now = placed(now, step);
    return now;
  } catch (error) {
    if (!(error instanceof NotWritable)) throw error;
    return refusal(source, pathOf(change), error.message);
  }
}

function placed(source: SourceText, step: Change): SourceText {
  const text = withMark(source, splice(source.lines.text, splicesOf(source, step)));
  const next = parseText(source.file, text, source).source;
  const expected = 'remove' in step ? undefined : 'set' in step ? step.to : step.value;
  const read = expected === undefined || isSame(next.notation(pathOf(step)), expected);
  if (!read || next.damage > source.damage)
    throw new NotWritable(
      `the value cannot be written at ${pathOf(step).join('.')} without changing something else`,
    );
  return next;
}

function splicesOf(source: SourceText, step: Change): readonly Splice[] {
  const placing = new Placing(source);
  if ('remove' in step) return placing.remove(step.remove);
  if ('set' in step) return placing.set(step.set, step.to);
  if (source.find(step.add) !== null && typeof step.add.at(-1) !== 'number')
    throw new NotWritable(`there is already something at ${step.add.join('.')}; set it instead`);
  return placing.add(step.add, step.value);
}

const pathOf = (change: Change): Path =>
  'set' in change ? change.set : 'remove' in change ? change.remove : change.add;

const withMark = (source: SourceText, body: string): string =>
  source.text.startsWith(BYTE_ORDER_MARK) ? BYTE_ORDER_MARK + body : body;

/** Past so many single steps a value is written anew. */
const MOST_STEPS = 100;

/** A map set over a map as the changes of its entries, so that the rest of it keeps its comments; else the change itself. */
function stepsOf(source: SourceText, change: Change): readonly Change[] {
  if (!('set' in change)) return [change];
  const steps: Change[] = [];
  collect(source.notation(change.set), change.to, change.set, steps);
  return steps.length > MOST_STEPS && change.set.length > 0 ? [change] : steps;
}

function collect(old: Notation | undefined, value: unknown, path: Path, steps: Change[]): void {
  if (isSame(old, value)) return;
  if (Array.isArray(old) && Array.isArray(value) && old.length > 0)
    return collectList(old, value, path, steps);
  if (!isPlainMap(old) || !isPlainMap(value) || !Object.keys(old).some((key) => Object.hasOwn(value, key))) {
    steps.push({ set: path, to: value });
    return;
  }
  for (const key of Object.keys(old)) if (!Object.hasOwn(value, key)) steps.push({ remove: [...path, key] });
  for (const [key, item] of Object.entries(value)) collect(old[key], item, [...path, key], steps);
}

function collectList(old: readonly Notation[], value: readonly unknown[], path: Path, steps: Change[]): void {
  if (value.length === 0) {
    steps.push({ set: path, to: value });
    return;
  }
  for (let index = old.length - 1; index >= value.length; index--) steps.push({ remove: [...path, index] });
  for (const [index, item] of value.entries()) {
    if (index < old.length) collect(old[index], item, [...path, index], steps);
    else steps.push({ add: [...path, index], value: item });
  }
}

const isPlainMap = (value: unknown): value is Readonly<Record<string, Notation>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The same value in the notation of documents: 5 and "5", true and "yes". */
function isSame(old: Notation | undefined, value: unknown): boolean {
  if (old === undefined) return false;
  if (Array.isArray(old))
    return (
      Array.isArray(value) && value.length === old.length && old.every((item, i) => isSame(item, value[i]))
    );
  if (isPlainMap(old)) {
    if (!isPlainMap(value)) return false;
    const keys = Object.keys(old);
    return (
      keys.length === Object.keys(value).length &&
      keys.every((key) => Object.hasOwn(value, key) && isSame(old[key], value[key]))
    );
  }
  if (typeof value === 'boolean') return old === (value ? 'yes' : 'no') || old === String(value);
  if (typeof value === 'number') return Number.isFinite(value) && old === plainNumber(value);
  return old === value;
}

/** A stretch of text put back where another was: the form of an inverse that restores the text to the byte. */
interface TextPatch {
  readonly $text: { readonly at: number; readonly was: string; readonly put: string };
}

const isTextPatch = (value: unknown): value is TextPatch =>
  typeof value === 'object' && value !== null && Object.hasOwn(value, '$text');

function patched(source: SourceText, { at, was, put }: TextPatch['$text']): SourceText {
  const { text } = source;
  if (
    typeof at !== 'number' ||
    typeof was !== 'string' ||
    typeof put !== 'string' ||
    !text.startsWith(was, at)
  )
    throw new NotWritable('the text has changed there since, so this change can no longer be taken back');
  return parseText(source.file, splice(text, [{ at, remove: was.length, put }]), source).source;
}

/** The plain inverse of a single change where it restores the text exactly, else the stretch of text that differs. */
function inverseOf(before: SourceText, after: SourceText, changes: readonly Change[]): readonly Change[] {
  if (before.text === after.text) return [];
  const plain =
    changes.length === 1 && changes[0] !== undefined ? plainInverse(before, changes[0]) : undefined;
  if (plain !== undefined) {
    if (undone(after, plain) === before.lines.text) return [plain];
  }
  return [{ set: [], to: { $text: difference(after.text, before.text) } }];
}

/** The text after a plain inverse, without reading it again. */
function undone(after: SourceText, plain: Change): string | undefined {
  try {
    return splice(after.lines.text, splicesOf(after, plain));
  } catch (error) {
    if (error instanceof NotWritable) return undefined;
    throw error;
  }
}

function plainInverse(before: SourceText, change: Change): Change | undefined {
  if ('remove' in change) return undefined;
  const path = pathOf(change);
  const old = before.notation(path);
  if ('add' in change || old === undefined) return path.length === 0 ? undefined : { remove: path };
  return typeof old === 'string' ? { set: path, to: old } : undefined;
}

/** Characters on either side of a stretch, by which its place is known again. */
const CONTEXT = 24;

/** The one stretch in which two texts differ, with what stands around it. */
function difference(from: string, to: string): TextPatch['$text'] {
  const most = Math.min(from.length, to.length);
  let at = 0;
  while (at < most && from[at] === to[at]) at++;
  let tail = 0;
  while (tail < most - at && from[from.length - 1 - tail] === to[to.length - 1 - tail]) tail++;
  const start = Math.max(0, at - CONTEXT);
  const after = Math.max(0, tail - CONTEXT);
  return { at: start, was: from.slice(start, from.length - after), put: to.slice(start, to.length - after) };
}

function refusal(source: SourceText, path: Path, why: string): Diagnostic {
  const span = source.span(path) ?? source.span(path.slice(0, -1)) ?? { line: 1, column: 1 };
  const name = path.join('.');
  return Object.freeze({
    severity: 'error',
    line: span.line,
    column: span.column,
    found: name,
    expected: 'a change that the document can take',
    message: `found a change${name === '' ? '' : ` of ${quoted(name)}`} that cannot be made: ${why}`,
    path,
  });
}
