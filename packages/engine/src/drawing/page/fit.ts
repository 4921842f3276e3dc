/** One page: the most generous mode in which it fits at full size, its height then filled. Nothing is ever scaled down. */
import type { Id } from '../../contracts/index.ts';
import { judge } from '../sheet/judge.ts';
import type { Kept } from '../sheet/layout.ts';
import { makeModel } from '../sheet/make.ts';
import type { Layouts } from '../sheet/memo.ts';
import { MODES, type Mode, type SheetModel } from '../sheet/model.ts';
import type { Subject } from '../subject.ts';
import { banded, type Banded } from './bands.ts';
import type { Piece } from './cut.ts';
import { fits, needsOf, type Free } from './paper.ts';
import { columnsOf, guess, type Guess } from './predict.ts';

export const LEAST_AIR = 1.5;
const MOST_AIR = 7;
/** What guesses fall short of by experience: heights to be multiplied, names and foot to be added, mm. */
const HEIGHT_SHORT = 1.15;
const NAMES_AND_FOOT = 16;

export interface Fitting {
  readonly subject: Subject;
  readonly layouts: Layouts;
  readonly free: Free;
  readonly thoroughness: number;
  /** Parts of these wires stand on one page only. */
  readonly view: Piece;
}

export interface Fitted {
  readonly piece: Piece;
  readonly mode: Mode;
  readonly page: Banded;
}

/** Parts that have wires of the view elsewhere. */
export function repeatedIn(piece: Piece, view: Piece): ReadonlySet<Id> {
  const here = new Set(piece.map((w) => w.id));
  const own = new Set(piece.flatMap((w) => [w.from.part, w.to.part]));
  return new Set(
    view.filter((w) => !here.has(w.id)).flatMap((w) => [w.from.part, w.to.part].filter((id) => own.has(id))),
  );
}

const modelOf = (piece: Piece, mode: Mode, { subject, view }: Fitting): SheetModel =>
  makeModel(subject, piece, { mode, repeated: repeatedIn(piece, view) });

const tallOf = (g: Guess): number => g.height * HEIGHT_SHORT + NAMES_AND_FOOT;

/** By guess alone. */
export function mayFit(piece: Piece, fitting: Fitting): boolean {
  return MODES.toReversed().some((mode) => {
    const g = guess(modelOf(piece, mode, fitting), fitting.subject, LEAST_AIR);
    return g.width <= fitting.free.width && tallOf(g) <= fitting.free.height;
  });
}

/** Laid out; null when it fits in no mode. `kept`: in the order of an earlier drawing. */
export async function fit(
  piece: Piece,
  fitting: Fitting,
  kept: Kept | null,
  anyhow: boolean,
): Promise<Fitted | null> {
  let last: Fitted | null = null;
  for (const mode of MODES) {
    const model = modelOf(piece, mode, fitting);
    const g = guess(model, fitting.subject, LEAST_AIR);
    const hopeless = g.width > 1.08 * fitting.free.width || g.height > fitting.free.height;
    if (hopeless && !(anyhow && mode === 'slim')) continue;
    for (const air of new Set([filling(model, g, fitting.free), LEAST_AIR])) {
      const page = await lay(model, fitting, air, kept);
      last = { piece, mode, page };
      const needs = needsOf(page);
      if (fits(needs, fitting.free)) return last;
      if (needs.width > fitting.free.width) break;
    }
  }
  return anyhow ? last : null;
}

/** The air that spreads a drawing over three quarters of the height that it leaves. */
function filling(model: SheetModel, g: Guess, free: Free): number {
  const { layerOf } = columnsOf(model);
  const counts = new Map<string, number>();
  for (const node of model.nodes) {
    const column = `${node.place} ${layerOf.get(node.id) ?? 0}`;
    counts.set(column, (counts.get(column) ?? 0) + 1);
  }
  const most = Math.max(1, ...counts.values());
  const slack = Math.max(0, free.height - tallOf(g));
  const air = Math.min(MOST_AIR, LEAST_AIR + (0.6 * slack) / most);
  return Math.round(air * 2) / 2;
}

/** Bends that are worth no other try. */
const FEW_BENDS = 4;

async function lay(
  model: SheetModel,
  { subject, layouts, thoroughness }: Fitting,
  air: number,
  kept: Kept | null,
): Promise<Banded> {
  const options = { air, thoroughness, kept };
  const first = await layouts.layOut(model, { ...options, orders: 1 });
  const marks = judge(first);
  const good = marks.overlaps === 0 && marks.crossings === 0 && marks.bends <= FEW_BENDS;
  if (good || kept !== null) return banded(first, subject);
  return banded(await layouts.layOut(model, { ...options, orders: 3 }), subject);
}
