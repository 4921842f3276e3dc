/** A drawing's SVG cut into its parts, wires and places, so that an edit puts into the page only those that differ. */

export interface Cut {
  /** Attributes of the outermost element, as they are printed. */
  readonly root: string;
  /** What is inside it, with a hollow group in each piece's stead: the same skeleton, the same pieces in the same order. */
  readonly skeleton: string;
  /** Markup by name: `part bar`, `wire feed`. */
  readonly pieces: ReadonlyMap<string, string>;
}

/** Marks a hollow group. */
export const PIECE = 'data-piece';

const GROUP = /<g[\s>]|<\/g>/g;
const NAMED = /^<g(?=[\s>])[^>]*? (?:data-(part|wire|place)="([^"]*)"|class="(places|routes|outline)")/;

/** `svg`: as the engine prints it; what people wrote is escaped there, so that tags are tags. */
export function cut(svg: string): Cut {
  const open = svg.indexOf('>');
  const inside = svg.slice(open + 1, svg.lastIndexOf('</svg>'));
  const pieces = new Map<string, string>();
  const skeleton: string[] = [];
  let kept = 0;
  let begun = -1;
  let name = '';
  let depth = 0;
  for (const { 0: found, index } of inside.matchAll(GROUP)) {
    if (found === '</g>') {
      if (begun < 0) continue;
      depth -= 1;
      if (depth > 0) continue;
      const end = index + found.length;
      pieces.set(name, inside.slice(begun, end));
      skeleton.push(inside.slice(kept, begun), `<g ${PIECE}="${name}"></g>`);
      [kept, begun] = [end, -1];
    } else if (begun >= 0) depth += 1;
    else {
      const named = nameOf(inside.slice(index, inside.indexOf('>', index) + 1), pieces);
      if (named !== null) [begun, name, depth] = [index, named, 1];
    }
  }
  skeleton.push(inside.slice(kept));
  return { root: svg.slice('<svg'.length, open), skeleton: skeleton.join(''), pieces };
}

/** null: the group is none that is told apart. */
function nameOf(tag: string, known: ReadonlyMap<string, string>): string | null {
  const found = NAMED.exec(tag);
  if (found === null) return null;
  const name = found[1] === undefined ? (found[3] ?? '') : `${found[1]} ${found[2] ?? ''}`;
  let own = name;
  for (let again = 2; known.has(own); again += 1) own = `${name} ${again}`;
  return own;
}

/** The server's content policy lets no style attribute in; the style sheet says the same. Words are escaped, so only tags match. */
export const withoutStyles = (svg: string): string => svg.replaceAll(/ style="[^"]*"/g, '');
