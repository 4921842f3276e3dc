/** Where in a build document a caret stands: the path of what it is in, and what is being typed there. */

export interface Caret {
  /** Keys from the top to the map or list that the caret is in. */
  readonly path: readonly string[];
  /** A name is being typed, or the value of this key. */
  readonly key: string | null;
  /** What stands there already, up to the caret. */
  readonly typed: string;
  /** Where it begins in the text. */
  readonly from: number;
  /** Names already in the same braces. */
  readonly beside: readonly string[];
}

interface Frame {
  readonly path: readonly string[];
  /** Key whose value is being written; null in a key. */
  key: string | null;
  begin: number;
  readonly list: boolean;
  readonly names: string[];
}

/** Works on what stands before the caret: lines by their indentation, then braces and brackets on the caret's line. */
export function caretAt(text: string, at: number): Caret {
  const lineStart = text.lastIndexOf('\n', at - 1) + 1;
  const line = text.slice(lineStart, at);
  const indent = /^ */.exec(line)?.[0].length ?? 0;
  const outer = outerPath(text.slice(0, lineStart), indent, /^ *- /.test(line));
  const frames: Frame[] = [{ path: outer, key: null, begin: indent, list: false, names: [] }];
  let quote = '';
  for (let i = indent; i < line.length; i += 1) {
    const c = line[i] ?? '';
    const frame = frames.at(-1);
    if (frame === undefined) break;
    if (quote !== '') {
      if (c === quote) quote = '';
    } else if (c === '"' || c === "'") quote = c;
    else if (c === '#' && (i === 0 || line[i - 1] === ' ')) break;
    else if (c === '-' && i === indent && line[i + 1] === ' ') frame.begin = i + 2;
    else if (
      c === ':' &&
      (line[i + 1] === ' ' || i + 1 === line.length) &&
      frame.key === null &&
      !frame.list
    ) {
      frame.key = line.slice(frame.begin, i).trim();
      frame.names.push(frame.key);
      frame.begin = i + 1;
    } else if (c === '{' || c === '[') {
      const path = frame.key === null ? frame.path : [...frame.path, frame.key];
      frames.push({ path, key: null, begin: i + 1, list: c === '[', names: [] });
    } else if ((c === '}' || c === ']') && frames.length > 1) frames.pop();
    else if (c === ',' && frames.length > 1) {
      frame.key = null;
      frame.begin = i + 1;
    }
  }
  const frame = frames.at(-1);
  if (frame === undefined) return { path: outer, key: null, typed: '', from: at, beside: [] };
  const raw = line.slice(frame.begin);
  const typed = raw.trimStart();
  const asItem = frame.list ? (frame.path.at(-1) ?? null) : frame.key;
  return {
    path: frame.list ? frame.path.slice(0, -1) : frame.path,
    key: asItem,
    typed,
    from: at - typed.length,
    beside: frame.names,
  };
}

/** The keys above a line that are indented less and less. */
function outerPath(before: string, indent: number, item: boolean): readonly string[] {
  const path: string[] = [];
  let least = item ? indent + 1 : indent;
  for (const line of before.split('\n').toReversed()) {
    const found = /^( *)(?:- )?([\w.+-]+) *:/.exec(line);
    if (found === null || /^ *#/.test(line)) continue;
    const own = found[1]?.length ?? 0;
    if (own >= least) continue;
    path.unshift(found[2] ?? '');
    least = own;
    if (own === 0) break;
  }
  return path;
}
