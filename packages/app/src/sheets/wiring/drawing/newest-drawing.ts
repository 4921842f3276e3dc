/** One drawing at a time: while one is laid out only the newest wish waits, and what was overtaken is dropped. */
import { makeDraughtsman, type DrawingSubject, type Order, type View } from '@loomwright/engine';
import { elk } from './elk.ts';

export interface Drawn {
  readonly view: View;
  readonly svg: string;
  readonly width: number;
  readonly height: number;
  readonly subject: DrawingSubject;
}

export interface Wish {
  readonly subject: DrawingSubject;
  readonly view: View;
  /** Lay out afresh. */
  readonly tidy: boolean;
}

const draughtsman = makeDraughtsman(elk);
/** Order of the drawings so far, so that a small edit moves little. */
let order: Order | null = null;
/** Title of the build that the order belongs to. */
let orderOf = '';

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

async function drawn({ subject, view, tidy }: Wish): Promise<Drawn> {
  if (orderOf !== subject.title) {
    order = null;
    orderOf = subject.title;
  }
  const screen = await draughtsman.screen(subject, { view, mode: 'slim', tidy }, order);
  ({ order } = screen);
  const [width = 1, height = 1] =
    /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(screen.svg)?.slice(1).map(Number) ?? [];
  return { view, svg: screen.svg, width, height, subject };
}
