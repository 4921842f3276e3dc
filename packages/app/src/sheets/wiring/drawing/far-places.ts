/** Names of places on a drawing seen from afar: as large as their bands have room for. */
import type { Measured } from './measure.ts';
import { dressesAnew } from './worn.ts';

/** As printed, mm. */
const PRINTED = 3.4;
/** Wished height on the screen, px; of a letter's width by its height. */
const WISHED = 12.5;
const LETTER = 0.47;

/** Sets sizes and the lines' distances; near enough, the printed ones. `scale`: px for each millimetre. */
export function fitPlaceNames(root: Element, measured: Measured, scale: number, far: boolean): void {
  for (const group of root.querySelectorAll<SVGGElement>('g.place')) {
    const lines = [...group.querySelectorAll<SVGTextElement>('text')];
    const band = measured.places.find((each) => each.id === group.dataset['place'])?.box;
    const longest = Math.max(1, ...lines.map((line) => (line.textContent ?? '').length));
    const room = band === undefined ? Infinity : (band.right - band.left - 2) / (longest * LETTER);
    const size = Math.max(PRINTED, Math.min(WISHED / scale, room));
    if (!dressesAnew(group, far ? String(size) : '') || !far) continue;
    for (const [i, line] of lines.entries()) {
      line.style.setProperty('font-size', `${size}px`);
      line.style.setProperty('transform', `translateY(${(size - PRINTED) * (1 + 1.1 * i)}px)`);
    }
  }
}
