/** The room's public door: draws a build for paper and for a screen. The layout library is handed in; nothing else is needed. */
import type { Id } from '../contracts/index.ts';
import { makeBook, wiresOf, type Book, type BookOptions } from './book.ts';
import { banded, type Banded } from './page/bands.ts';
import { printOnScreen } from './page/print.ts';
import { withView, NO_ORDER, type Order } from './order.ts';
import type { Elk } from './sheet/elk.ts';
import { orderOf, type Kept, type LayoutOptions } from './sheet/layout.ts';
import { makeModel } from './sheet/make.ts';
import { makeLayouts } from './sheet/memo.ts';
import type { Mode, SheetModel } from './sheet/model.ts';
import type { Picture } from './sheet/picture.ts';
import { reworded } from './sheet/refit.ts';
import type { Subject, View } from './subject.ts';
import { outlineMap } from './vehicle/map.ts';
import { printVehicle } from './vehicle/print.ts';
import { mayBeVehicle, vehicleView, type VehicleView } from './vehicle/view.ts';

export interface Draughtsman {
  /** All pages on paper. */
  book(subject: Subject, options: BookOptions, order?: Order | null): Promise<Book>;
  /** One view as large as it is. */
  screen(subject: Subject, options: ScreenOptions, order?: Order | null): Promise<Screen>;
  /**
   * A screen with the words of an edited build on its old positions, at once and without the layout library: parts and wires that
   * are gone are left out, new ones come with the next `screen`.
   */
  atOnce(subject: Subject, screen: Screen, options: ScreenOptions): Screen;
  /** The same as `screen` where nothing has to be laid out for it; else null. */
  screenNow(subject: Subject, options: ScreenOptions, order?: Order | null): Screen | null;
  /** The outline with the parts where they sit and all wires; null when the build does not fit it cleanly. */
  vehicle(subject: Subject, options?: VehicleOptions): Promise<Vehicle | null>;
  /** False: it has too many wires to be drawn in the outline. */
  mayBeVehicle(subject: Subject): boolean;
  /** The vehicle view where it fits, else the sheet of all wires and the small outline that heads it as its map. */
  overview(subject: Subject, options?: VehicleOptions, order?: Order | null): Promise<Overview>;
  /** How often the layout library was run so far. */
  readonly runs: number;
}

export interface ScreenOptions {
  readonly view: View;
  readonly mode?: Mode;
  /** 7 while editing, 3 in a kept order where wires are dense (default), 20 to tidy. */
  readonly thoroughness?: number;
  /** Lay out afresh, in the best of three orders, whatever is stored. */
  readonly tidy?: boolean;
  /** Before every id, where two drawings share a document. */
  readonly prefix?: string;
}

export interface Screen {
  readonly view: View;
  readonly page: Banded;
  readonly svg: string;
  readonly order: Order;
}

export interface VehicleOptions {
  readonly thoroughness?: number;
  readonly prefix?: string;
}

export interface Vehicle {
  readonly view: VehicleView;
  readonly svg: string;
}

export type Overview =
  | { readonly type: 'vehicle'; readonly vehicle: Vehicle }
  | { readonly type: 'sheet'; readonly map: string; readonly screen: Screen };

/** Width of the outline that heads a sheet, mm. */
const MAP_WIDTH = 90;
const TIDY = 20;
/** While editing; in a kept order of many more wires than parts each further try costs much and finds next to nothing. */
const EDITING = { plain: 7, dense: 3 } as const;
/** Wires to a part. */
const DENSE = 1.25;
const SCREEN_AIR = 2.5;
const NOTHING: ReadonlyMap<Id, string> = new Map();

export function makeDraughtsman(elk: Elk): Draughtsman {
  const layouts = makeLayouts(elk);
  const draughtsman: Draughtsman = {
    vehicle: async (subject, { thoroughness = TIDY, prefix = '' } = {}) => {
      const view = await vehicleView(subject, layouts, thoroughness);
      return view === null ? null : { view, svg: printVehicle(view, subject, prefix) };
    },
    mayBeVehicle,
    overview: async (subject, options = {}, order = null) => {
      const vehicle = await draughtsman.vehicle(subject, options);
      if (vehicle !== null) return { type: 'vehicle', vehicle };
      const prefix = options.prefix ?? '';
      const map = outlineMap(subject, { width: MAP_WIDTH, prefix });
      return {
        type: 'sheet',
        map,
        screen: await draughtsman.screen(subject, { view: 'all', ...options }, order),
      };
    },
    book: (subject, options, order = null) => makeBook(subject, layouts, options, order),
    screenNow: (subject, options, order = null) => {
      const { model, layout } = asked(subject, options, order);
      const picture = layouts.standing(model, layout);
      return picture === null ? null : screenOf(picture, subject, options, order);
    },
    screen: async (subject, options, order = null) => {
      const { model, layout } = asked(subject, options, order);
      const picture = layouts.standing(model, layout) ?? (await layouts.layOut(model, layout));
      return screenOf(picture, subject, options, order);
    },
    atOnce: (subject, screen, { mode = 'wide', prefix = '' }) => {
      const { view } = screen;
      const model = makeModel(subject, wiresOf(subject, view), { mode, repeated: new Set() });
      const page = banded(reworded(screen.page.picture, model), subject);
      return { ...screen, page, svg: printOnScreen(page, { subject, view, references: NOTHING, prefix }) };
    },
    get runs() {
      return layouts.runs;
    },
  };
  return draughtsman;
}

interface Asked {
  readonly model: SheetModel;
  readonly layout: Omit<LayoutOptions, 'elk'>;
}

function asked(subject: Subject, options: ScreenOptions, order: Order | null): Asked {
  const { view, mode = 'wide', tidy = false } = options;
  const model = makeModel(subject, wiresOf(subject, view), { mode, repeated: new Set() });
  const kept = keptIn(options, order);
  const dense = kept !== null && model.edges.length > DENSE * model.nodes.length;
  const editing = dense ? EDITING.dense : EDITING.plain;
  return {
    model,
    layout: {
      air: SCREEN_AIR,
      thoroughness: options.thoroughness ?? (tidy ? TIDY : editing),
      orders: tidy ? 3 : 1,
      kept,
    },
  };
}

const keptIn = ({ view, tidy = false }: ScreenOptions, order: Order | null): Kept | null =>
  tidy ? null : (order?.views[view]?.screen ?? null);

function screenOf(picture: Picture, subject: Subject, options: ScreenOptions, order: Order | null): Screen {
  const { view, prefix = '' } = options;
  const page = banded(picture, subject);
  const svg = printOnScreen(page, { subject, view, references: NOTHING, prefix });
  return {
    view,
    page,
    svg,
    order: withView(order ?? NO_ORDER, view, { screen: orderOf(picture, keptIn(options, order)) }),
  };
}
