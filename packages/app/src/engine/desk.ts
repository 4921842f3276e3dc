/** The engine as the screens ask it: every question carries the whole text, so no answer can belong to another build. */
import {
  tallyOf,
  type Change,
  type Fact,
  type JudgedRemedy,
  type Session,
  type StateTable,
} from '@loomwright/engine';
import type { DrawWish } from './drawer.ts';
import { drawingDesk } from './drawing-desk.ts';
import { Edits } from './edits.ts';
import { firstDesk } from './first.ts';
import { judgeDesk } from './judge-desk.ts';
import { liveDesk } from './live-desk.ts';
import { mergeDesk } from './merge.ts';
import type { EditResult, Notation, Opened, RemedyView } from './plain.ts';
import { Sessions } from './sessions.ts';
import { newest } from './steps.ts';
import { surveyDesk } from './survey.ts';
import { wiringDesk } from './wiring-desk.ts';

const sessions = new Sessions();
const edits = new Edits(sessions);
const drawing = drawingDesk(sessions);

/** What is asked across the worker's border. All answers are plain data. Add questions of other sheets in files of their own. */
export const desk = {
  open: (text: string, wish: DrawWish | null = null, file?: string): Opened =>
    openedOf(sessions.of(text, file), wish),

  /** Applies changes; all or nothing. */
  edit(text: string, changes: readonly Change[], wish: DrawWish | null = null): EditResult {
    const now = sessions.of(text);
    const next = edits.of(text, changes);
    if (next.build === null)
      return {
        opened: openedOf(now, null),
        refused: next.diagnostics.filter((each) => each.severity === 'error'),
      };
    sessions.keep(next);
    return { opened: openedOf(next, wish), refused: [] };
  },

  /** Reads and sketches what may become an edit, while it is still being typed: `edit` then finds it done. */
  foresee(text: string, changes: readonly Change[], wish: DrawWish | null): void {
    const next = edits.foresee(text, changes);
    if (next.build === null) return;
    sessions.keep(next);
    if (wish !== null) drawing.sketching(next.source.text, wish);
  },

  ...judgeDesk(sessions),

  /** null: something else was asked meanwhile. */
  facts: async (text: string): Promise<readonly Fact[] | null> =>
    await newest(text, sessions.of(text).ranking()),

  remedies: (text: string, finding: string): readonly RemedyView[] =>
    sessions.of(text).remedies(finding).map(remedyOf),

  states: (text: string, all = false): StateTable => sessions.of(text).states(all),

  ...firstDesk(sessions),

  ...wiringDesk(sessions),

  ...drawing.asked,

  ...liveDesk(sessions),

  ...mergeDesk(sessions),

  ...surveyDesk(sessions),

  /** The values of a document as they are written. */
  notation: (text: string): Notation | null => sessions.of(text).source.notation([]) ?? null,
};

export type Desk = typeof desk;
export { tellBy } from './judge-desk.ts';

function openedOf({ source, build, diagnostics }: Session, wish: DrawWish | null): Opened {
  const { text } = source;
  if (build === null || wish === null) return { text, build, diagnostics, drawing: null };
  const { sketch, keep } = drawing.sketching(text, wish);
  keep();
  return { text, build, diagnostics, drawing: { of: wish, sketch } };
}

const remedyOf = ({ title, changes, before, after, fresh, cleared, findings }: JudgedRemedy): RemedyView => ({
  title,
  changes,
  before,
  after,
  fresh,
  cleared,
  tally: tallyOf(findings),
});
