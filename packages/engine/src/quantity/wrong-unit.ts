/** Messages for units that do not belong. */
import { nearest } from './nearest.ts';
import { listed, quoted } from './text.ts';
import type { DimensionInfo } from './units.ts';
import { dimensionOfUnit, spellingsOf } from './units.ts';

const HINTS: Readonly<Record<string, string>> = {
  'time/m': 'm means metres: write min for minutes',
  'temperature/K': 'K is for differences: write a temperature in °C or °F',
  'temperature-difference/°C': '°C is for temperatures: write a difference in K',
  'temperature-difference/C': '°C is for temperatures: write a difference in K',
  'temperature-difference/°F': '°F is for temperatures: write a difference in K (9 °F are 5 K)',
  'area/mm': 'mm is a diameter or a length: write a copper cross-section in mm2',
  'charge/A': 'A is a current: write a capacity in Ah',
  'energy/W': 'W is a power: write an energy in Wh',
  'current/Ah': 'Ah is a capacity: write a current in A',
  'power/Wh': 'Wh is an energy: write a power in W',
};

/**
 * The sentence for a number whose unit is not one of its dimension: a hint for the usual slips, else what the
 * unit is a unit of,
 * else the nearest unit.
 */
export function wrongUnit(typed: string, rest: string, text: string, info: DimensionInfo): string {
  const hint = HINTS[`${info.dimension}/${rest}`];
  if (hint !== undefined) return `${quoted(text)}: ${hint}`;
  const other = dimensionOfUnit(rest, info.dimension);
  if (other !== undefined) {
    return `${quoted(text)} is ${other.noun}: ${info.noun} is expected, such as ${info.example}`;
  }
  const units = info.bare
    ? [typed, `${typed} ${info.offered[0] ?? ''}`]
    : info.offered.map((symbol) => `${typed} ${symbol}`);
  const near = nearest(rest, spellingsOf(info.dimension));
  const meant = near === undefined ? '' : ` (nearest: ${near})`;
  const noun = info.noun.replace(/^an? /, '');
  return `${quoted(text)}: "${rest}" is not a unit of ${noun}${meant}: write ${listed(units)}`;
}
