/** The table of units: what is accepted, and how it becomes the base unit of its dimension. */
import type { Dimension } from './dimension.ts';

export type { Dimension } from './dimension.ts';

/**
 * A unit: base value = (number x 10^exponent x factor) + offset; exponent and factor are apart so that
 * decimals stay exact.
 */
export interface Unit {
  readonly symbol: string;
  readonly exponent: number;
  readonly factor: number;
  readonly offset: number;
  /** Other ways of writing it that are accepted; compared exactly, because mΩ and MΩ differ by nine zeros. */
  readonly spellings: readonly string[];
}

export interface DimensionInfo {
  readonly dimension: Dimension;
  /** With its article, for messages: "a length". */
  readonly noun: string;
  /** The first unit is the base unit. */
  readonly units: readonly Unit[];
  /** Symbols offered when a unit is missing. */
  readonly offered: readonly string[];
  /** A good example, for messages. */
  readonly example: string;
  /** Least value that can exist, in the base unit. */
  readonly least: number;
  /** True where a bare number has one meaning only. */
  readonly bare: boolean;
}

const unit = (symbol: string, exponent: number, spellings: string, factor = 1, offset = 0): Unit => ({
  symbol,
  exponent,
  factor,
  offset,
  spellings: spellings === '' ? [] : spellings.split('|'),
});

const NONE = Number.NEGATIVE_INFINITY;

// International foot, inch and pound (exact since 1959); °F by definition; pound-force by standard gravity
// 9.80665 m/s².
const INCH_M = 0.0254;
const FOOT_M = 0.3048;
const POUND_KG = 0.45359237;
const POUND_FORCE_INCH_NM = POUND_KG * 9.80665 * INCH_M;
const POUND_FORCE_FOOT_NM = POUND_KG * 9.80665 * FOOT_M;
const FAHRENHEIT = 5 / 9;

const TABLE: readonly DimensionInfo[] = [
  {
    dimension: 'length',
    noun: 'a length',
    units: [
      unit('m', 0, 'metre|metres|meter|meters'),
      unit('cm', -2, ''),
      unit('mm', -3, ''),
      unit('ft', 0, "'|foot|feet", FOOT_M),
      unit('in', 0, '"|inch|inches', INCH_M),
    ],
    offered: ['m', 'cm', 'mm', 'ft', 'in'],
    example: '2.5 m',
    least: 0,
    bare: false,
  },
  {
    dimension: 'area',
    noun: 'a cross-section',
    units: [unit('mm²', 0, 'mm2|mm^2|sqmm|sq mm|sq. mm|qmm')],
    offered: ['mm2'],
    example: '25 mm2',
    least: 0,
    bare: false,
  },
  {
    dimension: 'voltage',
    noun: 'a voltage',
    units: [unit('V', 0, 'v|volt|volts|Volt|Volts'), unit('mV', -3, 'mv|millivolt|millivolts')],
    offered: ['V', 'mV'],
    example: '13.2 V',
    least: NONE,
    bare: false,
  },
  {
    dimension: 'current',
    noun: 'a current',
    units: [
      unit('A', 0, 'a|amp|amps|ampere|amperes|Amp|Amps'),
      unit('mA', -3, 'ma|milliamp|milliamps'),
      unit('kA', 3, 'ka|KA'),
    ],
    offered: ['A', 'mA', 'kA'],
    example: '30 A',
    least: NONE,
    bare: false,
  },
  {
    dimension: 'power',
    noun: 'a power',
    units: [unit('W', 0, 'w|watt|watts|Watt|Watts'), unit('mW', -3, 'mw'), unit('kW', 3, 'kw|KW')],
    offered: ['W', 'mW', 'kW'],
    example: '60 W',
    least: NONE,
    bare: false,
  },
  {
    dimension: 'charge',
    noun: 'a charge (capacity)',
    units: [unit('Ah', 0, 'ah|AH|A·h|A h|amp hours|amp-hours'), unit('mAh', -3, 'mah|mA·h')],
    offered: ['Ah', 'mAh'],
    example: '200 Ah',
    least: 0,
    bare: false,
  },
  {
    dimension: 'energy',
    noun: 'an energy',
    units: [
      unit('Wh', 0, 'wh|WH|W·h|watt hours|watt-hours'),
      unit('kWh', 3, 'kwh|KWh|kW·h'),
      unit('mWh', -3, 'mwh'),
    ],
    offered: ['Wh', 'kWh'],
    example: '500 Wh',
    least: 0,
    bare: false,
  },
  {
    dimension: 'resistance',
    noun: 'a resistance',
    units: [
      unit('Ω', 0, 'ohm|ohms|Ohm|Ohms|OHM'),
      unit('mΩ', -3, 'mohm|mOhm|mohms|mOhms|milliohm|milliohms'),
      unit('µΩ', -6, 'uΩ|µohm|uohm|µOhm|uOhm|microohm|microohms'),
      unit('kΩ', 3, 'kohm|kOhm|kohms|kOhms|KΩ|Kohm|kilohm|kilohms'),
      unit('MΩ', 6, 'Mohm|MOhm|Mohms|MOhms|megohm|megohms'),
    ],
    offered: ['mΩ', 'Ω', 'kΩ'],
    example: '5 mΩ',
    least: 0,
    bare: false,
  },
  {
    dimension: 'let-through',
    noun: 'a let-through (I²t)',
    units: [unit('A²s', 0, 'A2s|A^2s|A²·s|A2·s|A² s|A2 s'), unit('kA²s', 3, 'kA2s')],
    offered: ['A²s'],
    example: '9000 A²s',
    least: 0,
    bare: false,
  },
  {
    dimension: 'temperature',
    noun: 'a temperature',
    units: [
      unit('°C', 0, 'C|° C|degC|deg C|degrees C|c|°c'),
      unit('°F', 0, 'F|° F|degF|deg F|degrees F|f|°f', FAHRENHEIT, -32 * FAHRENHEIT),
    ],
    offered: ['°C', '°F'],
    example: '45 °C',
    least: -273.15,
    bare: false,
  },
  {
    dimension: 'temperature-difference',
    noun: 'a temperature difference',
    units: [unit('K', 0, 'kelvin|Kelvin')],
    offered: ['K'],
    example: '10 K',
    least: NONE,
    bare: false,
  },
  {
    dimension: 'gradient',
    noun: 'a voltage change with temperature',
    units: [unit('V/K', 0, 'V/°C|v/k'), unit('mV/K', -3, 'mV/°C|mv/k|mV/C')],
    offered: ['mV/K'],
    example: '-10 mV/K',
    least: NONE,
    bare: false,
  },
  {
    dimension: 'time',
    noun: 'a time',
    units: [
      unit('s', 0, 'sec|secs|second|seconds|S'),
      unit('ms', -3, 'msec|millisecond|milliseconds'),
      unit('min', 0, 'mins|minute|minutes', 60),
      unit('h', 0, 'hr|hrs|hour|hours|H', 3600),
      unit('days', 0, 'd|day', 86_400),
    ],
    offered: ['s', 'min', 'h', 'days'],
    example: '15 s',
    least: 0,
    bare: false,
  },
  {
    dimension: 'share',
    noun: 'a share',
    units: [unit('%', -2, 'percent|per cent|pct')],
    offered: ['%'],
    example: '88 %',
    least: 0,
    bare: true,
  },
  {
    dimension: 'factor',
    noun: 'a factor',
    units: [unit('x', 0, '×|times')],
    offered: ['x'],
    example: '0.8 or x6',
    least: 0,
    bare: true,
  },
  {
    dimension: 'mass',
    noun: 'a mass',
    units: [
      unit('kg', 0, 'kilogram|kilograms|Kg|KG'),
      unit('g', -3, 'gram|grams'),
      unit('lb', 0, 'lbs|pound|pounds', POUND_KG),
    ],
    offered: ['kg', 'g', 'lb'],
    example: '23 kg',
    least: 0,
    bare: false,
  },
  {
    dimension: 'torque',
    noun: 'a torque',
    units: [
      unit('N·m', 0, 'Nm|N.m|N m|N-m|nm|newton metres'),
      unit('lb·in', 0, 'lb-in|lb in|lbf·in|lbf-in|lbf in|in-lb|in·lb|in lb|in-lbs', POUND_FORCE_INCH_NM),
      unit('lb·ft', 0, 'lb-ft|lb ft|lbf·ft|lbf-ft|lbf ft|ft-lb|ft·lb|ft lb|ft-lbs', POUND_FORCE_FOOT_NM),
    ],
    offered: ['N·m', 'lb·in', 'lb·ft'],
    example: '10 N·m',
    least: 0,
    bare: false,
  },
];

