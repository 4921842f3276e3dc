/** What hot air, or an engine space, takes off a table figure that holds for 30 °C. */
import type { AmpacityAnswer, AmpacityQuestion, Basis } from '../contracts/index.ts';
import {
  ambientFactor,
  engineSpaceFactor,
  isFigure,
  smallConductorDensity,
  type Sourced,
} from '../reference/index.ts';
import { published } from './basis.ts';

type Air = Pick<AmpacityAnswer, 'airFactor' | 'airLabel' | 'airBasis'>;

/** Air that the engine-space factors stand for, °C. */
export const ENGINE_SPACE_AIR = 50;

/** A factor from memory that the square-root rule gives as well, to the last printed digit, is as good as computed. */
const SAME_FACTOR = 0.01;

const NONE: Air = { airFactor: 1, airLabel: '', airBasis: null };

/** No figure, with the reason. */
export const noAmps = (reason: string): AmpacityAnswer => ({ amps: null, basis: null, ...NONE, reason });

/** Air as hot as the insulation may be leaves no current at all. */
export function tooHot(q: AmpacityQuestion): AmpacityAnswer | null {
  if (q.airC < q.insulationC) return null;
  return noAmps(`the air (${q.airC} °C) is as hot as the insulation may be (${q.insulationC} °C)`);
}

/** The square-root rule from `base` °C to the air of the question; nothing where they are the same. */
export function ambientFrom(q: AmpacityQuestion, base: number): Air {
  const found = ambientFactor(q.insulationC, q.airC, base);
  if (!isFigure(found) || q.airC === base) return NONE;
  return {
    airFactor: found.value,
    airLabel: `air of ${q.airC} °C`,
    airBasis: published('table:ambient/square-root', 'factor for the air', found),
  };
}

/** From 30 °C: the engine-space factor or the ambient factor of the place, whichever is smaller, never both. */
export function airFrom30(q: AmpacityQuestion, table: '33cfr' | 'iso13297'): Air {
  const ambient = ambientFrom(q, 30);
  if (!q.engineSpace) return ambient;
  const factor = engineFactor(q.insulationC, table);
  if (factor === null || ambient.airFactor < factor.value) return ambient;
  const path = table === '33cfr' ? 'table:engine-space/33-cfr-183' : 'table:engine-space/iso-13297';
  return {
    airFactor: factor.value,
    airLabel: 'engine space',
    airBasis: published(path, 'factor for engine spaces', factor),
  };
}

function engineFactor(insulationC: number, table: '33cfr' | 'iso13297'): Sourced | null {
  const found = engineSpaceFactor(insulationC, table);
  if (!isFigure(found)) return null;
  const rule = ambientFactor(insulationC, ENGINE_SPACE_AIR);
  if (found.prov !== 'memory' || !isFigure(rule) || Math.abs(rule.value - found.value) > SAME_FACTOR)
    return found;
  return {
    ...rule,
    value: Math.min(rule.value, found.value),
    source: `${rule.source}; air of ${ENGINE_SPACE_AIR} °C`,
  };
}

/** Below the smallest size of a table: 5 A per mm² (3 to 6) at 30 °C; common practice, no source. */
export function smallConductor(q: AmpacityQuestion): { readonly amps: number; readonly basis: Basis } {
  const density = smallConductorDensity;
  const [least, greatest] = density.band ?? [density.value, density.value];
  const sourced: Sourced = {
    value: density.value * q.areaMm2,
    unit: 'A',
    prov: density.prov,
    band: [least * q.areaMm2, greatest * q.areaMm2],
    source: `${density.value} A per mm² below the smallest size of the table: ${density.source}`,
  };
  return {
    amps: sourced.value,
    basis: published(
      'default:ampacity/small-conductor',
      'ampacity of a conductor below the smallest size of the table',
      sourced,
    ),
  };
}
