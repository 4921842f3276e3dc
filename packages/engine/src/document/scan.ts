/**
 * What is refused before a tree is made of the text, found while the text is cut into lexemes: too deep nesting, anchors,
 * aliases, tags and directives. The cutting needs no recursion, so depth costs nothing here.
 */
import { CST } from 'yaml';
import type { Faults } from './faults.ts';
import { quoted } from '../quantity/index.ts';

/** Levels of maps and lists, one in the other. */
export const MOST_LEVELS = 60;

const BYTE_ORDER_MARK = '\uFEFF';
const CONTENT_FOLLOWS = CST.SCALAR;

interface Level {
  readonly column: number;
  readonly item: boolean;
}

/** Fed lexeme by lexeme to the end of the text; `accept` answers whether the text may still be parsed. */
export class Scan {
  readonly #faults: Faults;
  #offset = 0;
  #lineStart = 0;
  #fresh = true;
  #scalarNext = false;
  /** Offsets of the braces and brackets that are open. */
  #open: number[] = [];
  #refused = false;
  #tooDeep = false;
  readonly #levels: Level[] = [];
  /** Comments inside braces or brackets that look as if their `#` or their closing brace was meant. */
  readonly swallowed: { readonly offset: number; readonly text: string }[] = [];
  /** Braces and brackets that were never closed, of several in one the inner first. */
  readonly unclosed: number[] = [];

  constructor(faults: Faults) {
    this.#faults = faults;
  }

  accept(lexeme: string): boolean {
    if (lexeme === CONTENT_FOLLOWS) {
      this.#scalarNext = true;
      return !this.#refused;
    }
    if (lexeme === CST.FLOW_END) this.end();
    if (lexeme === CST.DOCUMENT || lexeme === CST.FLOW_END) return !this.#refused;
    if (this.#scalarNext) {
      this.#scalarNext = false;
      this.#content(false);
    } else this.#token(lexeme);
    this.#offset += lexeme.length;
    return !this.#refused;
  }

  /** Nothing more can be found out: the text is nested too deeply to be a document. */
  get hopeless(): boolean {
    return this.#tooDeep;
  }

  /** Nothing more comes: what is open stays open. */
  end(): void {
    this.unclosed.push(...this.#open.slice(-MOST_LEVELS).toReversed());
    this.#open = [];
  }

  #token(lexeme: string): void {
    if (lexeme === BYTE_ORDER_MARK) return;
    switch (CST.tokenType(lexeme)) {
      case 'newline':
        this.#lineStart = this.#offset + lexeme.length;
        this.#fresh = true;
        return;
      case 'seq-item-ind':
      case 'explicit-key-ind':
        return this.#item();
      case 'flow-map-start':
      case 'flow-seq-start':
        this.#content(false);
        this.#open.push(this.#offset);
        return this.#checkDepth();
      case 'flow-map-end':
      case 'flow-seq-end':
        this.#open.pop();
        return;
      case 'comment':
        if (this.#open.length > 0 && /^#\d|[\]}]/.test(lexeme))
          this.swallowed.push({ offset: this.#offset, text: lexeme });
        return;
      case 'single-quoted-scalar':
      case 'double-quoted-scalar':
        return this.#content(false);
      case 'anchor':
      case 'alias':
      case 'tag':
      case 'directive-line':
        return this.#refuse(lexeme);
      default:
        return;
    }
  }

  #item(): void {
    if (this.#open.length > 0) return;
    this.#content(true);
    this.#fresh = true;
  }

  /** A node begins here: it opens a level when it stands further right than the ones that hold it. */
  #content(item: boolean): void {
    if (this.#open.length > 0 || !this.#fresh) return;
    this.#fresh = false;
    const column = this.#offset - this.#lineStart;
    while ((this.#levels.at(-1)?.column ?? -1) > column) this.#levels.pop();
    if (!item && this.#levels.at(-1)?.item === true && this.#levels.at(-1)?.column === column)
      this.#levels.pop();
    const top = this.#levels.at(-1);
    if (top?.column === column && (top.item || !item)) return;
    this.#levels.push({ column, item });
    this.#checkDepth();
  }

  #checkDepth(): void {
    if (this.#open.length + this.#levels.length <= MOST_LEVELS || this.#tooDeep) return;
    this.#refused = true;
    this.#tooDeep = true;
    this.#faults.add({
      offset: this.#offset,
      found: '',
      expected: `at most ${MOST_LEVELS} levels`,
      message: `found more than ${MOST_LEVELS} levels of nesting; a build needs no more than 8`,
      path: [],
    });
  }

  #refuse(lexeme: string): void {
    this.#refused = true;
    const [what, instead] = REFUSED[lexeme.charAt(0)] ?? ['a directive', 'leave the line out'];
    this.#faults.add({
      offset: this.#offset,
      found: lexeme,
      expected: 'plain values',
      message: `found ${quoted(lexeme)}, ${what}, which builds do not use: ${instead}`,
      path: [],
    });
  }
}

const REFUSED: Readonly<Record<string, readonly [string, string]>> = {
  '&': ['an anchor', 'write the value out where it is used, or put a text that begins with & in quotes'],
  '*': ['an alias', 'write the value out, or put a text that begins with * in quotes'],
  '!': ['a tag', 'leave it out, or put a text that begins with ! in quotes'],
};
