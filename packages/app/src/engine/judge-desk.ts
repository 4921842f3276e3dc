/** Judging, told as it goes: first what an edit changed, then the rest, at the end the order of all of it. */
import type { Change, Finding, Session } from '@loomwright/engine';
import { Edits } from './edits.ts';
import { Hired, hireWorker, type Hire } from './hired.ts';
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

/** `ahead`: findings of it that were judged already. */
async function judge(
  session: Session,
  hired: Hired,
  afresh: boolean,
  ahead: readonly Finding[] = [],
): Promise<JudgedWhole | null> {
  if (session.build === null) return null;
  if (afresh) told.forget();
  const { text } = session.source;
  const follows = { ...telling(text), wait: async () => await hired.wait() };
  // At once only what the edit is about: the page has its drawing to change meanwhile.
  const about = (finding: Finding): boolean => session.concerned(finding.id);
  for (const finding of ahead.filter(about)) follows.step(finding);
  follows.stretch();
  for (const finding of ahead) if (!about(finding)) follows.step(finding);
  const company = hired.about(text);
  const done = await newest(text, session.judging(company), follows);
  if (done === null) {
    if (company?.gone === false) hired.leave();
    return null;
  }
  if (session.takesCompany) hired.judged(text);
  return wholeOf(text, session);
}

/** For so long the first findings of what is being typed are looked for, ms. */
const AHEAD = 60;

/** What is judged first of a build, in one go, so that the key that ends an edit finds it done. */
function judgeFirst(session: Session, findings: Finding[]): void {
  const until = performance.now() + AHEAD;
  for (const step of session.judging()) {
    if (step !== undefined) findings.push(step);
    if (findings.length > 0 || performance.now() > until) break;
  }
}

/** What of it comes after that, in steps, until anything else is asked. */
async function judgeOn(session: Session, hired: Hired, findings: Finding[]): Promise<void> {
  const step = (finding: Finding | undefined): void => {
    if (finding !== undefined) findings.push(finding);
  };
  const { text } = session.source;
  const wait = async (): Promise<void> => await hired.wait();
  await newest(`ahead: ${text}`, session.judging(hired.about(text)), {
    step,
    stretch: () => undefined,
    wait,
  });
}

/** `hire`: how companions are had, to judge with. */
export function judgeDesk(sessions: Sessions, hire: Hire = hireWorker) {
  const hired = new Hired(hire);
  const edits = new Edits(sessions);
  let ahead: { readonly session: Session | null; readonly findings: Finding[] } = {
    session: null,
    findings: [],
  };
  return {
    /** null: another text was asked about meanwhile, or it has errors. `afresh`: who asks knows of no finding yet. */
    judge: async (text: string, afresh: boolean): Promise<JudgedWhole | null> =>
      await judge(sessions.of(text), hired, afresh),

    /** As `judge`, of what changes make of a text; null also where they are refused. */
    judgeEdited: async (
      text: string,
      changes: readonly Change[],
      afresh: boolean,
    ): Promise<JudgedWhole | null> => {
      const next = edits.of(text, changes);
      if (next.build !== null) sessions.keep(next);
      return await judge(next, hired, afresh, ahead.session === next ? ahead.findings : []);
    },

    /**
     * Judges what may become an edit, while it is still being typed, until anything else is asked: `judgeEdited` then goes on from
     * there. Only of texts that are judged in steps.
     */
    foreseeJudged(text: string, changes: readonly Change[]): void {
      const next = edits.foresee(text, changes);
      if (next.build === null || ahead.session === next) return;
      sessions.keep(next);
      ahead = { session: next, findings: [] };
      judgeFirst(next, ahead.findings);
      // The page keeps it until the text is on its desk, and then need not wait for it.
      const follows = telling(next.source.text);
      for (const finding of ahead.findings) follows.step(finding);
      follows.stretch();
      // What throws is thrown again when it is asked for.
      judgeOn(next, hired, ahead.findings).catch(() => undefined);
    },

    /** Leaves whatever is under way at its next step. */
    leave(): void {
      leave();
      hired.leave();
    },
  };
}

/** What is judged first, which is what an edit changed, is told at once, all else now and then. */
function telling(text: string): Follows<Finding | undefined> {
  const say = tell;
  let waiting: Finding[] = [];
  let last = 0;
  const out = (): void => {
    if (say === null || waiting.length === 0) return;
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
