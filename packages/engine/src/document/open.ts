/** What is refused before a document is parsed, and the text that is left. */
import { Faults } from './faults.ts';
import { reparse } from './reparse.ts';
import { BYTE_ORDER_MARK, SourceText } from './source.ts';
import { parseTree, type Tree } from './syntax.ts';
import { decodeUtf8, Lines, MOST_BYTES, utf8Size } from './text.ts';

interface Opened {
  /** The text with its byte-order mark, as given; empty when it could not be had. */
  readonly text: string;
  /** Without the byte-order mark. */
  readonly lines: Lines;
  readonly faults: Faults;
  readonly refused: boolean;
}

/** Decodes and checks the raw input; one fault at most. */
function openText(input: string | Uint8Array): Opened {
  if (typeof input !== 'string') return openBytes(input);
  if (input.length > MOST_BYTES) return refusedBecause('', tooLarge());
  const { bytes, loneAt } = utf8Size(input);
  if (loneAt !== undefined)
    return refusedBecause('', `found half of a character at position ${loneAt}; the text is damaged there`);
  return bytes > MOST_BYTES ? refusedBecause('', tooLarge()) : checked(input);
}

function openBytes(bytes: Uint8Array): Opened {
  if (bytes.length > MOST_BYTES) return refusedBecause('', tooLarge());
  const [first, second] = bytes;
  const utf16 = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
  const decoded = decodeUtf8(bytes);
  if (decoded.ok) return checked(decoded.text);
  const hint = utf16 ? ' (it looks like UTF-16)' : '';
  return refusedBecause('', `not UTF-8 at byte ${decoded.at}${hint}; save the document as UTF-8`);
}

const tooLarge = (): string =>
  `found more than 1 MiB (${MOST_BYTES} bytes); a build is far smaller, so this is some other file`;

// Control characters other than tab and line ends, a lone carriage return included: no editor shows them.
// eslint-disable-next-line no-control-regex
const CONTROL = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F]|\r(?!\n)/;

function checked(text: string): Opened {
  const body = text.startsWith(BYTE_ORDER_MARK) ? text.slice(1) : text;
  const lines = new Lines(body);
  const control = CONTROL.exec(body);
  if (control === null) return { text, lines, faults: new Faults(lines), refused: false };
  return refusedBecause(text, controlMessage(control[0]), control.index, lines);
}

function controlMessage(character: string): string {
  if (character === '\r')
    return 'found a carriage return without a line feed; save the document with ordinary line ends';
  const code = character.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0');
  return `found the control character U+${code}${code === '0000' ? ' (NUL)' : ''}; take it out`;
}

function refusedBecause(text: string, message: string, offset = 0, lines = new Lines('')): Opened {
  const faults = new Faults(lines);
  faults.add({ offset, found: '', expected: 'a build document in UTF-8', message, path: [] });
  return { text, lines, faults, refused: true };
}

const NO_TREE: Tree = { root: null, parsed: false, goodUntil: 0 };

/** The text with its tree; `faults` has what is wrong with the notation. */
export interface Parsed {
  readonly source: SourceText;
  readonly tree: Tree;
  readonly faults: Faults;
}

/**
 * Opens and parses; of a text that is refused the tree is empty and `parsed` false. `before`: an earlier state of the text, of
 * which what did not change is taken over; the answer is the same without.
 */
export function parseText(
  file: string,
  input: string | Uint8Array,
  before: SourceText | null = null,
): Parsed {
  const { text, lines, faults, refused } = openText(input);
  const known = refused || before === null ? null : reparse(before, lines);
  const tree = refused ? NO_TREE : (known ?? parseTree(lines, faults));
  return { source: new SourceText(file, text, lines, tree.root, faults.errors), tree, faults };
}
