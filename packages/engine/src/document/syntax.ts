/** Text to syntax tree, with the faults of the notation itself. */
import { Composer, Lexer, Parser, type ParsedNode, type Document } from 'yaml';
import { Faults } from './faults.ts';
import { Scan } from './scan.ts';
import { hashTrap, syntaxFault } from './syntax-faults.ts';
import type { Lines } from './text.ts';

export interface Tree {
  /** Null: an empty document, or one that was refused before parsing. */
  readonly root: ParsedNode | null;
  /** False: refused before parsing, nothing can be read of it. */
  readonly parsed: boolean;
  /** Offset of the first fault of the notation; what stands before it was understood. */
  readonly goodUntil: number;
}

/** Past so many faults of notation the text is no document. */
const MOST_SYNTAX_FAULTS = 100;

class Enough extends Error {}

/**
 * Parses one document. Faults of the notation go to `faults`; the tree is as good as can be had. Never throws; work and
 * memory grow in proportion to the text.
 */
export function parseTree(lines: Lines, faults: Faults): Tree {
  const scan = new Scan(faults);
  const found = new Faults(lines);
  const documents = composed(lines.text, scan, found);
  if (documents === null) return { root: null, parsed: false, goodUntil: 0 };
  const trap = found.errors > 0 ? scan.swallowed[0] : undefined;
  if (trap !== undefined) faults.add(hashTrap(trap.offset, trap.text));
  const until = trap?.offset ?? Number.POSITIVE_INFINITY;
  const kept = found.list.filter((fault) => fault.offset < until);
  for (const fault of kept) faults.add(fault);
  const [first, second] = documents;
  if (second !== undefined) faults.add(severalDocuments(second));
  const goodUntil = Math.min(until, ...kept.map((fault) => fault.offset));
  return { root: first?.contents ?? null, parsed: true, goodUntil };
}

type Parsed = Document.Parsed;

/** At most two documents: a second one is a fault. Null when the scan refuses the text. */
function composed(text: string, scan: Scan, found: Faults): readonly Parsed[] | null {
  const composer = new Composer({
    uniqueKeys: false,
    keepSourceTokens: true,
    version: '1.2',
    schema: 'core',
  });
  // The library makes an error object with a stack per fault, and has no bound on their number.
  let count = 0;
  composer['onError'] = (source: unknown, code: string, message: string, warning?: boolean): void => {
    if (warning === true) return;
    // The library catches what is thrown inside a map or list and reports it here once more.
    if (++count > MOST_SYNTAX_FAULTS) throw new Enough();
    found.add(syntaxFault(found.lines, offsetOf(source), code, message, scan.unclosed));
  };
  const documents: Parsed[] = [];
  try {
    for (const document of composer.compose(tokens(text, scan, found))) {
      documents.push(document);
      if (documents.length === 2) break;
    }
  } catch (error) {
    if (error instanceof Refused) return null;
    if (!(error instanceof Enough)) throw error;
  }
  // A few faults between documents are kept here instead of being reported as they are found.
  const others = [...documents.flatMap((document) => document.errors), ...composer.streamInfo().errors];
  for (const { pos, code, message } of others.slice(0, MOST_SYNTAX_FAULTS))
    found.add(syntaxFault(found.lines, pos[0], code, message, scan.unclosed));
  return documents;
}

type Tokens = ReturnType<Parser['parse']>;

/** The parser's own complaints come as tokens. */
function* checked(tokens: Tokens, found: Faults, scan: Scan): Tokens {
  for (const token of tokens) {
    if (token.type !== 'error') yield token;
    else if (!found.full)
      found.add(syntaxFault(found.lines, token.offset, 'token', token.message, scan.unclosed));
  }
}

class Refused extends Error {}

function* tokens(text: string, scan: Scan, found: Faults): Tokens {
  const parser = new Parser();
  let fit = true;
  for (const lexeme of new Lexer().lex(text)) {
    fit = scan.accept(lexeme) && fit;
    if (scan.hopeless) break;
    if (fit) yield* checked(parser.next(lexeme), found, scan);
  }
  scan.end();
  if (!fit) throw new Refused();
  yield* checked(parser.end(), found, scan);
}

function offsetOf(source: unknown): number {
  if (typeof source === 'number') return source;
  if (Array.isArray(source)) return Number(source[0]);
  return (source as { readonly offset: number }).offset;
}

function severalDocuments(second: Parsed): Parameters<Faults['add']>[0] {
  return {
    offset: second.range[0],
    found: '---',
    expected: 'one document',
    message: 'found a second document in one file; write one build per file',
    path: [],
  };
}
