/** Facts worth getting, and what a judgement rests on. */
import {
  basisOrigin,
  basisText,
  factText,
  groupBases,
  plural,
  sentence,
  type Basis,
  type BasisGroup,
  type Fact,
} from '@loomwright/engine';
import type { Page } from './page.ts';

const SHOWN = 3;

/** The facts most able to change a verdict, best first, at most `count`; `before` others are written already. */
export function writeFacts(page: Page, facts: readonly Fact[], count = SHOWN, before = 0): void {
  const best = facts.slice(0, count);
  if (best.length === 0) return;
  if (before === 0) page.heading('Worth getting next');
  best.forEach((fact, index) => {
    const { what, how, could } = factText(fact);
    page.text(`${before + index + 1}. ${sentence(what)}`, 0, 3);
    page.text([sentence(how), could].filter((text) => text !== '').join('; '), 3, 0);
  });
}

/** What was assumed: alike ones together, or every value with its band and origin. */
export function writeAssumed(
  page: Page,
  assumed: readonly Basis[],
  all: boolean,
  most = Number.POSITIVE_INFINITY,
): void {
  if (assumed.length === 0) return;
  page.heading(`Rests on ${plural(assumed.length, 'assumption', 'assumptions')}`);
  if (all) {
    for (const basis of assumed) writeBasis(page, basis);
    return;
  }
  const groups = groupBases(assumed);
  const shown = groups.slice(0, most).map(groupWords);
  const left = groups.slice(most).reduce((sum, group) => sum + group.count, 0);
  page.text(`${shown.join('; ')}${left > 0 ? `; and ${left} more` : ''}.`, 0, 2);
}

function groupWords({ label, amount, count }: BasisGroup): string {
  const many = count > 1 ? `, ${count} times` : '';
  return amount === '' ? `${label}${many}` : `${label}${many}${count > 1 ? ',' : ''} ${amount}`;
}

/** One value, where it comes from, and how it is had. */
export function writeBasis(page: Page, basis: Basis): void {
  page.text(sentence(basisText(basis)), 0, 2);
  page.text(basisOrigin(basis), 2, 0, page.style.dim);
}
