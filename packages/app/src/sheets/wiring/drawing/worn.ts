/** What groups of a drawing wear beside what was drawn, so that what would be dressed the same is left alone. */

/** How groups are dressed now, in words. */
const dressed = new WeakMap<Element, string>();

/** False where it wears just that already; else it is bare now, and to be dressed. Empty words: it wears nothing. */
export function dressesAnew(group: Element, words: string): boolean {
  if ((dressed.get(group) ?? '') === words) return false;
  undress(group);
  dressed.set(group, words);
  return true;
}

/** As it was drawn, to be measured: without `.worn` elements and styles of its letters. */
export function undress(group: Element): void {
  if (!dressed.delete(group)) return;
  for (const worn of group.querySelectorAll('.worn')) worn.remove();
  for (const text of group.querySelectorAll('text[style]')) text.removeAttribute('style');
}
