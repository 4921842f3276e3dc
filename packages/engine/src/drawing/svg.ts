/** Prints ink as SVG. Everything a person wrote is escaped; colours are the reader's (`currentColor`), so themes need no new drawing. */
import type { Glyph } from '../contracts/index.ts';
import { LINE_WEIGHT, n, type GlyphInk, type Ink, type PathInk, type TextInk } from './ink.ts';
import { RUN_GAP, TEXT_SIZE, textWidth } from './text/measure.ts';

export const FONT =
  "'Sofia Sans Semi Condensed Variable','Sofia Sans Semi Condensed','Sofia Sans',sans-serif";

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text and attribute values; control characters that XML forbids are dropped. */
export function escaped(value: string): string {
  if (PLAIN.test(value)) return value;
  return Array.from(value)
    .filter((c) => !forbidden(c.codePointAt(0) ?? 0))
    .join('')
    .replaceAll(/[&<>"']/g, (c) => ENTITIES[c] ?? '');
}

/** What stands as it is. */
const PLAIN = /^[ !#-%(-;=?-\uD7FF\uE000-\uFFFD]*$/;

const forbidden = (code: number): boolean =>
  (code < 0x20 && code !== 9 && code !== 10 && code !== 13) ||
  (code >= 0xd800 && code <= 0xdfff) ||
  code === 0xfffe ||
  code === 0xffff;

/** A name that may stand as an id: letters, digits, dot, dash, underscore. */
export function idOf(prefix: string, name: string): string {
  const plain = Array.from(name)
    .map((c) => (/[A-Za-z0-9._-]/.test(c) ? c : `_${(c.codePointAt(0) ?? 0).toString(16)}`))
    .join('');
  return `${prefix}${/^[A-Za-z_]/.test(plain) ? '' : '_'}${plain}`;
}

export type Attributes = Readonly<Record<string, string | number | null>>;

export function tag(name: string, attributes: Attributes, inside: string | null = null): string {
  let printed = `<${name}`;
  for (const key of Object.keys(attributes)) {
    const value = attributes[key] ?? null;
    if (value !== null) printed += ` ${key}="${typeof value === 'number' ? n(value) : escaped(value)}"`;
  }
  return inside === null ? `${printed}/>` : `${printed}>${inside}</${name}>`;
}

export const printInk = (list: readonly Ink[]): string => list.map(printOne).join('');

function printOne(ink: Ink): string {
  switch (ink.type) {
    case 'path':
      return printPath(ink);
    case 'circle':
      return tag('circle', {
        class: 'paper',
        cx: ink.x,
        cy: ink.y,
        r: ink.radius,
        fill: '#fff',
        stroke: 'currentColor',
        'stroke-width': ink.weight,
        'data-terminal': ink.terminal ?? null,
      });
    case 'glyph':
      return printGlyph(ink);
    default:
      return printText(ink);
  }
}

function printPath({ d, weight, fill, dashed }: PathInk): string {
  return tag('path', {
    d,
    class: fill === 'paper' ? 'paper' : null,
    fill: fill === 'paper' ? '#fff' : fill === 'ink' ? 'currentColor' : 'none',
    stroke: weight === 0 ? 'none' : 'currentColor',
    'stroke-width': weight === 0 ? null : weight,
    'stroke-dasharray': dashed === true ? '.8 .6' : null,
  });
}

function printGlyph({ glyph, x, y, turned, mirrored }: GlyphInk): string {
  const turn = turned === 0 ? '' : ` rotate(${90 * turned})`;
  const mirror = mirrored ? ' scale(-1 1)' : '';
  const strokes = glyph.strokes.map((s) =>
    printPath({
      type: 'path',
      d: s.d,
      weight: s.weight ?? LINE_WEIGHT.symbol,
      ...(s.fill === undefined ? {} : { fill: s.fill }),
      ...(s.dashed === true ? { dashed: true } : {}),
    }),
  );
  return tag(
    'g',
    { transform: `translate(${n(x)} ${n(y)})${turn}${mirror}` },
    strokes.join('') + letters(glyph),
  );
}

const letters = (glyph: Glyph): string =>
  (glyph.letters ?? [])
    .map(({ x, y, text }) => tag('text', { x, y, 'text-anchor': 'middle' }, escaped(text)))
    .join('');

function printText({ x, y, anchor, line, size }: TextInk): string {
  const runs = line.map((run, i) =>
    line.length === 1 && !run.strong
      ? escaped(run.text)
      : tag(
          'tspan',
          { dx: i === 0 ? null : RUN_GAP, 'font-weight': run.strong ? 600 : null },
          escaped(run.text),
        ),
  );
  return tag(
    'text',
    { x, y, 'text-anchor': anchor === 'start' ? null : anchor, 'font-size': size ?? null },
    runs.join(''),
  );
}

/** CSS that a drawing's text needs. */
export const FONT_FEATURES = 'font-variant-numeric:normal;font-kerning:none';

/** A drawing as a file of its own, with the CSS that its text needs. */
export const asFile = (svg: string): string => svg.replace('<svg ', `<svg style="${FONT_FEATURES}" `);

/** Width that a line takes as printed, mm. */
export const printedWidth = (ink: TextInk): number =>
  ink.line.reduce(
    (sum, run) => sum + textWidth(run.text, run.strong ? 'strong' : 'regular', ink.size ?? TEXT_SIZE),
    0,
  ) +
  RUN_GAP * Math.max(0, ink.line.length - 1);

/**
 * The outermost element, with its size in millimetres; on a screen a style may give it another. Text widths were computed
 * without kerning: `FONT_FEATURES` must hold wherever it is shown. It is no attribute here, because a page that allows no
 * inline style shows it too.
 */
export function svgRoot(width: number, height: number, label: string, inside: string): string {
  return tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'drawing',
      viewBox: `0 0 ${n(width)} ${n(height)}`,
      width: `${n(width)}mm`,
      height: `${n(height)}mm`,
      role: 'group',
      'aria-label': label,
      color: '#000',
      fill: 'currentColor',
      'font-family': FONT,
      'font-size': TEXT_SIZE,
    },
    inside,
  );
}
