/** Wire sizes, in the four families in which cable is sold. */
import { readNumber } from './number.ts';
import { listed, normalise, quoted } from './text.ts';
import type { Refusal } from './parse.ts';

export type SizeFamily = 'metric' | 'awg' | 'sae' | 'auto';

/** A wire size. */
export interface Size {
  /** As typed, trimmed. */
  readonly text: string;
  readonly family: SizeFamily;
  /** Copper cross-section, mm². For `auto` the lowest area quoted for that outside diameter. */
  readonly areaMm2: number;
  /** House spelling: `25 mm²`, `4 AWG`, `1/0 AWG`, `4 SAE`, `6 mm auto`. */
  readonly name: string;
}

export interface SizeFound {
  readonly ok: true;
  /** Of a band the smaller size: the one that carries less. */
  readonly size: Size;
  /** Only for a band `16..25 mm2`: both sizes, smaller first. */
  readonly band?: readonly [Size, Size];
}

export type SizeResult = SizeFound | Refusal;

type Areas = Readonly<Record<string, number>>;

/**
 * Copper area by American Wire Gauge, mm²: pi/4 d², d = 0.127 mm x 92^((36 - n)/39), rounded to 1e-4 mm² (ASTM
 * B258).
 * Written out because powers may differ in the last digit between machines.
 */
export const AWG_AREAS_MM2: Areas = {
  '4/0': 107.2193,
  '3/0': 85.0288,
  '2/0': 67.4309,
  '1/0': 53.4751,
  '1': 42.4077,
  '2': 33.6308,
  '3': 26.6705,
  '4': 21.1506,
  '5': 16.7732,
  '6': 13.3018,
  '7': 10.5488,
  '8': 8.3656,
  '9': 6.6342,
  '10': 5.2612,
  '11': 4.1723,
  '12': 3.3088,
  '13': 2.624,
  '14': 2.0809,
  '15': 1.6502,
  '16': 1.3087,
  '17': 1.0378,
  '18': 0.823,
  '19': 0.6527,
  '20': 0.5176,
  '21': 0.4105,
  '22': 0.3255,
};

/**
 * Copper area by SAE size, mm², from the circular mils printed in general tables of SAE J1127 and J1128 (3 to
 * 12 % below
 * AWG of the same number). 20 SAE: the metric minimum of J1128, from memory.
 */
export const SAE_AREAS_MM2: Areas = {
  '4/0': 104.128,
  '3/0': 80.364,
  '2/0': 63.389,
  '1/0': 50.154,
  '1': 39.417,
  '2': 31.644,
  '4': 18.931,
  '6': 12.434,
  '8': 7.504,
  '10': 4.734,
  '12': 2.956,
  '14': 1.876,
  '16': 1.184,
  '18': 0.779,
  '20': 0.508,
};

/** Copper area of automotive cable sold by outside diameter (mm), mm²: the lowest quoted, from memory. */
export const AUTO_AREAS_MM2: Areas = { '3': 0.85, '4': 1.85, '5': 2.9, '6': 4.6 };

/** Metric sizes outside this range are taken for slips of the pen (mm²). */
const METRIC_RANGE = [0.05, 1000] as const;

const refuse = (message: string): Refusal => ({ ok: false, message });
const found = (size: Size): SizeFound => ({ ok: true, size });

/**
 * Reads a wire size: `25 mm2` (mm², sqmm), `4 AWG`, `AWG 4`, `1/0 AWG`, `0000 AWG`, `4 SAE`, `6 mm auto`, or a
 * band `16..25 mm2`.
 * Whatever could mean two cables is refused with the meanings named: `6`, `6 mm`, `4 ga`, `4 gauge`, `#4`.
 */
export function parseSize(text: string): SizeResult {
  const plain = normalise(text);
  const band = /^(.+?) ?(?:\.\.| to ) ?(.+)$/.exec(plain);
  return band === null
    ? parseOne(plain, text.trim())
    : parseSizeBand(band[1] ?? '', band[2] ?? '', text.trim());
}

function parseSizeBand(first: string, second: string, text: string): SizeResult {
  const b = parseOne(second, text);
  if (!b.ok) return b;
  const a = parseOne(/^[\d.,/]+$/.test(first) ? first + second.replace(/^[\d.,/]+/, '') : first, text);
  if (!a.ok) return a;
  // Each end is printed by itself, so each has its own text.
  const ends = [a.size, b.size].map((size) => ({ ...size, text: size.name.replaceAll('\u00A0', ' ') }));
  const [small = a.size, large = b.size] = ends.toSorted((x, y) => x.areaMm2 - y.areaMm2);
  return { ok: true, size: small, band: [small, large] };
}

function parseOne(plain: string, text: string): SizeResult {
  if (plain === '')
    return refuse('no size is written here: write 25 mm2, 4 AWG, 4 SAE or 6 mm auto (a # begins a comment)');
  return metric(plain, text) ?? gauge(plain, text) ?? auto(plain, text) ?? doubtful(plain, text);
}

function metric(plain: string, text: string): SizeResult | undefined {
  const match = /^([\d.,]+) ?(?:mm²|mm2|mm\^2|sq\.? ?mm|qmm)$/i.exec(plain);
  if (match === null) return undefined;
  const read = readNumber(match[1] ?? '', 'mm2');
  if (!read.ok) return refuse(read.message);
  const area = Number(read.digits);
  const [least, most] = METRIC_RANGE;
  if (area < least || area > most)
    return refuse(`${quoted(text)}: a copper area from ${least} to ${most} mm2 is expected`);
  return found({ text, family: 'metric', areaMm2: area, name: `${area}\u00A0mm²` });
}

