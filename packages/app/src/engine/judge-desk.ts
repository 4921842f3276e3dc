/** Judging, told as it goes: first what an edit changed, then the rest, at the end the order of all of it. */
import type { Change, Finding, Session } from '@loomwright/engine';
import type { JudgedPart, JudgedWhole } from './plain.ts';
import type { Sessions } from './sessions.ts';
import { leave, newest, type Follows } from './steps.ts';
import { Told } from './told.ts';

/** After the first, so much passes between two tellings, ms: each draws screens anew. */
const PAUSE = 60;

let tell: ((part: JudgedPart) => void) | null = null;

/** Sets who hears what is judged before the last word; without, nothing is told before it. */
export function tellBy(teller: (part: JudgedPart) => void): void {
  tell = teller;
}

const told = new Told();

async function judge(session: Session, afresh: boolean): Promise<JudgedWhole | null> {
  if (session.build === null) return null;
  if (afresh) told.forget();
  const { text } = session.source;
  const done = await newest(text, session.judging(), telling(text));
  return done === null ? null : wholeOf(text, session);
}

export function judgeDesk(sessions: Sessions) {
  return {
    /** null: another text was asked about meanwhile, or it has errors. `afresh`: who asks knows of no finding yet. */
    judge: async (text: string, afresh: boolean): Promise<JudgedWhole | null> =>
      await judge(sessions.of(text), afresh),

    /** As `judge`, of what changes make of a text; null also where they are refused. */
    judgeEdited: async (
      text: string,
      changes: readonly Change[],
      afresh: boolean,
    ): Promise<JudgedWhole | null> => {
      const next = sessions.of(text).edit(changes);
      if (next.build !== null) sessions.keep(next);
      return await judge(next, afresh);
    },

    /** Leaves whatever is under way at its next step. */
    leave,
  };
}

/** What is judged first, which is what an edit changed, is told at once, all else now and then. */
function telling(text: string): Follows<Finding | undefined> | null {
  if (tell === null) return null;
  const say = tell;
  let waiting: Finding[] = [];
  let last = 0;
  const out = (): void => {
    if (waiting.length === 0) return;
    const changed = told.news(waiting);
    const news = new Set(changed);
    say({ text, changed, same: waiting.filter((each) => !news.has(each)).map(({ id }) => id) });
    waiting = [];
    last = performance.now();
  };
  return {
    step(finding) {
      if (finding !== undefined) waiting.push(finding);
    },
    stretch() {
      if (last === 0 || performance.now() - last > PAUSE) out();
    },
  };
}

function wholeOf(text: string, session: Session): JudgedWhole {
  const { findings, tally, firstLine, exitCode, assumed, auto } = session.judge();
  const order = findings.map(({ id }) => id);
  told.keepOnly(new Set(order));
  return {
    text,
    order,
    changed: told.news(findings),
    tally,
    firstLine,
    exitCode,
    // As it was read would be another order each time.
    assumed: assumed.toSorted((a, b) => (a.path < b.path ? -1 : 1)),
    auto:
      auto === null
        ? null
        : {
            size: auto.size,
            wires: auto.wires,
            governedBy: auto.governedBy,
            serves: auto.serves,
            onceConfirmed: auto.onceConfirmed,
          },
  };
}
