/** A size in the words of the other system, to stand beside what was written, never instead of it. */
import { NO_BREAK_SPACE } from './format.ts';
import { AWG_AREAS_MM2, threeFigures, type Size } from './size.ts';

/** So near an area counts as that gauge: a share of it. */
const SAME = 0.01;

/** Of a metric size the gauges around it, `between 4 and 3 AWG`; of any other its copper in mm². */
export function inOtherSystem({ family, areaMm2 }: Size): string {
  if (family !== 'metric') return `${threeFigures(areaMm2)}${NO_BREAK_SPACE}mm²`;
  const gauges = Object.entries(AWG_AREAS_MM2).toSorted(([, a], [, b]) => a - b);
  const same = gauges.find(([, area]) => Math.abs(area - areaMm2) <= SAME * areaMm2);
  if (same !== undefined) return `${same[0]}${NO_BREAK_SPACE}AWG`;
  const below = gauges.findLast(([, area]) => area < areaMm2)?.[0];
  const above = gauges.find(([, area]) => area > areaMm2)?.[0];
  if (below === undefined) return `thinner than ${above ?? ''}${NO_BREAK_SPACE}AWG`;
  if (above === undefined) return `thicker than ${below}${NO_BREAK_SPACE}AWG`;
  return `between ${below} and ${above}${NO_BREAK_SPACE}AWG`;
}
