/** The first answer as the screen asks it: rows, the line of the source, and what a choice would do. */
import {
  designText,
  firstAnswer,
  printBand,
  printMeasure,
  readFacts,
  type AnswerRow,
  type Answers,
  type Design,
  type FirstRun,
  type Operation,
  type Problem,
  type Session,
  type SixFacts,
  type Verdict,
} from '@loomwright/engine';
import { diffNotation } from './notation-diff.ts';
import { rowsOfAnyBuild } from './rows-of.ts';
import type { Sessions } from './sessions.ts';
import { beganWithSix, sixOf, sixOfAny } from './six-of.ts';

export interface RowView {
  readonly id: AnswerRow['id'];
  readonly name: string;
  readonly verdict: Verdict;
  readonly value: string;
  readonly why: string;
  /** The findings behind it, for its working. */
  readonly findings: readonly string[];
}

/** Where the source may stand, and where the charger would hunt, V at the battery posts. */
export interface SourceLine {
  readonly axis: readonly [number, number];
  readonly source: readonly [number, number];
  readonly hunts: readonly (readonly [number, number])[];
}

/** How the build stands to the six facts: only them; begun with them and changed since; none of them. */
export type Standing = 'six-only' | 'grown' | 'other';

export interface FirstView {
  readonly text: string;
  readonly standing: Standing;
  readonly answers: Answers;
  readonly rows: readonly RowView[];
  readonly line: SourceLine | null;
  /** "40 A, advised": what the design chose where it was left to it. */
  readonly advised: string | null;
}

const TITLE = /^title:.*$/m;

export function firstDesk(sessions: Sessions) {
  return {
    /** The text of a first design, and what of the answers could not be read. */
    design(
      answers: Answers,
      own: Own = {},
    ): { readonly text: string; readonly problems: readonly Problem[] } {
      const { facts, problems } = readFacts(answers);
      return { text: owned(designText(facts).text, own), problems };
    },

    /** The six facts of a build, and how it stands to them. */
    six: (text: string) => standingOf(sessions.of(text)),

    /** The changes that giving a fact makes to a build that has grown since its first answer. */
    factChanges(text: string, answers: Answers) {
      const { answers: before } = standingOf(sessions.of(text));
      const [was, is] = [before, answers].map((each) => sessions.of(designText(readFacts(each).facts).text));
      const [old, next] = [was?.source.notation([]), is?.source.notation([])];
      return old === undefined || next === undefined ? [] : diffNotation(old, next);
    },

    /** The answer for a build, whatever it began with. */
    first(text: string): FirstView {
      const session = sessions.of(text);
      const { standing, answers } = standingOf(session);
      const { facts } = readFacts(answers);
      const design = designText(facts);
      const main = runOf(session, design);
      const rows =
        standing === 'other'
          ? rowsOfAnyBuild(facts, main)
          : firstAnswer(
              facts,
              standing === 'six-only' ? allWays(main, facts, sessions) : [main],
              kindest(standing, facts, sessions),
            );
      const chosen = design.advice === null ? null : `${design.amps} A`;
      return {
        text,
        standing,
        answers,
        rows: rows.map((row) => rowView(row, session)),
        line: sourceLine(main.operation),
        advised: standing === 'six-only' ? chosen : null,
      };
    },

    /** The rows that other answers would give; `grown`: on the text of a build that has grown since its first answer. */
    tryAnswers(answers: Answers, grown: string | null): readonly RowView[] {
      if (grown !== null) {
        const changed = sessions.of(grown).edit(this.factChanges(grown, answers));
        return changed.build === null ? [] : this.first(changed.source.text).rows;
      }
      return this.first(designText(readFacts(answers).facts).text).rows;
    },
  };
}

/** What a person may change about a design and it still is the design. */
export interface Own {
  readonly title?: string | undefined;
  readonly units?: 'metric' | 'imperial' | undefined;
}

const UNITS = /^units:.*\n/m;

