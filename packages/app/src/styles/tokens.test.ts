import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const css = readFileSync(new URL('./tokens.css', import.meta.url), 'utf8');

/** The custom properties of a theme; light ones are the ground that the others change. */
function theme(name: string): Readonly<Record<string, string>> {
  const blocks = [...css.matchAll(/(?:^|\n)([^{}@/]+)\{([^{}]*)\}/g)].filter(
    ([, selector = '']) =>
      selector.includes(`[data-theme='${name}']`) || selector.includes(`[data-theme="${name}"]`),
  );
  const found = blocks.flatMap(([, , body = '']) => [
    ...body.matchAll(/--([a-z0-9-]+):\s*(#[0-9a-fA-F]{3,6})/g),
  ]);
  return Object.fromEntries(found.map(([, key = '', value = '']) => [key, value]));
}

/** Relative luminance of a colour (WCAG 2.2, definition "relative luminance"). */
function luminance(hex: string): number {
  const full = hex.length === 4 ? hex.replace(/[0-9a-f]/gi, (digit) => digit + digit) : hex;
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(full.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast ratio (WCAG 2.2, definition "contrast ratio"). */
function contrast(a: string, b: string): number {
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].toSorted((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}

describe('contrast of the pairs in use', () => {
  it('knows the published ends of the scale', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
    // The grey that just meets 4.5 on white is widely published as #767676.
    expect(contrast('#767676', '#ffffff')).toBeGreaterThanOrEqual(4.5);
    expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
  });

  /** WCAG 2.2: 1.4.3 asks 4.5 for text, 1.4.11 asks 3 for the borders of controls. */
  const PAIRS: readonly (readonly [string, string, number])[] = [
    ['ink', 'sheet', 4.5],
    ['ink', 'paper', 4.5],
    ['ink', 'well', 4.5],
    ['ink', 'band', 4.5],
    ['ink-2', 'sheet', 4.5],
    ['ink-2', 'paper', 4.5],
    ['ink-2', 'well', 4.5],
    ['ink-3', 'sheet', 4.5],
    ['ink-3', 'paper', 4.5],
    ['ink-3', 'well', 4.5],
    ['on-marker', 'marker', 4.5],
    ['on-press', 'press', 4.5],
    ['edge', 'sheet', 3],
    ['edge', 'paper', 3],
    ['hz', 'marker', 3],
    ['focus', 'focus-gap', 3],
  ];

  it.each(['light', 'dark', 'glare'])('%s', (name) => {
    const colours = theme(name);
    for (const [over, under, least] of PAIRS) {
      const [a, b] = [colours[over], colours[under]];
      expect(a, `${over} in ${name}`).toBeDefined();
      expect(b, `${under} in ${name}`).toBeDefined();
      expect(contrast(a ?? '', b ?? ''), `${over} on ${under} in ${name}`).toBeGreaterThanOrEqual(least);
    }
  });
});
