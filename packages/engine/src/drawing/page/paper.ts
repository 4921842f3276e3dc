/** Paper sizes, and where on a page the drawing stands. Millimetres. */
import { nameRows, PLACE_LINE, type Banded } from './bands.ts';
import { heightOf } from '../sheet/picture.ts';

export interface Paper {
  readonly name: 'A4' | 'Letter';
  readonly width: number;
  readonly height: number;
}

export const PAPERS: Readonly<Record<Paper['name'], Paper>> = {
  A4: { name: 'A4', width: 297, height: 210 },
  Letter: { name: 'Letter', width: 279.4, height: 215.9 },
};

/** Room for holes at the left; zone marks outside the frame elsewhere. */
export const MARGIN = { left: 20, top: 10, right: 10, bottom: 10 } as const;
export const STRIP = 15;
export const DRAFT_STRIP = 8;
/** Between the frame and the bands, between the bands' names and the drawing, under the drawing. */
const TOP = 2;
const SIDE = 3;
const UNDER_NAMES = 2;
const BAND_FOOT = 2;
export const ROUTE_ROW = 4.3;
const ROUTE_PAD = 1.6;

export interface Free {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  /** Between the bands' rule and the title block. */
  readonly height: number;
}

export function freeOn(paper: Paper, draft: boolean): Free {
  const top = MARGIN.top + TOP + (draft ? DRAFT_STRIP : 0);
  return {
    left: MARGIN.left + SIDE,
    top,
    width: paper.width - MARGIN.left - MARGIN.right - 2 * SIDE,
    height: paper.height - MARGIN.bottom - STRIP - top,
  };
}

export const namesHeight = (banded: Banded): number =>
  1.5 + nameRows(banded.bands) * PLACE_LINE + UNDER_NAMES;
export const footHeight = (banded: Banded): number =>
  banded.routeRows === 0 ? 1 : banded.routeRows * ROUTE_ROW + ROUTE_PAD;

export interface Needs {
  readonly width: number;
  readonly height: number;
}

/** What a drawing needs between rule and title block. */
export function needsOf(banded: Banded): Needs {
  const { bands, picture } = banded;
  const left = Math.min(...bands.map((b) => b.left));
  const right = Math.max(...bands.map((b) => b.right));
  return {
    width: right - left,
    height: namesHeight(banded) + heightOf(picture) + BAND_FOOT + footHeight(banded),
  };
}

export const fits = (needs: Needs, free: Free): boolean =>
  needs.width <= free.width + 1e-6 && needs.height <= free.height + 1e-6;