const BY_DIMENSION: ReadonlyMap<Dimension, DimensionInfo> = new Map(
  TABLE.map((info) => [info.dimension, info]),
);

function spellingMap(info: DimensionInfo): ReadonlyMap<string, Unit> {
  const map = new Map<string, Unit>();
  for (const u of info.units) for (const name of [u.symbol, ...u.spellings]) map.set(name, u);
  return map;
}

const SPELLINGS: ReadonlyMap<Dimension, ReadonlyMap<string, Unit>> = new Map(
  TABLE.map((info) => [info.dimension, spellingMap(info)]),
);

/** All dimensions, in a fixed order. */
export const dimensions: readonly Dimension[] = TABLE.map((info) => info.dimension);

/** What is known of a dimension. */
export function dimensionInfo(dimension: Dimension): DimensionInfo {
  const info = BY_DIMENSION.get(dimension);
  if (info === undefined) throw new RangeError(`no dimension "${dimension}"`);
  return info;
}

/**
 * Symbol of the unit in which values of the dimension are stored (`mm²`, `°C`, `Ah`, else SI); empty for share
 * and factor.
 */
export function baseUnit(dimension: Dimension): string {
  const info = dimensionInfo(dimension);
  return info.bare ? '' : (info.units[0]?.symbol ?? '');
}

/** The unit of that spelling, compared exactly (case matters), or undefined. */
export function findUnit(dimension: Dimension, spelling: string): Unit | undefined {
  return SPELLINGS.get(dimension)?.get(spelling);
}

/** The first dimension other than `except` in which the spelling is a unit. */
export function dimensionOfUnit(spelling: string, except: Dimension): DimensionInfo | undefined {
  return TABLE.find((info) => info.dimension !== except && SPELLINGS.get(info.dimension)?.has(spelling));
}

/** Every spelling accepted for a dimension; symbols first. */
export function spellingsOf(dimension: Dimension): readonly string[] {
  return [...(SPELLINGS.get(dimension)?.keys() ?? [])];
}
