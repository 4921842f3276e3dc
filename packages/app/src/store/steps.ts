/** Undo without limit: each step keeps only the stretch of text that it replaced. */
import type { Order } from '@loomwright/engine';

export interface Step {
  /** Where the stretch begins, in UTF-16 units. */
  readonly at: number;
  readonly was: string;
  readonly is: string;
  /** What was done, in few words. */
  readonly says: string;
  /** The order of a drawing before and after; the text stays the same. */
  readonly order?: { readonly was: Order; readonly is: Order };
}

/** The step from one text to the next. */
export function stepBetween(before: string, after: string, says: string): Step {
  const most = Math.min(before.length, after.length);
  let at = 0;
  while (at < most && before[at] === after[at]) at += 1;
  let end = 0;
  while (end < most - at && before.at(-1 - end) === after.at(-1 - end)) end += 1;
  return { at, was: before.slice(at, before.length - end), is: after.slice(at, after.length - end), says };
}

export const stepBack = (text: string, { at, was, is }: Step): string =>
  text.slice(0, at) + was + text.slice(at + is.length);

export const stepForth = (text: string, { at, was, is }: Step): string =>
  text.slice(0, at) + is + text.slice(at + was.length);
