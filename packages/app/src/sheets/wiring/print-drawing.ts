/** The drawing on paper: its pages laid out for the sheet size, handed to the browser's own printing. */
import { draftReason, type DrawingSubject, type Finding } from '@loomwright/engine';
import { draughtsman, withoutStyles } from './drawing/newest-drawing.ts';
import { own } from './words.ts';

/** Letter in North America, A4 elsewhere. `findings`: null: those of this build are not all there yet, and its paper is a draft. */
export async function printDrawing(
  subject: DrawingSubject,
  findings: readonly Finding[] | null,
): Promise<void> {
  const paper = subject.practice === 'North America' ? 'Letter' : 'A4';
  const book = await draughtsman.book(subject, {
    paper,
    views: ['power', 'control', 'negative'],
    date: new Date().toISOString().slice(0, 10),
    draft: findings === null ? own.notJudged : draftReason(findings),
  });
  document.querySelector('.print-pages')?.remove();
  const pages = document.createElement('div');
  pages.className = 'print-pages';
  pages.innerHTML = book.pages
    .map((page) => `<div class="print-page">${withoutStyles(page.svg)}</div>`)
    .join('');
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
