/** The drawing on paper: its pages laid out for the sheet size, handed to the browser's own printing. */
import { draftReason, type Finding } from '@loomwright/engine';
import { buildStore, reader } from '../../build-store.ts';
import { own } from './words.ts';

/** Letter in North America, A4 elsewhere. `findings`: null: those of this build are not all there yet, and its paper is a draft. */
export async function printDrawing(practice: string, findings: readonly Finding[] | null): Promise<void> {
  const { readableText, judged } = buildStore.get();
  if (readableText === null) return;
  const paper = practice === 'North America' ? 'Letter' : 'A4';
  const book = await reader.ask.book(readableText, judged?.auto?.size.text ?? null, {
    paper,
    views: ['power', 'control', 'negative'],
    date: new Date().toISOString().slice(0, 10),
    draft: findings === null ? own.notJudged : draftReason(findings),
  });
  document.querySelector('.print-pages')?.remove();
  const pages = document.createElement('div');
  pages.className = 'print-pages';
  pages.innerHTML = book.map((page) => `<div class="print-page">${page}</div>`).join('');
  // A constructed sheet: the page's policy allows no inline style.
  const size = new CSSStyleSheet();
  size.replaceSync(`@page { size: ${paper} landscape; margin: 0 }`);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, size];
  document.body.append(pages);
  window.addEventListener(
    'afterprint',
    () => {
      pages.remove();
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== size);
    },
    { once: true },
  );
  window.print();
}
