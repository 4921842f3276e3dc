/** One drawing at a time: while one is laid out only the newest wish waits, and what was overtaken is dropped. */
import {
  makeDraughtsman,
  outlineMap,
  type DrawingSubject,
  type Order,
  type Screen,
  type View,
} from '@loomwright/engine';
import { keepOrder, orderAtHand, orderNow } from '../../../store/drawing-order.ts';
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
  const { subject, view } = wish;
  if (mayBeVehicle(wish)) {
    const vehicle = await draughtsman.vehicle(subject, { thoroughness: 7 });
    if (vehicle !== null) return { view, form: 'vehicle', subject, map: null, ...sized(vehicle.svg) };
  }
  return await onSheet(wish);
}

/** Large builds are never drawn as the vehicle. */
const mayBeVehicle = ({ subject, view, sheet }: Wish): boolean =>
  view === 'all' && !sheet && draughtsman.mayBeVehicle(subject);

const MAP_WIDTH = 60;
const MODE = 'slim';

async function onSheet({ subject, view, tidy }: Wish): Promise<Drawn> {
  const screen = await draughtsman.screen(subject, { view, mode: MODE, tidy }, await orderNow());
  return taken(subject, screen);
}

/** The sheet on screen, for the words of the next edit, and the order that was kept with it. */
let last: { readonly screen: Screen; readonly order: Order | null } | null = null;

function taken(subject: DrawingSubject, screen: Screen): Drawn {
  keepOrder(screen.order);
  last = { screen, order: orderAtHand() };
  return onScreen(subject, screen);
}

function onScreen(subject: DrawingSubject, screen: Screen): Drawn {
  const map = outlineMap(subject, { width: MAP_WIDTH, prefix: 'map-' });
  return { view: screen.view, form: 'sheet', subject, map, ...sized(screen.svg) };
}

/**
 * What can be drawn of a wish without laying anything out: the final drawing where nothing moves, else the new words on the old
 * positions. null: nothing of it is known yet, or it is no sheet.
 */
export function drawNow(wish: Wish): { readonly drawn: Drawn; readonly final: boolean } | null {
  const { subject, view, tidy } = wish;
  const kept = orderAtHand();
  // Another order is at hand: of another build, or as a person wants it.
  if (last === null || kept === null || last.order !== kept) return null;
  if (last.screen.view !== view || tidy || mayBeVehicle(wish)) return null;
  const screen = running ? null : draughtsman.screenNow(subject, { view, mode: MODE }, kept);
  if (screen !== null) return { drawn: taken(subject, screen), final: true };
  const early = draughtsman.atOnce(subject, last.screen, { view, mode: MODE });
  return { drawn: onScreen(subject, early), final: false };
}

function sized(svg: string): Pick<Drawn, 'svg' | 'width' | 'height'> {
  const [width = 1, height = 1] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)?.slice(1).map(Number) ?? [];
  return { svg: withoutStyles(svg), width, height };
}

/** The server's content policy lets no style attribute in; the style sheet says the same. Words are escaped, so only tags match. */
export const withoutStyles = (svg: string): string => svg.replaceAll(/ style="[^"]*"/g, '');
