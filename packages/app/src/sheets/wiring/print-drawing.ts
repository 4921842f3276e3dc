/** The drawing on paper: its pages laid out for the sheet size, handed to the browser's own printing. */
import { draftReason, type DrawingSubject, type Finding } from '@loomwright/engine';
import { draughtsman } from './drawing/newest-drawing.ts';

/** Letter in North America, A4 elsewhere. */
export async function printDrawing(subject: DrawingSubject, findings: readonly Finding[]): Promise<void> {
  const paper = subject.practice === 'North America' ? 'Letter' : 'A4';
  const book = await draughtsman.book(subject, {
    paper,
    views: ['power', 'control', 'negative'],
    date: new Date().toISOString().slice(0, 10),
    draft: draftReason(findings),
  });
  document.querySelector('.print-pages')?.remove();
  const pages = document.createElement('div');
  pages.className = 'print-pages';
  pages.innerHTML = book.pages.map((page) => `<div class="print-page">${page.svg}</div>`).join('');
  const size = document.createElement('style');
  size.textContent = `@page { size: ${paper} landscape; margin: 0 }`;
  pages.append(size);
  document.body.append(pages);
  window.addEventListener('afterprint', () => pages.remove(), { once: true });
  window.print();
}