function gauge(plain: string, text: string): SizeResult | undefined {
  const match = /^(\d+(?:\/0)?) ?(awg|sae)$/i.exec(plain) ?? /^(?:awg|sae) ?(\d+(?:\/0)?)$/i.exec(plain);
  if (match === null) return undefined;
  const family: SizeFamily = /sae/i.test(plain) ? 'sae' : 'awg';
  const number = aught(match[1] ?? '');
  const areas = family === 'awg' ? AWG_AREAS_MM2 : SAE_AREAS_MM2;
  const area = Object.hasOwn(areas, number) ? areas[number] : undefined;
  const unit = family.toUpperCase();
  if (area === undefined) return refuse(`${quoted(text)}: no such size: ${gaugeRange(family)}`);
  return found({ text, family, areaMm2: area, name: `${number}\u00A0${unit}` });
}

/** 0, 00, 000, 0000 and 1/0 to 4/0 are the same sizes. */
function aught(number: string): string {
  if (/^0{1,4}$/.test(number)) return `${number.length}/0`;
  return number.replace(/^0+(?=[1-9])/, '');
}

function gaugeRange(family: 'awg' | 'sae'): string {
  if (family === 'awg') return 'AWG sizes run from 22 to 1, then 1/0, 2/0, 3/0 and 4/0';
  return 'SAE sizes are 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 1/0, 2/0, 3/0 and 4/0';
}

function auto(plain: string, text: string): SizeResult | undefined {
  const match = /^([\d.,]+) ?mm auto$/i.exec(plain);
  if (match === null) return undefined;
  const number = match[1] ?? '';
  const area = Object.hasOwn(AUTO_AREAS_MM2, number) ? AUTO_AREAS_MM2[number] : undefined;
  if (area === undefined) {
    return refuse(
      `${quoted(text)}: cable sold by outside diameter is known here in 3, 4, 5 and 6 mm auto; else write its copper in mm2`,
    );
  }
  return found({ text, family: 'auto', areaMm2: area, name: `${number}\u00A0mm auto` });
}

function doubtful(plain: string, text: string): Refusal {
  const bare = /^([\d.,]+|\d+\/0)$/.exec(plain);
  if (bare !== null) return bareNumber(text, bare[1] ?? '');
  const millimetres = /^([\d.,]+) ?(?:mm|millimet(?:er|re)s?)$/i.exec(plain);
  if (millimetres !== null) return diameter(text, millimetres[1] ?? '');
  const loose =
    /^(?:#|no\.? ?|nr\.? ?)(\d+(?:\/0)?)$/i.exec(plain) ??
    /^(\d+(?:\/0)?) ?-?(?:ga|g|gauge|gage|ga\.|b&s)$/i.exec(plain) ??
    /^(?:gauge|gage|ga) ?(\d+(?:\/0)?)$/i.exec(plain);
  if (loose !== null) return looseGauge(text, aught(loose[1] ?? ''));
  if (/^auto$/i.test(plain))
    return refuse('"auto" is not accepted here: write a size such as 25 mm2 or 4 AWG');
  return refuse(`${quoted(text)} is not a wire size: write it such as 25 mm2, 4 AWG, 4 SAE or 6 mm auto`);
}

function bareNumber(text: string, number: string): Refusal {
  const choices = [`${number} AWG`, `${number} SAE`];
  if (!number.includes('/')) choices.unshift(`${number} mm2`);
  if (Object.hasOwn(AUTO_AREAS_MM2, number)) choices.push(`${number} mm auto`);
  return refuse(`${quoted(text)} is a size without a unit: write ${listed(choices)}`);
}

function diameter(text: string, number: string): Refusal {
  const area = Object.hasOwn(AUTO_AREAS_MM2, number) ? AUTO_AREAS_MM2[number] : undefined;
  const copper = area === undefined ? '' : `, about ${area} mm² of copper`;
  const second = area === undefined ? '' : ` or ${number} mm auto (sold by outside diameter${copper})`;
  return refuse(`${quoted(text)} may be a copper area or an outside diameter: write ${number} mm2${second}`);
}

function looseGauge(text: string, number: string): Refusal {
  const meaning = (areas: Areas, unit: string) => {
    const area = Object.hasOwn(areas, number) ? areas[number] : undefined;
    return area === undefined ? undefined : `${number} ${unit} (${threeFigures(area)} mm²)`;
  };
  const choices = [meaning(AWG_AREAS_MM2, 'AWG'), meaning(SAE_AREAS_MM2, 'SAE')].filter(
    (c) => c !== undefined,
  );
  if (choices.length === 0)
    return refuse(`${quoted(text)} is not a wire size: write it such as 25 mm2, 4 AWG or 4 SAE`);
  return refuse(`${quoted(text)}: gauge is sold by two rules that differ: write ${listed(choices)}`);
}

/** Copper area in three figures, as printed in brackets behind a size. */
export function threeFigures(area: number): string {
  return String(Number(area.toPrecision(3)));
}

/** The size as typed, then its copper area in brackets where the text does not say it: `4 AWG (21.2 mm²)`. */
export function formatSize(size: Size): string {
  if (size.family === 'metric') return size.name;
  return `${size.text.replaceAll(' ', '\u00A0')} (${threeFigures(size.areaMm2)}\u00A0mm²)`;
}
