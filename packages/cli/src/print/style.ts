/** Emphasis on terminals. Colour never says anything that words do not say as well. */
import type { Verdict } from '@loomwright/engine';
import type { Host } from '../host.ts';

export interface Style {
  readonly bold: (text: string) => string;
  readonly dim: (text: string) => string;
  readonly verdict: (verdict: Verdict, text: string) => string;
}

const plain = (text: string) => text;

/** No emphasis: for files, pipes, and people who asked for none. */
export const PLAIN: Style = { bold: plain, dim: plain, verdict: (_, text) => text };

const sgr = (code: string) => (text: string) => (text === '' ? '' : `\u001B[${code}m${text}\u001B[0m`);

const VERDICT_CODES: Readonly<Record<Verdict, string>> = {
  danger: '1;31',
  fault: '1;35',
  open: '1;33',
  advice: '36',
  met: '32',
};

const COLOURED: Style = {
  bold: sgr('1'),
  dim: sgr('2'),
  verdict: (verdict, text) => sgr(VERDICT_CODES[verdict])(text),
};

/** Colour only on a terminal that can show it, and never where NO_COLOR is set. */
export function styleFor(host: Pick<Host, 'env' | 'outIsTerminal'>): Style {
  const refused = (host.env['NO_COLOR'] ?? '') !== '' || host.env['TERM'] === 'dumb';
  return host.outIsTerminal && !refused ? COLOURED : PLAIN;
}

const LEAST_WIDTH = 30;
const READABLE = 100;
const PAPER = 80;

/** Columns to write in: asked for, the terminal's (never over 100), else 80. */
export function widthFor(host: Pick<Host, 'columns' | 'env'>, asked: number | null): number {
  if (asked !== null) return Math.max(LEAST_WIDTH, asked);
  const found = host.columns ?? Number(host.env['COLUMNS'] ?? Number.NaN);
  if (!Number.isFinite(found) || found <= 0) return PAPER;
  return Math.max(LEAST_WIDTH, Math.min(READABLE, Math.floor(found)));
}