function owned(text: string, { title, units }: Own): string {
  const line = title === undefined ? null : `title: ${JSON.stringify(title)}`;
  const named = line === null ? text : text.replace(TITLE, () => line);
  return units === 'imperial' ? named.replace(TITLE, (found) => `${found}\nunits: imperial`) : named;
}

/** The text without what a person may change about it. */
const bare = (text: string): string => text.replace(UNITS, '').replace(TITLE, 'title:');

function standingOf(session: Session): { readonly standing: Standing; readonly answers: Answers } {
  const { build, source } = session;
  if (build === null) return { standing: 'other', answers: {} };
  if (!beganWithSix(build)) return { standing: 'other', answers: sixOfAny(build) };
  const answers = sixOf(build, source.text);
  const again = designText(readFacts(answers).facts).text;
  return { standing: bare(again) === bare(source.text) ? 'six-only' : 'grown', answers };
}

function runOf(session: Session, design: Design): FirstRun {
  const { findings, operation, auto } = session.judge();
  return { design, findings, operation, auto };
}

/** One run for each way back that is possible. */
function allWays(main: FirstRun, facts: SixFacts, sessions: Sessions): readonly [FirstRun, ...FirstRun[]] {
  if (facts.return !== null) return [main];
  const body = designText(facts, { return: 'body' });
  return [main, runOf(sessions.of(body.text), body)];
}

/** With the length at its short end and the return that needs least copper; null where nothing is a band. */
function kindest(standing: Standing, facts: SixFacts, sessions: Sessions): FirstRun | null {
  if (standing !== 'six-only') return null;
  const { length } = facts;
  const short = length === null ? '1 m' : length.low < length.high ? `${length.low} m` : null;
  if (short === null) return null;
  const design = designText(facts, { length: short, return: facts.return ?? 'body' });
  return runOf(sessions.of(design.text), design);
}

/** Checks whose findings a row rests on. */
const BEHIND: Readonly<Record<AnswerRow['id'], readonly string[]>> = {
  cable: ['conductor', 'rating'],
  device: ['rating-window'],
  hunts: ['hunting'],
  'left-over': ['surplus'],
  signal: ['enable'],
  driving: ['hunting', 'input-window'],
};

function rowView(row: AnswerRow, session: Session): RowView {
  const checks = BEHIND[row.id];
  const findings = session.judge().findings.filter((finding) => checks.includes(finding.check));
  return {
    id: row.id,
    name: row.name,
    verdict: row.verdict,
    value: valueOf(row),
    why: row.why,
    findings: findings.map((finding) => finding.id),
  };
}

function valueOf({ words, measures }: AnswerRow): string {
  if (words !== null) return words;
  const [low, high] = [measures[0], measures.at(-1)];
  if (low === undefined || high === undefined) return 'no figure';
  return measures.length === 1 ? printMeasure(low) : printBand(low.value, high.value, low.unit);
}

export function sourceLine(op: Operation): SourceLine | null {
  const running = op.windows().filter((window) => op.stateFacts(window.state)?.running === true);
  if (running.length === 0) return null;
  const source: [number, number] = [
    Math.min(...running.map((window) => window.envelope[0])),
    Math.max(...running.map((window) => window.envelope[1])),
  ];
  const spans = running.flatMap((window) => window.spans.filter((span) => span.outcome === 'cycle'));
  const hunts = merged(spans.map(({ from, to }) => [from, to] as const));
  const low = Math.min(source[0], ...hunts.map(([from]) => from));
  const high = Math.max(source[1], ...hunts.map(([, to]) => to));
  return { axis: [Math.floor(low - 0.2), Math.ceil(high + 0.2)], source, hunts };
}

function merged(spans: readonly (readonly [number, number])[]): readonly (readonly [number, number])[] {
  const sorted = spans.toSorted((a, b) => a[0] - b[0]);
  const result: [number, number][] = [];
  for (const [from, to] of sorted) {
    const last = result.at(-1);
    if (last !== undefined && from <= last[1]) last[1] = Math.max(last[1], to);
    else result.push([from, to]);
  }
  return result;
}
