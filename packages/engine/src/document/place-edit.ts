/**
 * One change as splices of the text, so that everything else stays as it is to the byte. Values are written on one line;
 * a new part gets a line of its own.
 */
import type { Node, Pair, YAMLMap, YAMLSeq } from 'yaml';
import type { Path } from '../contracts/index.ts';
import { isEmpty, isMap, isSeq, textOf } from './nodes.ts';
import { NotWritable, renderEntry, renderSection, renderValue, type Style } from './render.ts';
import { colonEnd, contentEnd, pairEnd, type Found, type SourceText } from './source.ts';
import type { Splice } from './splice.ts';
import { TOP } from './tables.ts';

type AnyPair = Pair<Node | null, Node | null>;

/** Replaces, adds and removes values in one source. Throws NotWritable when a change has no place. */
export class Placing {
  readonly #source: SourceText;
  readonly #text: string;
  readonly #eol: string;
  readonly #style: Style;

  constructor(source: SourceText) {
    this.#source = source;
    this.#text = source.lines.text;
    this.#eol = this.#text.includes('\r\n') ? '\r\n' : '\n';
    this.#style = { json: isMap(source.root) && source.root.flow === true };
  }

  /** Puts a value where there is one, or adds it. */
  set(path: Path, value: unknown): readonly Splice[] {
    const found = this.#source.find(path);
    return found === null || found.parent === null
      ? this.add(path, value)
      : this.#replace(path, found, value);
  }

