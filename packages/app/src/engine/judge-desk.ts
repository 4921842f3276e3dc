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
/** The same where a verdict is another one than was told. */
const SOON = 20;

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

/** Judges what is being typed, in steps, until anything else is asked; tells of the first that it finds, and then keeps to itself. */
async function judgeAhead(session: Session, hired: Hired, findings: Finding[]): Promise<void> {
  const { text } = session.source;
  // The page keeps it until the text is on its desk, and then need not wait for it.
  const teller = telling(text);
  let told = false;
  await newest(`ahead: ${text}`, session.judging(hired.about(text)), {
    step(finding) {
      if (finding === undefined) return;
      findings.push(finding);
      if (!told) teller.step(finding);
    },
    stretch() {
      if (!told) teller.stretch();
      told = findings.length > 0;
    },
    wait: async () => await hired.wait(),
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
      // What throws is thrown again when it is asked for.
      judgeAhead(next, hired, ahead.findings).catch(() => undefined);
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
  let turned = false;
  const out = (): void => {
    if (say === null || waiting.length === 0) return;
    const changed = told.news(waiting);
    const news = new Set(changed);
    say({ text, changed, same: waiting.filter((each) => !news.has(each)).map(({ id }) => id) });
    [waiting, turned] = [[], false];
    last = performance.now();
  };
  return {
    step(finding) {
      if (finding === undefined) return;
      turned ||= told.turns(finding);
      waiting.push(finding);
    },
    stretch() {
      if (last === 0 || performance.now() - last > (turned ? SOON : PAUSE)) out();
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
