/** A document's text with its syntax tree: where values stand, and how they are written. */
import { isPair, isScalar, type Node, type Pair, type YAMLMap, type YAMLSeq } from 'yaml';
import type { Path } from '../contracts/index.ts';
import { isEmpty, isMap, isSeq, textOf } from './nodes.ts';
import { Lines } from './text.ts';
import type { DocumentSource, Notation, Span } from './types.ts';

export const BYTE_ORDER_MARK = '\uFEFF';

/** An entry of a map or list, with the collection that holds it. */
export interface Found {
  readonly parent: YAMLMap | YAMLSeq | null;
  readonly index: number;
  readonly key: Node | null;
  readonly value: Node | null;
}

/** Frozen; holds the syntax tree for spans and edits. */
export class SourceText implements DocumentSource {
  readonly file: string;
  readonly text: string;
  readonly lines: Lines;
  readonly root: Node | null;
  /** Faults of the notation in it. */
  readonly damage: number;
  readonly #indexes = new Map<YAMLMap, Map<string, number>>();

  /** `text` with, `lines` without the byte-order mark. */
  constructor(file: string, text: string, lines: Lines, root: Node | null, damage: number) {
    this.file = file;
    this.text = text;
    this.lines = lines;
    this.root = root;
    this.damage = damage;
    Object.freeze(this);
  }

  /** The entry at a path; null when there is none. The empty path is the whole document. */
  find(path: Path): Found | null {
    let found: Found = { parent: null, index: 0, key: null, value: this.root };
    for (const step of path) {
      const next = this.#step(found.value, step);
      if (next === null) return null;
      found = next;
    }
    return found;
  }

  #step(node: Node | null, step: string | number): Found | null {
    if (isMap(node)) {
      const index = this.#indexOf(node, String(step));
      const pair = index === undefined ? undefined : (node.items[index] as Pair<Node | null, Node | null>);
      return pair === undefined || index === undefined
        ? null
        : { parent: node, index, key: pair.key, value: pair.value };
    }
    if (!isSeq(node)) return null;
    const index = Number(step);
    if (!Number.isInteger(index) || index < 0 || index >= node.items.length) return null;
    return { parent: node, index, key: null, value: node.items[index] as Node };
  }

  /** The first entry of that name, by an index made once for each map. */
  #indexOf(map: YAMLMap, key: string): number | undefined {
    let known = this.#indexes.get(map);
    if (known === undefined) {
      known = new Map();
      for (const [index, pair] of (map.items as Pair<Node | null, Node | null>[]).entries()) {
        const name = textOf(pair.key);
        if (name !== undefined && !known.has(name)) known.set(name, index);
      }
      this.#indexes.set(map, known);
    }
    return known.get(key);
  }

  span(path: Path): Span | null {
    const found = this.find(path);
    return found === null ? null : this.#spanOf(found.value ?? found.key);
  }

  keySpan(path: Path): Span | null {
    const found = path.length === 0 ? null : this.find(path);
    return found === null ? null : this.#spanOf(found.key);
  }

  notation(path: Path): Notation | undefined {
    const found = this.find(path);
    return found === null ? undefined : notationOf(found.value);
  }

  #spanOf(node: Node | null): Span | null {
    if (node === null || node.range === undefined || node.range === null) return null;
    const start = this.lines.position(node.range[0]);
    const end = this.lines.position(contentEnd(node));
    return { line: start.line, column: start.column, endLine: end.line, endColumn: end.column };
  }
}

/** Offset behind the last character of a node: without the line break and comments that follow. */
export function contentEnd(node: Node): number {
  const [start = 0, end = 0] = node.range ?? [];
  if ((isMap(node) || isSeq(node)) && node.flow !== true) {
    const last = node.items.at(-1) as Pair<Node, Node | null> | Node | undefined;
    if (last === undefined) return end;
    return isPair(last) ? pairEnd(last, end) : contentEnd(last);
  }
  const block = isScalar(node) && (node.type === 'BLOCK_LITERAL' || node.type === 'BLOCK_FOLDED');
  return block ? Math.max(start, end - 1) : end;
}

/** Offset behind the last character of `key: value`; of an entry without a value behind its colon. */
export function pairEnd(pair: Pair<Node | null, Node | null>, otherwise: number): number {
  const { key, value } = pair;
  if (value !== null && !(isEmpty(value) && textOf(value) === '')) return contentEnd(value);
  return colonEnd(pair) ?? (key === null ? otherwise : contentEnd(key));
}

interface SourcePair {
  readonly srcToken?: { readonly sep?: readonly { readonly type: string; readonly offset: number }[] };
}

/** Offset behind the colon of an entry. */
export function colonEnd(pair: Pair<Node | null, Node | null>): number | undefined {
  const sep = (pair as SourcePair).srcToken?.sep ?? [];
  const colon = sep.find((token) => token.type === 'map-value-ind');
  return colon === undefined ? undefined : colon.offset + 1;
}

/** The value as a person would type it into a change. */
export function notationOf(node: Node | null): Notation {
  if (isSeq(node)) return (node.items as Node[]).map(notationOf);
  if (isMap(node)) {
    const result = Object.create(null) as Record<string, Notation>;
    for (const { key, value } of node.items as Pair<Node | null, Node | null>[])
      result[textOf(key) ?? ''] ??= notationOf(value);
    return result;
  }
  return textOf(node) ?? '';
}
