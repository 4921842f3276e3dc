/** Draws builds for the screen: at once what nothing has to be laid out for, the rest once the layout library has done its part. */
import {
  makeDraughtsman,
  type Book,
  type BookOptions,
  type DrawingSubject,
  type Elk,
  type Order,
  type Screen,
  type View,
} from '@loomwright/engine';
import { cut, withoutStyles, type Cut } from './cut.ts';

/** What a screen wants to show of a build. */
export interface DrawWish {
  readonly view: View;
  /** The sheet is wanted even where the vehicle would do. */
  readonly sheet: boolean;
  /** The size of `auto` wires, where one is known. */
  readonly auto: string | null;
  /** The order that is kept of its drawing; null: none is known. */
  readonly order: Order | null;
}

export interface Drawn {
  readonly view: View;
  /** The vehicle with its parts where they sit, or the sheet of places side by side. */
  readonly form: 'vehicle' | 'sheet';
  readonly cut: Cut;
  readonly width: number;
  readonly height: number;
  /** It shows at least one wire. */
  readonly wired: boolean;
  readonly subject: DrawingSubject;
  /** The order it was laid out in, to be kept; null: it is no sheet, or stands on the positions of the drawing before. */
  readonly order: Order | null;
}

/** What there is of a drawing before anything is laid out. */
export interface Sketch {
  readonly subject: DrawingSubject;
  /** The final drawing where nothing moves, else the new words on the old positions; null: there is nothing to go by. */
  readonly drawn: Drawn | null;
  readonly final: boolean;
}

interface Sketched {
  readonly sketch: Sketch;
  readonly keep: () => void;
}

/** What a sketch depends on. */
interface SketchOf extends Pick<DrawWish, 'view' | 'sheet'> {
  readonly subject: DrawingSubject;
  readonly order: string;
  readonly last: unknown;
}

const alike = (a: SketchOf, b: SketchOf): boolean =>
  a.subject === b.subject &&
  a.view === b.view &&
  a.sheet === b.sheet &&
  a.order === b.order &&
  a.last === b.last;

const MODE = 'slim';
/** While editing. */
const THOROUGHNESS = 7;

export class Drawer {
  readonly #draughtsman: ReturnType<typeof makeDraughtsman>;
  /** The sheet on screen, for the words of the next edit, and the order that is kept of it, as text. */
  #last: { readonly screen: Screen; readonly order: string } | null = null;
  /** What was sketched last. */
  #sketched: { readonly of: SketchOf; readonly made: Sketched } | null = null;
  #running = 0;

  constructor(elk: Elk) {
    this.#draughtsman = makeDraughtsman(elk);
  }

  /** A sketch, and what makes it the drawing on screen; until then nothing is remembered of it but that it was made. */
  sketch(subject: DrawingSubject, wish: DrawWish): Sketched {
    const { view, sheet } = wish;
    const of = { subject, view, sheet, order: JSON.stringify(wish.order), last: this.#last };
    const known = this.#sketched;
    if (known !== null && this.#running === 0 && alike(known.of, of)) return known.made;
    const made = this.#sketch(subject, wish, of.order);
    this.#sketched = this.#running === 0 ? { of, made } : null;
    return made;
  }

  #sketch(subject: DrawingSubject, wish: DrawWish, kept: string): Sketched {
    const { view, order } = wish;
    const last = this.#last;
    const nothing = { sketch: { subject, drawn: null, final: false }, keep: () => undefined };
    // Another order is at hand: of another build, or as a person wants it.
    if (last === null || order === null || last.order !== kept) return nothing;
    if (last.screen.view !== view || this.#mayBeVehicle(subject, wish)) return nothing;
    const screen =
      this.#running > 0 ? null : this.#draughtsman.screenNow(subject, { view, mode: MODE }, order);
    if (screen !== null)
      return {
        sketch: { subject, drawn: onScreen(subject, screen, screen.order), final: true },
        keep: () => this.#keep(screen),
      };
    const early = this.#draughtsman.atOnce(subject, last.screen, { view, mode: MODE });
    return {
      sketch: { subject, drawn: onScreen(subject, early, null), final: false },
      keep: () => undefined,
    };
  }

  /** The drawing as it is laid out; `tidy`: afresh. */
  async draw(subject: DrawingSubject, wish: DrawWish, tidy: boolean): Promise<Drawn> {
    this.#running += 1;
    try {
      if (this.#mayBeVehicle(subject, wish)) {
        const vehicle = await this.#draughtsman.vehicle(subject, { thoroughness: THOROUGHNESS });
        if (vehicle !== null)
          return { view: wish.view, form: 'vehicle', subject, order: null, ...printed(vehicle.svg) };
      }
      const { view, order } = wish;
      const screen = await this.#draughtsman.screen(subject, { view, mode: MODE, tidy }, order);
      this.#keep(screen);
      return onScreen(subject, screen, screen.order);
    } finally {
      this.#running -= 1;
    }
  }

  async book(subject: DrawingSubject, options: BookOptions): Promise<Book> {
    return await this.#draughtsman.book(subject, options);
  }

  /** Large builds are never drawn as the vehicle. */
  #mayBeVehicle(subject: DrawingSubject, { view, sheet }: DrawWish): boolean {
    return view === 'all' && !sheet && this.#draughtsman.mayBeVehicle(subject);
  }

  #keep(screen: Screen): void {
    this.#last = { screen, order: JSON.stringify(screen.order) };
  }
}

const onScreen = (subject: DrawingSubject, screen: Screen, order: Order | null): Drawn => ({
  view: screen.view,
  form: 'sheet',
  subject,
  order,
  ...printed(screen.svg),
});

function printed(svg: string): Pick<Drawn, 'cut' | 'width' | 'height' | 'wired'> {
  const [width = 1, height = 1] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)?.slice(1).map(Number) ?? [];
  return { cut: cut(withoutStyles(svg)), width, height, wired: svg.includes('data-wire') };
}
