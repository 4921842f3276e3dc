/** The book of a build: its views cut into pages, with references from page to page, each page as SVG. */
import type { Id } from '../contracts/index.ts';
import { cut, deal, type Ground, type Piece } from './page/cut.ts';
import { fit, mayFit, type Fitted, type Fitting } from './page/fit.ts';
import { zoneOf, type Block } from './page/frame-ink.ts';
import { freeOn, PAPERS, type Paper } from './page/paper.ts';
import { columnsOf } from './page/predict.ts';
import { printOnPaper, settledOn, VIEW_TITLES } from './page/print.ts';
import type { Banded } from './page/bands.ts';
import { NO_ORDER, withView, type Order, type PageOrder, type ViewOrder } from './order.ts';
import { orderOf, type Kept } from './sheet/layout.ts';
import { byText, makeModel } from './sheet/make.ts';
import type { Layouts } from './sheet/memo.ts';
import { coreOf } from './sheet/picture.ts';
import type { Subject, View, WireView } from './subject.ts';

export interface BookOptions {
  readonly paper: Paper['name'];
  readonly views: readonly WireView[];
  /** As printed; the engine knows no clock. */
  readonly date: string;
  /** Why it is no more than a draft; null: it is none. */
  readonly draft: string | null;
  /** 20 for paper; less is faster and crosses more. */
  readonly thoroughness?: number;
}

export interface BookPage {
  readonly view: WireView;
  /** From 1. */
  readonly number: number;
  readonly mode: Fitted['mode'];
  /** Positions on the page, mm from its upper left corner. */
  readonly page: Banded;
  readonly svg: string;
  /** What stands beside parts that other pages show too. */
  readonly references: ReadonlyMap<Id, string>;
}

export interface Book {
  readonly pages: readonly BookPage[];
  /** To be stored with the build. */
  readonly order: Order;
}

export async function makeBook(
  subject: Subject,
  layouts: Layouts,
  options: BookOptions,
  stored: Order | null,
): Promise<Book> {
  const paper = PAPERS[options.paper];
  const free = freeOn(paper, options.draft !== null);
  const cutPages: { readonly view: WireView; readonly fitted: Fitted }[] = [];
  let order = stored ?? NO_ORDER;
  for (const view of options.views) {
    const wires = wiresOf(subject, view);
    if (wires.length === 0) continue;
    const fitting: Fitting = {
      subject,
      layouts,
      free,
      view: wires,
      thoroughness: options.thoroughness ?? 20,
    };
    const fitted = await pagesOf(fitting, stored?.views[view] ?? null, paper);
    order = withView(order, view, { paper: paper.name, pages: fitted.map(pageOrder) });
    cutPages.push(...fitted.map((each) => ({ view, fitted: each })));
  }
  return { pages: printed(subject, cutPages, options, paper), order };
}

export const wiresOf = (subject: Subject, view: View): Piece =>
  [...subject.wires.values()]
    .filter((wire) => view === 'all' || wire.view === view)
    .toSorted((a, b) => byText(a.id, b.id));

const pageOrder = ({ piece, page }: Fitted): PageOrder => ({
  wires: piece.map((wire) => wire.id),
  kept: orderOf(page.picture),
});

async function pagesOf(fitting: Fitting, stored: ViewOrder | null, paper: Paper): Promise<readonly Fitted[]> {
  if (stored?.pages !== undefined && stored.paper === paper.name) {
    const again = await asStored(stored.pages, fitting);
    if (again !== null) return again;
  }
  const ground = groundOf(fitting);
  const pages: Fitted[] = [];
  for (const piece of deal(fitting.view, ground)) pages.push(...(await laidOut(piece, fitting, ground)));
  return pages;
}

/** The piece as it was dealt; where the guess was wrong, cut once more. */
async function laidOut(piece: Piece, fitting: Fitting, ground: Ground): Promise<readonly Fitted[]> {
  const whole = await fit(piece, fitting, null, piece.length === 1);
  if (whole !== null) return [whole];
  const pages: Fitted[] = [];
  for (const half of cut(piece, ground)) pages.push(...(await laidOut(half, fitting, ground)));
  return pages;
}

