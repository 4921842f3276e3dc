/** Faults of the notation in words of the trade's people, not of the notation's. */
import { quoted } from '../quantity/index.ts';
import type { Fault } from './faults.ts';
import type { Lines } from './text.ts';

type Rule = readonly [test: RegExp, message: string | ((line: string) => string)];

const CLOSING = 'a closing brace or bracket is missing, or stands too far left';

const RULES: readonly Rule[] = [
  [/^Tabs/, 'found a tab at the beginning of a line; use spaces'],
  [
    /Missing closing ["']quote/,
    'found a quotation mark that is never closed; close it, or take the first one away',
  ],
  [/^Missing space after :/, 'a space is missing after the colon; write `name: value`'],
  [/^Missing ,/, 'a comma is missing between two entries in braces or brackets'],
  [/^Unexpected (empty item|,)/, 'found a comma with nothing before it; take it away'],
  [/^Nested mappings|^A block sequence may not/, doubleColon],
  [/^Implicit map keys need/, 'found a line without a colon; write `name: value`, or `- value` in a list'],
  [/^Implicit keys/, 'found a name that goes over several lines; write name and value on one line'],
  [
    /^Plain value cannot start|^Block scalar header includes/,
    'found a value that begins with a sign that YAML keeps for itself; put the value in quotes',
  ],
  [/^Flow (map|sequence) in block/, CLOSING],
  [
    /^All (mapping|collection) items must|^All sequence items/,
    'this line is not in one column with the lines above that it belongs to; indent it like them',
  ],
  [/flow-(map|seq)-end/, 'found a closing brace or bracket that was never opened; take it away'],
  [/^Expected flow (map|sequence) to end/, CLOSING],
  [
    /block-seq-ind on same line|Sequence item without/,
    'a list cannot begin on the line of its name; begin it on the next line, write [a, b], or write a minus without a space',
  ],
  [
    /^Invalid escape/,
    'found a backslash in double quotes that means nothing; use single quotes, or write it twice',
  ],
  [
    /^Block collections are not allowed/,
    'a comma is missing in the braces or brackets, or a dash or an indented line stands in them',
  ],
  [
    /^Comments must be separated/,
    'a space is missing before #; put one before a comment, or quotes around a value with # in it',
  ],
  [
    /^Unexpected .*(scalar|node end|token)/,
    'found more text where the value was already complete; put the whole value in quotes',
  ],
];

/** The library's fault as one of ours. `unclosed`: braces and brackets still open, in the order of their complaints; taken from. */
export function syntaxFault(
  lines: Lines,
  offset: number,
  code: string,
  original: string,
  unclosed: number[],
): Fault {
  const line = lines.text.slice(lines.lineStart(offset), lines.lineEnd(lines.lineStart(offset)));
  const rule = RULES.find(([test]) => test.test(original))?.[1];
  if (rule === CLOSING) return notClosed(lines, offset, unclosed.shift());
  const message =
    typeof rule === 'function'
      ? rule(line)
      : (rule ?? `the text is not understood from here on (${code.toLowerCase().replaceAll('_', ' ')})`);
  return { offset, found: line.trim(), expected: 'YAML', message, path: [] };
}

function notClosed(lines: Lines, offset: number, opened: number | undefined): Fault {
  const fault = { offset, found: '', expected: 'a closing brace or bracket', path: [] };
  if (opened === undefined) return { ...fault, message: CLOSING };
  const sign = lines.text.charAt(opened);
  const closing = sign === '{' ? '}' : ']';
  const { line } = lines.position(opened);
  return {
    ...fault,
    message: `found no ${closing} for the ${sign} in line ${line}; close it, or indent what belongs inside`,
    related: { offset: opened, says: 'opened here' },
  };
}

function doubleColon(line: string): string {
  const second = /^[^:{[]*: *([^\s{["'][^{[]{0,80}:.*)$/.exec(line)?.[1];
  const inQuotes = second === undefined ? '' : `, such as '${second.trim().replaceAll("'", "''")}'`;
  return `found a second colon in the line; put a value with a colon in it in quotes${inQuotes}, or begin a new line`;
}

/** `{ size: #4 }`: the sign begins a comment, which takes the closing brace with it. */
export function hashTrap(offset: number, comment: string): Fault {
  return {
    offset,
    found: comment,
    expected: 'a value, or a comment behind the closing brace',
    message: `found ${quoted(comment)}, which is a comment because of its #, so that the closing brace is lost; ${insteadOfHash(comment)}`,
    path: [],
  };
}

/** What to write instead of `#4` and its like. */
export function insteadOfHash(comment: string): string {
  const number = /^# ?(\d+(?:\/0)?)\b/.exec(comment)?.[1];
  if (number === undefined) return 'put a value with # in it in quotes';
  return `write ${number} AWG for a wire size, or put it in quotes`;
}
