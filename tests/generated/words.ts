/** How the generated lists print values, bands and provenance. */
import type { Prov, Sourced } from '../../packages/engine/src/contracts/index.ts';

export const PROVENANCE: Readonly<Record<Prov, string>> = {
  given: 'given',
  confirmed: 'confirmed',
  seen: 'seen',
  computed: 'computed',
  practice: 'common practice, no source',
  memory: 'from memory, not confirmed',
};

/** Six significant digits, without an exponent where people read none. */
export function digits(value: number): string {
  if (!Number.isFinite(value)) return value > 0 ? 'without end' : 'without end, negative';
  return String(Number(value.toPrecision(6)));
}

/** Units that are printed small: 0.0001 Ω is read as 0.1 mΩ. */
const SMALL: Readonly<Record<string, readonly [string, number]>> = { Ω: ['mΩ', 1000] };

export function printed(sourced: Sourced): { readonly value: string; readonly band: string } {
  const small = SMALL[sourced.unit];
  const [unit, factor] = small !== undefined && Math.abs(sourced.value) < 1 ? small : [sourced.unit, 1];
  const with_ = (text: string): string => (unit === '' ? text : `${text} ${unit}`);
  const value = with_(digits(sourced.value * factor));
  if (sourced.band === undefined) return { value, band: '' };
  const [low, high] = sourced.band;
  return { value, band: with_(`${digits(low * factor)} to ${digits(high * factor)}`) };
}

/** A cell of a Markdown table. */
export const cell = (text: string): string => text.replaceAll('|', '\\|').replaceAll(/\s*\n\s*/g, ' ');

export const row = (...cells: readonly string[]): string => `| ${cells.map(cell).join(' | ')} |`;

export const table = (head: readonly string[], rows: readonly string[]): readonly string[] =>
  rows.length === 0 ? [] : [row(...head), row(...head.map(() => '---')), ...rows, ''];
