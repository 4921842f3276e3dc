/**
 * The drawing of the build on the desk, kept beside the screens: an edit is drawn from the moment its text is there, not only when
 * the screens have been drawn anew. The old drawing stands until the new one is there.
 */
import type { DrawingSubject, View } from '@loomwright/engine';
import { buildStore, onView, reader, sketchAtHand } from '../../build-store.ts';
import type { Drawn, DrawWish, Sketch } from '../../engine/drawer.ts';
import { keepOrder, orderAtHand, orderNow, orderStore } from '../../store/drawing-order.ts';
import { Store } from '../../store/store.ts';

export interface DrawingNow {
  readonly drawn: Drawn | null;
  readonly subject: DrawingSubject | null;
}

const NOTHING: DrawingNow = { drawn: null, subject: null };
export const drawingStore = new Store<DrawingNow>(NOTHING);

/** What is wanted by the screen that shows the drawing; null: none does. */
let wanted: Pick<DrawWish, 'view' | 'sheet'> | null = null;
/** The text that is drawn, and the size of its `auto` wires. */
let of: { readonly text: string; readonly auto: string | null } | null = null;
/** Rises with each question about a drawing: what was overtaken is dropped. */
let turn = 0;

/** Draws what is wanted from now on; `tidy`: laid out afresh. */
export function want(next: { readonly view: View; readonly sheet: boolean } | null, tidy = false): void {
  wanted = next;
  onView.wish = next === null ? null : () => ({ ...next, order: orderAtHand() });
  if (next === null) return;
  const known = drawingStore.get().subject !== null;
  // It may have been asked for by a screen that is gone.
  if (!known) of = null;
  follow();
  if (known) void layOut(tidy);
}

buildStore.watch(follow);
orderStore.watch(() => {
  if (drawingStore.get().subject !== null) void layOut(false);
});

function follow(): void {
  if (wanted === null) return;
  const { text, readable, judged } = buildStore.get();
  if (text === null) {
    if (of === null) return;
    [of, turn] = [null, turn + 1];
    drawingStore.set(NOTHING);
    return;
  }
  const auto = judged?.auto?.size.text ?? null;
  if (!readable || (of?.text === text && of.auto === auto)) return;
  of = { text, auto };
  turn += 1;
  const own = turn;
  const sketch = sketchAtHand(text, { ...wanted, auto });
  if (sketch !== null) {
    take(sketch);
    return;
  }
  void reader.ask.sketch(text, { ...wanted, auto, order: orderAtHand() }).then((found) => {
    if (found !== null && own === turn) take(found);
  });
}

/** On the old positions at once, then as it is laid out. */
function take({ subject, drawn, final }: Sketch): void {
  drawingStore.set(drawn === null ? { subject } : { subject, drawn });
  if (drawn !== null && drawn.order !== null) keepOrder(drawn.order);
  if (!final) void layOut(false);
}

let running: Promise<unknown> = Promise.resolve();

/** One after the other: while one is laid out only the newest waits. */
async function layOut(tidy: boolean): Promise<void> {
  turn += 1;
  const own = turn;
  const order = await orderNow();
  const made = running.then(async () => {
    if (own !== turn || of === null || wanted === null) return null;
    const { text, auto } = of;
    const { view, sheet } = wanted;
    return await reader.ask.draw(text, { view, sheet, auto, order }, tidy);
  });
  running = made.catch(() => undefined);
  const drawn = await made;
  if (drawn === null || own !== turn) return;
  if (drawn.order !== null) keepOrder(drawn.order);
  drawingStore.set({ drawn, subject: drawn.subject });
}
