/** The ampacity tables of the practices. */
import type { AmpacityAnswer, AmpacityQuestion, AmpacityTable, Basis } from '../contracts/index.ts';
import {
  ampacityIec,
  ampacityIso13297,
  ampacityTable33cfr,
  IEC_HOTTEST_AIR_C,
  isFigure,
  type AmpacityFigure,
  type IecMethod,
  type Sourced,
} from '../reference/index.ts';
import { airFrom30, ambientFrom, ENGINE_SPACE_AIR, noAmps, smallConductor, tooHot } from './air-factor.ts';
import { published } from './basis.ts';

/** Sizes typed or converted may differ in the last digits. */
const CLOSE = 1e-6;

const PATH_33CFR = 'table:ampacity/33-cfr-183';
const PATH_IEC = 'table:ampacity/iec-60364-5-52';
const PATH_ISO = 'table:ampacity/iso-13297';

/** Smallest sizes of the tables, mm²: 18 AWG; 1.5; 0.75. */
const SMALLEST_33CFR = 0.823;
const SMALLEST_IEC = 1.5;
const SMALLEST_ISO = 0.75;

/** 33 CFR 183.425 table 5: 30 °C, at most two conductors together; note 1 in engine spaces. */
export const table33cfr: AmpacityTable = {
  name: '33 CFR 183.425 table 5',
  path: PATH_33CFR,
  look: (q) =>
    from30(q, SMALLEST_33CFR, '33cfr', PATH_33CFR, () => ampacityTable33cfr(q.areaMm2, q.insulationC)),
};

/** ISO 13297 annex A, single conductors, 30 °C: every cell from memory. */
export const tableIso: AmpacityTable = {
  name: 'ISO 13297 annex A',
  path: PATH_ISO,
  look: (q) =>
    from30(q, SMALLEST_ISO, 'iso13297', PATH_ISO, () => ampacityIso13297(q.areaMm2, q.insulationC)),
};

/**
 * IEC 60364-5-52: in conduit, loom or bundle method B2; free or spaced C below 25 mm², F from there on. Its own columns of air from 30 to
 * 55 °C; beyond them the square-root rule from 55 °C, in colder air from 30 °C. An engine space counts as 50 °C at least.
 */
export const tableIec: AmpacityTable = { name: 'IEC 60364-5-52', path: PATH_IEC, look: lookIec };

function from30(
  q: AmpacityQuestion,
  smallest: number,
  engine: '33cfr' | 'iso13297',
  path: string,
  cell: () => AmpacityFigure,
): AmpacityAnswer {
  const hot = tooHot(q);
  if (hot !== null) return hot;
  const base = q.areaMm2 < smallest * (1 - CLOSE) ? smallConductor(q) : cellBasis(cell(), path);
  if (typeof base === 'string') return noAmps(base);
  return { ...base, ...airFrom30(q, engine), reason: null };
}

function lookIec(asked: AmpacityQuestion): AmpacityAnswer {
  const q = asked.engineSpace ? { ...asked, airC: Math.max(asked.airC, ENGINE_SPACE_AIR) } : asked;
  const hot = tooHot(q);
  if (hot !== null) return hot;
  if (q.areaMm2 < SMALLEST_IEC * (1 - CLOSE)) {
    return { ...smallConductor(q), ...ambientFrom(q, 30), reason: null };
  }
  const base = cellBasis(ampacityIec(q.areaMm2, q.insulationC, methodOf(q), q.airC), PATH_IEC);
  if (typeof base === 'string') return noAmps(base);
  return { ...base, ...outsideColumns(q), reason: null };
}

function methodOf(q: AmpacityQuestion): IecMethod {
  if (q.in !== 'free' && q.in !== 'spaced') return 'B2';
  return q.areaMm2 < 25 * (1 - CLOSE) ? 'C' : 'F';
}

/** Only outside the printed columns does the air still have to be counted. */
function outsideColumns(q: AmpacityQuestion): ReturnType<typeof ambientFrom> {
  if (q.airC < 30) return ambientFrom(q, 30);
  if (q.airC > IEC_HOTTEST_AIR_C) return ambientFrom(q, IEC_HOTTEST_AIR_C);
  return ambientFrom({ ...q, airC: 30 }, 30);
}

/** The cell as a basis, or why there is none. */
function cellBasis(
  cell: AmpacityFigure,
  path: string,
): { readonly amps: number; readonly basis: Basis } | string {
  if (!isFigure(cell)) return cell.noFigure;
  const { value, unit, prov, source, range } = cell;
  const sourced: Sourced = { value, unit, prov, source, ...(range === undefined ? {} : { range }) };
  return {
    amps: value,
    basis: published(path, `ampacity of ${cell.row.name}, ${cell.insulationC} °C`, sourced),
  };
}
