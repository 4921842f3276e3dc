// Reads the advance widths of the drawing's typeface once and writes them as a table, so that the same number is had in
// Node, in a worker and in a browser without a document. Run it again only when the typeface changes.
import { readFileSync, writeFileSync } from 'node:fs';
import { root } from './ensure.mjs';

const PACKAGE = `${root}node_modules/@expo-google-fonts/sofia-sans-semi-condensed`;
const WEIGHTS = { regular: '400Regular', strong: '600SemiBold' };
const TARGET = `${root}packages/engine/src/drawing/text/advance-widths.ts`;
/** Latin, Greek and Cyrillic, punctuation, currency, letterlike, arrows, mathematical signs. */
const RANGES = [
  [0x20, 0x7e],
  [0xa0, 0x17f],
  [0x218, 0x21b],
  [0x370, 0x3ff],
  [0x400, 0x45f],
  [0x2010, 0x203a],
  [0x2070, 0x209f],
  [0x20ac, 0x20ac],
  [0x2116, 0x2126],
  [0x2190, 0x2199],
  [0x2200, 0x2265],
];

function tables(data) {
  const list = new Map();
  for (let i = 0; i < data.readUInt16BE(4); i += 1) {
    const at = 12 + 16 * i;
    list.set(data.toString('latin1', at, at + 4), data.subarray(data.readUInt32BE(at + 8)));
  }
  return list;
}

/** Character to glyph, from the format 4 subtable (basic plane). */
function characters(cmap) {
  const glyphs = new Map();
  for (let i = 0; i < cmap.readUInt16BE(2); i += 1) {
    const sub = cmap.subarray(cmap.readUInt32BE(4 + 8 * i + 4));
    if (sub.readUInt16BE(0) !== 4) continue;
    const pairs = sub.readUInt16BE(6);
    for (let s = 0; s < pairs; s += 2) {
      const end = sub.readUInt16BE(14 + s);
      const start = sub.readUInt16BE(16 + pairs + s);
      const delta = sub.readUInt16BE(16 + 2 * pairs + s);
      const at = 16 + 3 * pairs + s;
      const offset = sub.readUInt16BE(at);
      for (let c = start; c <= end && c !== 0xffff; c += 1) {
        const glyph = offset === 0 ? (c + delta) & 0xffff : sub.readUInt16BE(at + offset + 2 * (c - start));
        if (glyph !== 0) glyphs.set(c, offset === 0 ? glyph : (glyph + delta) & 0xffff);
      }
    }
  }
  return glyphs;
}

function read(style) {
  const t = tables(readFileSync(`${PACKAGE}/${style}/SofiaSansSemiCondensed_${style}.ttf`));
  const em = t.get('head').readUInt16BE(18);
  const count = t.get('hhea').readUInt16BE(34);
  const hmtx = t.get('hmtx');
  const advance = (glyph) => Math.round((hmtx.readUInt16BE(4 * Math.min(glyph, count - 1)) * 1000) / em);
  const os2 = t.get('OS/2');
  const glyphs = characters(t.get('cmap'));
  const capital = Math.round((os2.readInt16BE(88) * 1000) / em);
  const rows = RANGES.map(([from, to]) => {
    const widths = [];
    for (let c = from; c <= to; c += 1) widths.push(glyphs.has(c) ? advance(glyphs.get(c)) : 0);
    return `    [0x${from.toString(16)}, '${widths.map((w) => w.toString(36)).join(' ')}'],`;
  });
  return { capital, rows };
}

const made = Object.entries(WEIGHTS).map(([name, style]) => ({ name, ...read(style) }));
writeFileSync(
  TARGET,
  `/**
 * Advance widths of Sofia Sans Semi Condensed (OFL-1.1) in thousandths of the em, without kerning. Written by
 * scripts/make-advance-widths.mjs from the typeface's files; not to be edited. Per weight: the first character of a run and its
 * widths in base 36; 0 = the typeface has no such character.
 */
export const CAPITAL_HEIGHT = ${made[0].capital};

export const ADVANCE_WIDTHS = {
${made.map((m) => `  ${m.name}: [\n${m.rows.join('\n')}\n  ],`).join('\n')}
} as const;
`,
);
console.log(made.map((m) => `${m.name}: capital ${m.capital}`).join('; '));