function groundOf(fitting: Fitting): Ground {
  const model = makeModel(fitting.subject, fitting.view, { mode: 'wide', repeated: new Set() });
  const { layerOf } = columnsOf(model);
  const columns = new Map(
    model.nodes.map((node) => [node.id, 100 * node.place + (layerOf.get(node.id) ?? 0)]),
  );
  return {
    subject: fitting.subject,
    columnOf: (part) => columns.get(part) ?? 0,
    fits: (piece) => mayFit(piece, fitting),
  };
}

/** The cut of the stored order, with new wires where their parts are; null when a page no longer fits. */
async function asStored(stored: readonly PageOrder[], fitting: Fitting): Promise<readonly Fitted[] | null> {
  const pages: Fitted[] = [];
  for (const { piece, kept } of dealt(stored, fitting.view)) {
    const page = await fit(piece, fitting, kept, false);
    if (page === null) return null;
    pages.push(page);
  }
  return pages;
}

function dealt(
  stored: readonly PageOrder[],
  view: Piece,
): readonly { readonly piece: Piece; readonly kept: Kept }[] {
  const home = new Map<Id, number>();
  stored.forEach((page, i) => page.wires.forEach((id) => home.set(id, i)));
  const known = view.filter((wire) => home.has(wire.id));
  const partsOn = stored.map(
    (_page, i) => new Set(known.filter((w) => home.get(w.id) === i).flatMap((w) => [w.from.part, w.to.part])),
  );
  const pieces: Piece[] = stored.map(() => []);
  for (const wire of view) {
    const ends = [wire.from.part, wire.to.part];
    const score = (i: number): number => ends.filter((id) => partsOn[i]?.has(id) === true).length;
    const best = stored.map((_page, i) => i).toSorted((a, b) => score(b) - score(a) || a - b)[0] ?? 0;
    const at = home.get(wire.id) ?? best;
    pieces[at] = [...(pieces[at] ?? []), wire];
  }
  return pieces.flatMap((piece, i) => {
    const kept = stored[i]?.kept;
    return piece.length === 0 || kept === undefined ? [] : [{ piece, kept }];
  });
}

/** Prints the pages, once it is known where everything stands. */
function printed(
  subject: Subject,
  list: readonly { readonly view: WireView; readonly fitted: Fitted }[],
  options: BookOptions,
  paper: Paper,
): readonly BookPage[] {
  const free = freeOn(paper, options.draft !== null);
  const settled = list.map(({ view, fitted }, i) => ({
    view,
    fitted,
    number: i + 1,
    page: settledOn(fitted.page, free),
  }));
  return settled.map(({ view, fitted, number, page }) => {
    const others = settled.filter((each) => each.view === view && each.number !== number);
    const references = new Map(
      page.picture.nodes.flatMap(({ node }) => {
        const seen = others.flatMap((other) => zoneIn(other, node.id, paper));
        return seen.length === 0 ? [] : [[node.id, `see ${nearest(seen, number)}`] as const];
      }),
    );
    const block: Block = {
      kind: VIEW_TITLES[view],
      date: options.date,
      page: number,
      pages: settled.length,
      draft: options.draft,
      units: subject.imperialSizes ? 'awg' : 'metric',
    };
    const svg = printOnPaper(page, { subject, view, references, prefix: '' }, paper, block);
    return { view, number, mode: fitted.mode, page, svg, references };
  });
}

interface Seen {
  readonly number: number;
  readonly zone: string;
}

function zoneIn(
  other: { readonly number: number; readonly page: Banded },
  part: Id,
  paper: Paper,
): readonly Seen[] {
  const placed = other.page.picture.nodes.find((n) => n.node.id === part);
  if (placed === undefined) return [];
  const core = coreOf(placed);
  return [
    { number: other.number, zone: zoneOf(paper, (core.left + core.right) / 2, (core.top + core.bottom) / 2) },
  ];
}

/** The next page first, two at most. */
function nearest(seen: readonly Seen[], number: number): string {
  const away = (s: Seen): number => (s.number > number ? s.number - number : 1000 + s.number);
  return seen
    .toSorted((a, b) => away(a) - away(b))
    .slice(0, 2)
    .map((s) => `${s.number}/${s.zone}`)
    .join(' ');
}
