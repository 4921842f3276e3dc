/** What is asked about drawings: they are made beside the screen, which gets finished markup. */
import type { BookOptions, Elk } from '@loomwright/engine';
import { withoutStyles } from './cut.ts';
import { Drawer, type Drawn, type DrawWish, type Sketch } from './drawer.ts';
import { sized } from './sized.ts';
import type { Sessions } from './sessions.ts';

/** Of a text that can be read: its sketch, and what makes it the drawing on screen. */
export type Sketching = (
  text: string,
  wish: DrawWish,
) => { readonly sketch: Sketch; readonly keep: () => void };

export function drawingDesk(sessions: Sessions) {
  let library: Elk | null = null;
  const drawer = new Drawer(async (graph) => {
    if (library === null) throw new Error('there is no layout library to draw with');
    return await library(graph);
  });
  const subjectOf = (text: string, auto: string | null) => sized(sessions, text, auto).subject();
  const sketching: Sketching = (text, wish) => drawer.sketch(subjectOf(text, wish.auto), wish);
  return {
    sketching,
    asked: {
      /** Hands in the layout library, once, before anything is drawn. */
      layOutBy(elk: Elk): void {
        library = elk;
      },

      /** What can be drawn of a text at once; null: it has errors. */
      sketch(text: string, wish: DrawWish): Sketch | null {
        if (sessions.of(text).build === null) return null;
        const { sketch, keep } = sketching(text, wish);
        keep();
        return sketch;
      },

      /** A text as it is laid out; `tidy`: afresh. */
      draw: async (text: string, wish: DrawWish, tidy: boolean): Promise<Drawn> =>
        await drawer.draw(subjectOf(text, wish.auto), wish, tidy),

      /** Its pages on paper, as markup. */
      async book(text: string, auto: string | null, options: BookOptions): Promise<readonly string[]> {
        const { pages } = await drawer.book(subjectOf(text, auto), options);
        return pages.map((page) => withoutStyles(page.svg));
      },
    },
  };
}
