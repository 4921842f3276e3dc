import { describe, expect, it } from 'vitest';
import { cut, PIECE } from './cut.ts';

const PART =
  '<g id="F1" class="part" role="img" aria-label="F1" data-part="fuse"><g transform="x"><path/></g><text>F1</text></g>';
const WIRE =
  '<g role="img" aria-label="W1" data-wire="feed"><path id="W1"/><g id="W1L" class="wire-label"></g></g>';
const PLACE = '<g class="place" data-place="bonnet"><rect/></g>';
const svgOf = (inside: string): string => `<svg class="drawing" viewBox="0 0 9 9">${inside}</svg>`;

/** Puts the pieces back into their places. */
function whole({ root, skeleton, pieces }: ReturnType<typeof cut>): string {
  let inside = skeleton;
  for (const [name, markup] of pieces) inside = inside.replace(`<g ${PIECE}="${name}"></g>`, () => markup);
  return `<svg${root}>${inside}</svg>`;
}

describe('a drawing cut into pieces', () => {
  it('names parts, wires and places, with the groups inside them', () => {
    const made = cut(svgOf(PLACE + WIRE + PART));
    expect([...made.pieces]).toEqual([
      ['place bonnet', PLACE],
      ['wire feed', WIRE],
      ['part fuse', PART],
    ]);
    expect(made.root).toBe(' class="drawing" viewBox="0 0 9 9"');
    expect(made.skeleton).not.toContain('<path');
  });

  it('is the same drawing again when it is put together, in moved groups too', () => {
    for (const inside of [
      PLACE + WIRE + PART,
      `<g transform="translate(1 2)">${PLACE}${PART}</g><path/>`,
      '',
    ])
      expect(whole(cut(svgOf(inside)))).toBe(svgOf(inside));
  });

  it('keeps two of one name apart', () => {
    const made = cut(svgOf(PART + PART));
    expect(made.pieces.size).toBe(2);
    expect(whole(made)).toBe(svgOf(PART + PART));
  });

  it('has the same skeleton where only words differ, another one where a piece is gone or moved', () => {
    const { skeleton } = cut(svgOf(WIRE + PART));
    expect(cut(svgOf(WIRE + PART.replace('>F1<', '>F2<'))).skeleton).toBe(skeleton);
    expect(cut(svgOf(PART + WIRE)).skeleton).not.toBe(skeleton);
    expect(cut(svgOf(WIRE)).skeleton).not.toBe(skeleton);
  });
});
