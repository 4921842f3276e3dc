/**
 * Parsing a text again of which an earlier state is known. Where some lines of a section differ, each a whole entry such as
 * `  lamp: { kind: load }`, only these lines are parsed; all else is taken from the earlier tree. Nodes are never changed: what
 * stands behind the change is copied to its new offsets, so both texts keep their trees.
 */
import { isCollection, Pair, Scalar, YAMLMap, YAMLSeq, type Node, type ParsedNode, type Range } from 'yaml';
import { Faults } from './faults.ts';
import { isMap, isScalar, isSeq } from './nodes.ts';
import { pairEnd, type SourceText } from './source.ts';
import { parseTree, type Tree } from './syntax.ts';
import { Lines } from './text.ts';

/** More lines than this are parsed with the whole text. */
const MOST_LINES = 16;

/** An entry on a line of its own: indented by blanks, with a plain key. What its value is the parser says. */
const ENTRY = /^( +)[A-Za-z0-9][\w.-]*:(?: .*)?$/;
const NOTHING = /^[ \t\r]*(?:#.*)?$/;

type AnyPair = Pair<Node | null, Node | null>;

/** Lines that differ: from the same offset to one end in the old and one in the new text, both behind a line's last character. */
interface Stretch {
  readonly start: number;
  readonly oldEnd: number;
  readonly newEnd: number;
}

/** The tree of `lines`, made from that of the old source; null where the whole text has to be parsed. */
export function reparse(old: SourceText, lines: Lines): Tree | null {
  if (old.damage > 0 || !isMap(old.root)) return null;
  const [before, after] = [old.lines.text, lines.text];
  if (before === after) return whole(old.root);
  const stretch = stretchOf(before, after);
  const indent = indentOf(before.slice(stretch.start, stretch.oldEnd));
  if (indent === null || indent !== indentOf(after.slice(stretch.start, stretch.newEnd))) return null;
  if (!endsThere(after, stretch.newEnd, indent)) return null;
  const place = placeOf(old, stretch, indent);
  if (place === null) return null;
  const entries = entriesOf(after.slice(stretch.start, stretch.newEnd + 1), indent);
  return entries === null ? null : whole(rebuilt(old.root, place, entries, stretch));
}

const whole = (root: Node): Tree => ({
  root: root as ParsedNode,
  parsed: true,
  goodUntil: Number.POSITIVE_INFINITY,
});

function stretchOf(before: string, after: string): Stretch {
  const most = Math.min(before.length, after.length);
  let at = 0;
  while (at < most && before.charCodeAt(at) === after.charCodeAt(at)) at++;
  let tail = 0;
  while (
    tail < most - at &&
    before.charCodeAt(before.length - 1 - tail) === after.charCodeAt(after.length - 1 - tail)
  )
    tail++;
  let start = lineStart(before, at);
  let [oldEnd, newEnd] = [before.length - tail, after.length - tail];
  // What differs ends with a line break in both, or goes on to the end of its line, which is the same in both.
  const breaks = before[oldEnd - 1] === '\n' && after[newEnd - 1] === '\n';
  const rest = breaks ? -1 : lineEnd(before, oldEnd) - oldEnd;
  oldEnd += rest;
  newEnd += rest;
  // Lines that came or went stand beside one that is in both.
  if (start > 0 && (oldEnd < start || newEnd < start)) start = lineStart(before, start - 1);
  return { start, oldEnd, newEnd };
}

const lineStart = (text: string, at: number): number => (at === 0 ? 0 : text.lastIndexOf('\n', at - 1) + 1);

function lineEnd(text: string, at: number): number {
  const feed = text.indexOf('\n', at);
  return feed < 0 ? text.length : feed;
}

/** Blanks before every one of these lines, when each is an entry; else null. */
function indentOf(text: string): number | null {
  const lines = text.split('\n');
  if (lines.length > MOST_LINES) return null;
  const [first, ...others] = lines.map(
    (line) => ENTRY.exec(line.endsWith('\r') ? line.slice(0, -1) : line)?.[1]?.length ?? null,
  );
  return first !== undefined && others.every((other) => other === first) ? first : null;
}

/** What follows does not go on with the last entry: it is not indented further. */
function endsThere(text: string, at: number, indent: number): boolean {
  for (let start = at + 1; start < text.length;) {
    const feed = text.indexOf('\n', start);
    const line = text.slice(start, feed < 0 ? text.length : feed);
    if (!NOTHING.test(line)) return line.search(/[^ ]/) <= indent;
    start += line.length + 1;
  }
  return true;
}

/** The section whose entries these lines are, as the how-manieth entry of the top, and which of its entries. */
interface Place {
  readonly section: number;
  readonly map: YAMLMap;
  readonly first: number;
  readonly count: number;
}

function placeOf(old: SourceText, { start, oldEnd }: Stretch, indent: number): Place | null {
  const sections = (old.root as YAMLMap).items as AnyPair[];
  const section = sections.findLastIndex(({ key }) => (key?.range?.[0] ?? 0) < start);
  const map = sections[section]?.value;
  if (!isMap(map) || map.flow === true) return null;
  const items = map.items as AnyPair[];
  const first = items.findIndex(({ key }) => key?.range?.[0] === start + indent);
  const count = old.lines.text.slice(start, oldEnd).split('\n').length;
  if (first < 0) return null;
  for (let i = first, at = start; i < first + count; i++) {
    const pair = items[i];
    const end = lineEnd(old.lines.text, at);
    if (pair === undefined || pair.key?.range?.[0] !== at + indent || pairEnd(pair, at) > end) return null;
    at = end + 1;
  }
  return { section, map, first, count };
}

/** The entries of these lines, parsed by themselves; null where that finds fault, or something else than such entries. */
function entriesOf(text: string, indent: number): readonly AnyPair[] | null {
  const lines = new Lines(text);
  const faults = new Faults(lines);
  const { root } = parseTree(lines, faults);
  if (faults.list.length > 0 || !isMap(root) || root.flow === true) return null;
  const starts = text.replace(/\n$/, '').split('\n');
  let at = 0;
  const pairs = root.items as AnyPair[];
  const whole = starts.every((line, i) => {
    const pair = pairs[i];
    const begins = pair?.key?.range?.[0] === at + indent;
    at += line.length + 1;
    return begins && pairEnd(pair, 0) < at;
  });
  return whole && pairs.length === starts.length ? pairs : null;
}

function rebuilt(
  root: YAMLMap,
  { section, map, first, count }: Place,
  entries: readonly AnyPair[],
  { start, oldEnd, newEnd }: Stretch,
): YAMLMap {
  const by = newEnd - oldEnd;
  const items = map.items as AnyPair[];
  const inside = copyOf(map, [
    ...items.slice(0, first),
    ...entries.map((pair) => movedPair(pair, start)),
    ...items.slice(first + count).map((pair) => movedPair(pair, by)),
  ]);
  inside.range = stretched(map.range, by);
  const tops = root.items as AnyPair[];
  const made = copyOf(
    root,
    tops.map((pair, i) => {
      if (i < section) return pair;
      return i === section ? pairOf(pair, pair.key, inside, 0) : movedPair(pair, by);
    }),
  );
  made.range = stretched(root.range, by);
  return made;
}

/** The same beginning, the end moved. */
const stretched = (range: Range | null | undefined, by: number): Range | null =>
  range === undefined || range === null ? null : [range[0], range[1] + by, range[2] + by];

const moved = (range: Range | null | undefined, by: number): Range | null =>
  range === undefined || range === null ? null : [range[0] + by, range[1] + by, range[2] + by];

function copyOf(map: YAMLMap, items: AnyPair[]): YAMLMap {
  const made = new YAMLMap();
  made.items = items;
  if (map.flow !== undefined) made.flow = map.flow;
  return made;
}

interface Token {
  readonly type: string;
  readonly offset: number;
}

/** Of the tokens only those are kept that edits look at: the colons of entries and the dashes of items. */
interface WithTokens {
  srcToken?: {
    readonly sep?: readonly Token[] | undefined;
    readonly items?: readonly { readonly start: readonly Token[] }[] | undefined;
  };
}

const movedTokens = (tokens: readonly Token[], by: number): readonly Token[] =>
  tokens.map(({ type, offset }) => ({ type, offset: offset + by }));

const movedPair = (pair: AnyPair, by: number): AnyPair =>
  pairOf(pair, movedNode(pair.key, by), movedNode(pair.value, by), by);

function pairOf(old: AnyPair, key: Node | null, value: Node | null, by: number): AnyPair {
  const made = new Pair(key, value) as AnyPair;
  const sep = (old as WithTokens).srcToken?.sep;
  if (sep !== undefined) (made as WithTokens).srcToken = { sep: movedTokens(sep, by) };
  return made;
}

function movedNode(node: Node | null, by: number): Node | null {
  if (node === null) return null;
  const made = isCollection(node) ? movedTree(node, by) : movedScalar(node, by);
  made.range = moved(node.range, by);
  return made;
}

function movedScalar(node: Node, by: number): Node {
  if (!isScalar(node)) throw new Error(`a document has no node at ${by}`);
  const made = new Scalar(node.value);
  if (node.type !== undefined) made.type = node.type;
  if (node.source !== undefined) made.source = node.source;
  return made;
}

function movedTree(node: YAMLMap | YAMLSeq, by: number): Node {
  if (isMap(node))
    return copyOf(
      node,
      (node.items as AnyPair[]).map((pair) => movedPair(pair, by)),
    );
  const made = new YAMLSeq();
  made.items = (node.items as (Node | null)[]).map((item) => movedNode(item, by));
  if (isSeq(node) && node.flow !== undefined) made.flow = node.flow;
  const items = (node as WithTokens).srcToken?.items;
  if (items !== undefined)
    (made as WithTokens).srcToken = {
      items: items.map(({ start }) => ({ start: movedTokens(start, by) })),
    };
  return made;
}
