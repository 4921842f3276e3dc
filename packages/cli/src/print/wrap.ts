/** Breaking text into lines of a width. */

/** A no-break space holds a number to its unit; it is written as an ordinary space, so that the output can be searched. */
const NO_BREAK = /\u00A0/g;

/** Escape sequences take no room. */
const ESCAPES = new RegExp(`${String.fromCodePoint(27)}\\[[0-9;]*m`, 'g');

/** Columns that a text takes on a terminal. */
export function columnsOf(text: string): number {
  return Array.from(text.replace(ESCAPES, '')).length;
}

/**
 * Breaks a text at ordinary spaces into lines of at most `width` columns. Words that are longer are cut, after a slash, dot or
 * hyphen where they have one.
 */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/ +/).flatMap((part) => cut(part, width))) {
    if (word === '') continue;
    const joined = line === '' ? word : `${line} ${word}`;
    if (columnsOf(joined) <= width || line === '') {
      line = joined;
    } else {
      lines.push(line);
      line = word;
    }
  }
  if (line !== '') lines.push(line);
  return lines.map((each) => each.replace(NO_BREAK, ' '));
}

function cut(word: string, width: number): string[] {
  const pieces: string[] = [];
  let rest = word;
  while (columnsOf(rest) > width && !rest.includes('\u001B')) {
    const room = Array.from(rest).slice(0, width).join('');
    const nice = Math.max(...['/', '.', '-', '=', '\u00A0'].map((mark) => room.lastIndexOf(mark))) + 1;
    const at = nice > width / 3 ? nice : room.length;
    pieces.push(rest.slice(0, at));
    rest = rest.slice(at);
  }
  return [...pieces, rest];
}

/** Fills up with spaces on the right. */
export function left(text: string, width: number): string {
  return text + ' '.repeat(Math.max(0, width - columnsOf(text)));
}

/** Fills up with spaces on the left. */
export function right(text: string, width: number): string {
  return ' '.repeat(Math.max(0, width - columnsOf(text))) + text;
}
