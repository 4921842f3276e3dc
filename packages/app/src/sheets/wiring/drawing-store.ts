/**
 * The drawing of the build on the desk, kept beside the screens: an edit is drawn from the moment its text is there, not only when
 * the screens have been drawn anew. The old drawing stands until the new one is there.
 */
import type { DrawingSubject, View } from '@loomwright/engine';
import { buildStore, onView, reader, subjectAtHand } from '../../build-store.ts';
import { orderStore } from '../../store/drawing-order.ts';
import { Store } from '../../store/store.ts';
import { draw, drawNow, type Drawn } from './drawing/newest-drawing.ts';

export interface DrawingNow {
  readonly drawn: Drawn | null;
  readonly subject: DrawingSubject | null;
}

export const drawingStore = new Store<DrawingNow>({ drawn: null, subject: null });

/** What is wanted by the screen that shows the drawing; null: none does. */
interface Wanted {
  readonly view: View;
  /** Never the vehicle. */
  readonly sheet: boolean;
}

let wanted: Wanted | null = null;
/** The text, and the size of its `auto` wires, whose subject was asked for last. */
let asked: string | null = null;

/** Draws what is wanted from now on; `tidy`: laid out afresh. */
export function want(next: Wanted | null, tidy = false): void {
  wanted = next;
  onView.drawing = next !== null;
  if (next === null) return;
  const { subject } = drawingStore.get();
  follow();
  if (subject !== null) void show(subject, next, tidy);
}

buildStore.watch(follow);
orderStore.watch(() => {
  const { subject } = drawingStore.get();
  if (subject !== null && wanted !== null) void show(subject, wanted, false);
});

function follow(): void {
  if (wanted === null) return;
  const { text, readable, judged } = buildStore.get();
  if (text === null) {
    asked = null;
    if (drawingStore.get().subject !== null) drawingStore.set({ drawn: null, subject: null });
  }
  if (text === null || !readable) return;
  const auto = judged?.auto?.size.text ?? null;
  const key = `${auto ?? ''}\n${text}`;
  if (key === asked) return;
  asked = key;
  const read = subjectAtHand(text, auto);
  if (read !== null) {
    void show(read, wanted, false);
    return;
  }
  void reader.ask.subject(text, auto).then((found) => {
    if (asked === key && found !== null && wanted !== null) void show(found, wanted, false);
  });
}

/** On the old positions at once, then as it is laid out. */
async function show(subject: DrawingSubject, { view, sheet }: Wanted, tidy: boolean): Promise<void> {
  const wish = { subject, view, sheet, tidy };
  const early = drawNow(wish);
  drawingStore.set(early === null ? { subject } : { subject, drawn: early.drawn });
  if (early?.final === true) return;
  const made = await draw(wish);
  if (made !== null && drawingStore.get().subject === subject) drawingStore.set({ drawn: made });
}
