// Cuts the typefaces to the characters in use: WOFF2 files in src/fonts, committed. Run again when a character is missing.
import { readFile, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import subsetFont from 'subset-font';

const require = createRequire(import.meta.url);
const range = (from, to) =>
  Array.from({ length: to - from + 1 }, (_, i) => String.fromCodePoint(from + i)).join('');

const BASIC = `${range(0x20, 0x7e)}\u00a0°²³µ·×÷±−–—‘’“”…`;
const LETTERS = 'ÄÅÆÇÉÈÊËÍÑÓÖØÜßàáâãäåæçèéêëìíîïñòóôõöøùúûüý¼½¾£€§«»';
const GREEK = 'ΩΔμηθπΣ';
const MARKS = '≤≥≠√≈→←✓';

const OUT = new URL('../src/fonts/', import.meta.url);
const variable = (part) =>
  require.resolve(`@fontsource-variable/sofia-sans/files/sofia-sans-${part}-wght-normal.woff2`);
const tight = (face) =>
  require.resolve(`@expo-google-fonts/sofia-sans-semi-condensed/${face}/SofiaSansSemiCondensed_${face}.ttf`);
const WEIGHTS = { variationAxes: { wght: { min: 400, max: 760, default: 400 } } };

/** @type {readonly (readonly [string, string, string, object])[]} */
const jobs = [
  ['sofia-sans.woff2', variable('latin'), BASIC + LETTERS, WEIGHTS],
  ['sofia-sans-greek.woff2', variable('greek'), GREEK, WEIGHTS],
  ['sofia-sans-tight.woff2', tight('400Regular'), BASIC + GREEK + MARKS, {}],
  ['sofia-sans-tight-strong.woff2', tight('600SemiBold'), BASIC + GREEK + MARKS, {}],
  [
    'loom-marks.woff2',
    require.resolve('@fontsource/noto-sans-math/files/noto-sans-math-latin-400-normal.woff2'),
    MARKS,
    {},
  ],
];

let sum = 0;
for (const [name, from, characters, options] of jobs) {
  const cut = await subsetFont(await readFile(from), characters, { targetFormat: 'woff2', ...options });
  await writeFile(new URL(name, OUT), cut);
  sum += cut.length;
  console.log(`${name}  ${(cut.length / 1000).toFixed(1)} kB`);
}
console.log(`all  ${(sum / 1000).toFixed(1)} kB`);