  #replace(path: Path, found: Found, value: unknown): readonly Splice[] {
    const node = found.value;
    if (node !== null && !(isEmpty(node) && textOf(node) === '')) {
      const at = node.range?.[0] ?? 0;
      return [{ at, remove: contentEnd(node) - at, put: renderValue(value, this.#style) }];
    }
    if (isMap(found.parent)) return this.#fill(path, found.parent.items[found.index] as AnyPair, value);
    const at = node?.range?.[0] ?? 0;
    const gap = /\s/.test(this.#text.charAt(at - 1)) ? '' : ' ';
    return [{ at, remove: 0, put: `${gap}${renderValue(value, this.#style)}` }];
  }

  /** A value behind `key:` with nothing there. */
  #fill(path: Path, pair: AnyPair, value: unknown): readonly Splice[] {
    const colon = colonEnd(pair);
    if (colon === undefined) {
      const at = pair.key === null ? 0 : contentEnd(pair.key);
      return [{ at, remove: 0, put: `: ${renderValue(value, this.#style)}` }];
    }
    const [heading, ...lines] = path.length === 1 && !this.#style.json ? this.#sectionLines(path, value) : [];
    if (heading !== undefined && lines.length > 0) {
      const at = this.#source.lines.lineEnd(colon);
      return [{ at, remove: 0, put: lines.map((line) => this.#eol + line).join('') }];
    }
    return [{ at: colon, remove: 0, put: ` ${renderValue(value, this.#style)}` }];
  }

  #sectionLines(path: Path, value: unknown): readonly string[] {
    return renderSection(String(path[0]), value, this.#eol).split(this.#eol);
  }

  /** Adds an entry to a map, or an item to a list (before the one that has its index). Missing holders are made. */
  add(path: Path, value: unknown): readonly Splice[] {
    const step = path.at(-1);
    if (step === undefined) throw new NotWritable('a change needs a path');
    const above = path.slice(0, -1);
    const holder = this.#source.find(above);
    if (holder === null) return this.add(above, typeof step === 'number' ? [value] : { [step]: value });
    const { value: node } = holder;
    if (isMap(node)) return this.#addEntry(node, String(step), value, above.length === 0);
    if (isSeq(node)) return this.#addItem(node, Number(step), value);
    if (!isEmpty(node)) throw new NotWritable(`${above.join('.')} is a single value and can hold nothing`);
    if (above.length > 0)
      return this.#replace(above, holder, typeof step === 'number' ? [value] : { [step]: value });
    const lead = this.#text === '' || this.#text.endsWith('\n') ? '' : this.#eol;
    return [
      {
        at: this.#text.length,
        remove: 0,
        put: `${lead}${renderSection(String(step), value, this.#eol)}${this.#eol}`,
      },
    ];
  }

  #addEntry(map: YAMLMap, key: string, value: unknown, atTop: boolean): readonly Splice[] {
    const pairs = map.items as AnyPair[];
    const last = pairs.at(-1);
    if (map.flow === true || last === undefined)
      return this.#addFlow(map, last && pairEnd(last, 0), renderEntry(key, value, this.#style));
    if (!atTop)
      return this.#lineAfter(
        pairEnd(last, 0),
        this.#columnOf(pairs[0]),
        renderEntry(key, value, this.#style),
      );
    const before = this.#before(pairs, key);
    const section = renderSection(key, value, this.#eol);
    if (before !== undefined) return this.#lineAfter(pairEnd(before, 0), this.#columnOf(pairs[0]), section);
    const at = this.#startOf(pairs[0]);
    return [{ at, remove: 0, put: `${section}${this.#eol}` }];
  }

  /** The entry behind which a new one of the top is written: the last of those that come before it in the house's order. */
  #before(pairs: readonly AnyPair[], key: string): AnyPair | undefined {
    const order = Object.keys(TOP);
    const rank = (name: string) => (order.indexOf(name) + order.length + 1) % (order.length + 1);
    return pairs.findLast((pair) => rank(textOf(pair.key) ?? '') < rank(key));
  }

  #startOf(pair: AnyPair | undefined): number {
    return pair?.key?.range?.[0] ?? 0;
  }

  #columnOf(pair: AnyPair | undefined): number {
    const at = this.#startOf(pair);
    return at - this.#source.lines.lineStart(at);
  }

  /** A line of its own behind the line in which the offset lies. */
  #lineAfter(offset: number, column: number, content: string): readonly Splice[] {
    const at = this.#source.lines.lineEnd(offset);
    return [{ at, remove: 0, put: `${this.#eol}${' '.repeat(column)}${content}` }];
  }

  /** Into braces or brackets, behind the last entry. */
  #addFlow(node: YAMLMap | YAMLSeq, lastEnd: number | undefined, content: string): readonly Splice[] {
    if (lastEnd !== undefined) return [{ at: lastEnd, remove: 0, put: `, ${content}` }];
    const at = (node.range?.[0] ?? 0) + 1;
    const pad = isMap(node) ? ' ' : '';
    const after = /\s/.test(this.#text.charAt(at)) ? '' : pad;
    return [{ at, remove: 0, put: `${pad}${content}${after}` }];
  }

  #addItem(seq: YAMLSeq, index: number, value: unknown): readonly Splice[] {
    const items = seq.items as Node[];
    if (!Number.isInteger(index) || index < 0 || index > items.length)
      throw new NotWritable(`the list has ${items.length} items: there is no place ${index} in it`);
    const text = renderValue(value, this.#style);
    const next = items[index];
    if (seq.flow === true || items.length === 0) {
      const last = items.at(-1);
      if (next === undefined) return this.#addFlow(seq, last && contentEnd(last), text);
      return [{ at: next.range?.[0] ?? 0, remove: 0, put: `${text}, ` }];
    }
    const dash = dashOf(seq, Math.min(index, items.length - 1));
    const column = dash - this.#source.lines.lineStart(dash);
    const last = items.at(-1);
    if (next === undefined)
      return this.#lineAfter(last === undefined ? dash : contentEnd(last), column, `- ${text}`);
    return [{ at: dash, remove: 0, put: `- ${text}${this.#eol}${' '.repeat(column)}` }];
  }

  /** Takes an entry or item away, with the comment behind it on its line; comments above it stay. */
  remove(path: Path): readonly Splice[] {
    const found = this.#source.find(path);
    if (found === null || found.parent === null)
      throw new NotWritable(`there is nothing at ${path.join('.')}`);
    const { parent, index } = found;
    const spans = isMap(parent)
      ? (parent.items as AnyPair[]).map((pair) => [this.#pairStart(pair), pairEnd(pair, 0)] as const)
      : (parent.items as Node[]).map(
          (node, i) => [this.#itemStart(parent, i, node), contentEnd(node)] as const,
        );
    if (spans.length === 1) return this.#emptied(parent);
    return parent.flow === true ? this.#removeFlow(spans, index) : this.#removeLines(spans, index);
  }

  /** `? key` begins at its question mark. */
  #pairStart(pair: AnyPair): number {
    const at = this.#startOf(pair);
    const mark = /\?[ \t]+$/.exec(this.#text.slice(Math.max(0, at - 8), at));
    return mark === null ? at : at - mark[0].length;
  }

  #itemStart(seq: YAMLSeq, index: number, node: Node): number {
    return seq.flow === true ? (node.range?.[0] ?? 0) : dashOf(seq, index);
  }

  #emptied(parent: YAMLMap | YAMLSeq): readonly Splice[] {
    const at = parent.range?.[0] ?? 0;
    return [{ at, remove: contentEnd(parent) - at, put: isMap(parent) ? '{}' : '[]' }];
  }

  #removeFlow(spans: readonly (readonly [number, number])[], index: number): readonly Splice[] {
    const [start = 0, end = 0] = spans[index] ?? [];
    const nextStart = spans[index + 1]?.[0];
    const previousEnd = spans[index - 1]?.[1];
    if (nextStart !== undefined && !this.#text.slice(end, nextStart).includes('#'))
      return [{ at: start, remove: nextStart - start, put: '' }];
    if (nextStart !== undefined) {
      const comma = this.#text.indexOf(',', end) + 1;
      return [{ at: start, remove: Math.max(comma, end) - start, put: '' }];
    }
    const from =
      previousEnd === undefined || this.#text.slice(previousEnd, start).includes('#') ? start : previousEnd;
    return [{ at: from, remove: end - from, put: '' }];
  }

  #removeLines(spans: readonly (readonly [number, number])[], index: number): readonly Splice[] {
    const [start = 0, end = 0] = spans[index] ?? [];
    const { lines } = this.#source;
    const lineStart = lines.lineStart(start);
    const lineEnd = lines.lineEnd(end);
    const next = lineEnd + (this.#text.startsWith('\r\n', lineEnd) ? 2 : 1);
    if (this.#text.slice(lineStart, start).trim() !== '') {
      // The first entry stands behind a dash: what follows moves up to it.
      const rest = /^\s*/.exec(this.#text.slice(next))?.[0].length ?? 0;
      return [{ at: start, remove: next + rest - start, put: '' }];
    }
    if (lineEnd < this.#text.length) return [{ at: lineStart, remove: next - lineStart, put: '' }];
    const from = Math.max(0, lineStart - this.#eol.length);
    return [{ at: from, remove: lineEnd - from, put: '' }];
  }
}

interface SourceSeq {
  readonly srcToken?: {
    readonly items?: readonly {
      readonly start: readonly { readonly type: string; readonly offset: number }[];
    }[];
  };
}

/** Offset of the dash of an item of a list in lines. */
function dashOf(seq: YAMLSeq, index: number): number {
  const start = (seq as SourceSeq).srcToken?.items?.[index]?.start ?? [];
  return start.find(({ type }) => type === 'seq-item-ind')?.offset ?? seq.range?.[0] ?? 0;
}
