/** One drawing at a time: while one is laid out only the newest wish waits, and what was overtaken is dropped. */
import { makeDraughtsman, outlineMap, type DrawingSubject, type View } from '@loomwright/engine';
import { keepOrder, orderNow } from '../../../store/drawing-order.ts';
import { elk } from './elk.ts';

export interface Drawn {
  readonly view: View;
  /** The vehicle with its parts where they sit, or the sheet of places side by side. */
  readonly form: 'vehicle' | 'sheet';
  readonly svg: string;
  readonly width: number;
  readonly height: number;
  /** The small outline with the places, as a map of the sheet; null where the drawing is the vehicle itself. */
  readonly map: string | null;
  readonly subject: DrawingSubject;
}

export interface Wish {
  readonly subject: DrawingSubject;
  readonly view: View;
  /** The sheet is wanted even where the vehicle would do. */
  readonly sheet: boolean;
  /** Lay out afresh. */
  readonly tidy: boolean;
}

export const draughtsman = makeDraughtsman(elk);
let running = false;
let waiting: { readonly wish: Wish; readonly done: (drawn: Drawn | null) => void } | null = null;

/** null: a newer one was asked for meanwhile. */
export function draw(wish: Wish): Promise<Drawn | null> {
  return new Promise((done, failed) => {
    waiting?.done(null);
    waiting = { wish, done };
    if (!running) next().catch(failed);
  });
}

async function next(): Promise<void> {
  running = true;
  try {
    for (let now = waiting; now !== null; now = waiting) {
      waiting = null;
      now.done(await drawn(now.wish));
    }
  } finally {
    running = false;
  }
}

async function drawn(wish: Wish): Promise<Drawn> {
  const { subject, view, sheet } = wish;
  if (view === 'all' && !sheet) {
    const vehicle = await draughtsman.vehicle(subject, { thoroughness: 7 });
    if (vehicle !== null) return { view, form: 'vehicle', subject, map: null, ...sized(vehicle.svg) };
  }
  return await onSheet(wish);
}

const MAP_WIDTH = 60;

async function onSheet({ subject, view, tidy }: Wish): Promise<Drawn> {
  const screen = await draughtsman.screen(subject, { view, mode: 'slim', tidy }, await orderNow());
  keepOrder(screen.order);
  const map = outlineMap(subject, { width: MAP_WIDTH, prefix: 'map-' });
  return { view, form: 'sheet', subject, map, ...sized(screen.svg) };
}

function sized(svg: string): Pick<Drawn, 'svg' | 'width' | 'height'> {
  const [width = 1, height = 1] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)?.slice(1).map(Number) ?? [];
  return { svg: withoutStyles(svg), width, height };
}

/** The server's content policy lets no style attribute in; the style sheet says the same. Words are escaped, so only tags match. */
export const withoutStyles = (svg: string): string => svg.replaceAll(/ style="[^"]*"/g, '');
