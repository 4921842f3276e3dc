/** Why the chosen supply point may serve or may not, line by line; the source; what is still to read. */
import { useEffect, type ReactElement } from 'react';
import { edit } from '../../build-store.ts';
import type { Candidate, SurveyView, WhyLine } from '../../engine/survey.ts';
import { VerdictMark } from '../../marks/VerdictMark.tsx';
import { useStore } from '../../store/store.ts';
import { words } from '../../words.ts';
import { SourceAxis } from '../first-answer/SourceAxis.tsx';
import { at, isYes, surveyStore, triedKey, tryPoint } from './survey-store.ts';

export function Why({
  view,
  candidate,
}: {
  readonly view: SurveyView | null;
  readonly candidate: Candidate | null;
}): ReactElement | null {
  if (view === null) return null;
  const toRead = view.candidates.reduce((sum, each) => sum + each.notRead, view.postsNotRead.length);
  return (
    <>
      {candidate !== null && (
        <section className="margin-pad">
          <h2>{words.survey.why(candidate.id, candidate.serves)}</h2>
          <Lines lines={candidate.why} />
          {!candidate.wired && candidate.serves !== 'not-read' && (
            <InItsPlace text={view.text} candidate={candidate} />
          )}
          <Actions candidate={candidate} />
        </section>
      )}
      {view.line !== null && (
        <section className="margin-pad">
          <h2>{words.survey.post}</h2>
          <SourceAxis line={view.line} />
          <p className="small quiet">
            {view.line.hunts.length === 0 ? words.survey.noHunt : words.survey.hunt}
          </p>
        </section>
      )}
      <section className="margin-pad">
        <p className="strong">{words.survey.toRead(toRead)}</p>
      </section>
    </>
  );
}

function Lines({ lines }: { readonly lines: readonly WhyLine[] }): ReactElement {
  return (
    <ul className="why-lines">
      {byTitle(lines).map(({ holds, title, says }) => (
        <li key={title}>
          <VerdictMark verdict={holds} small label={words.survey.holds[holds]} />
          <div>
            <b>{title}</b>
            {says.map((each) => (
              <p key={each} className="small">
                {each}
              </p>
            ))}
          </div>
        </li>
      ))}
    </ul>
  );
}

const WORST: readonly WhyLine['holds'][] = ['may-not', 'open', 'advice', 'met'];

/** What is said about one title stands together, under the worst of its marks. */
function byTitle(
  lines: readonly WhyLine[],
): readonly { readonly title: string; readonly holds: WhyLine['holds']; readonly says: readonly string[] }[] {
  return [...new Set(lines.map((line) => line.title))].map((title) => {
    const own = lines.filter((line) => line.title === title);
    const holds = WORST.find((each) => own.some((line) => line.holds === each)) ?? 'met';
    return { title, holds, says: [...new Set(own.map((line) => line.says))] };
  });
}

/** What would follow if the run signal were taken here. */
function InItsPlace({
  text,
  candidate,
}: {
  readonly text: string;
  readonly candidate: Candidate;
}): ReactElement | null {
  const lines = useStore(surveyStore, (state) => state.tried.get(triedKey(text, candidate.id)));
  useEffect(() => {
    void tryPoint(text, candidate.id);
  }, [text, candidate.id]);
  if (lines === undefined) return <p className="small quiet">{words.survey.trying}</p>;
  if (lines.length === 0) return null;
  return (
    <>
      <h3 className="strong">{words.survey.inItsPlace}</h3>
      <Lines lines={lines} />
    </>
  );
}

function Actions({ candidate }: { readonly candidate: Candidate }): ReactElement {
  const notation = useStore(surveyStore, (state) => state.notation);
  const measured = isYes(at(notation, ['parts', candidate.id, 'measured']));
  const restDead = candidate.cells.some((cell) => cell.is === 'not read');
  return (
    <p className="line why-actions">
      {restDead && (
        <button
          type="button"
          className="button"
          onClick={() =>
            void edit(
              [{ set: ['parts', candidate.id, 'dead'], to: 'others' }],
              words.survey.restDeadSays(candidate.id),
            )
          }
        >
          {words.survey.restDead}
        </button>
      )}
      <button
        type="button"
        className="button"
        aria-pressed={measured}
        onClick={() =>
          void edit(
            [{ set: ['parts', candidate.id, 'measured'], to: !measured }],
            words.survey.measuredSays(candidate.id, !measured),
          )
        }
      >
        {measured ? words.survey.notMeasured : words.survey.measured}
      </button>
    </p>
  );
}
