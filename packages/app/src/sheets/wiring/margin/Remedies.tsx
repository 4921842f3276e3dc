/** Changes that clear a finding, each judged on a copy: before and after, and what else would change. */
import { bandLine, measureLine, printMeasure, type Finding } from '@loomwright/engine';
import { useEffect, useState, type ReactElement } from 'react';
import { edit, judge } from '../../../build-store.ts';
import type { RemedyView, Tally } from '../../../engine/plain.ts';
import { useJudged, useJudgedNow, useText } from '../../../hooks.ts';
import { TallyMarks } from '../../../marks/TallyMarks.tsx';
import { pick } from '../../../view-store.ts';
import { own } from '../words.ts';

export function Remedies({ finding }: { readonly finding: Finding }): ReactElement | null {
  const offered = useRemedies(finding.id);
  const { judged } = useJudged();
  if (offered === null) return <p className="small quiet">{own.remedies.asking}</p>;
  if (offered.length === 0) return <p className="small quiet">{own.remedies.none}</p>;
  return (
    <>
      {offered.map((remedy, i) => (
        <RemedyCard
          key={remedy.title}
          remedy={remedy}
          now={judged?.tally ?? null}
          first={i === 0}
          finding={finding}
        />
      ))}
    </>
  );
}

/** null: still being looked for. */
function useRemedies(id: string): readonly RemedyView[] | null {
  const text = useText();
  const fresh = useJudgedNow();
  const [offered, setOffered] = useState<readonly RemedyView[] | null>(null);
  useEffect(() => {
    let stale = false;
    setOffered(null);
    if (!fresh || text === null) return undefined;
    void judge
      .ask(text, async (desk) => await desk.remedies(text, id))
      .then((found) => {
        if (!stale && found !== null) setOffered(found);
      });
    return () => {
      stale = true;
    };
  }, [text, id, fresh]);
  return offered;
}

interface CardProps {
  readonly remedy: RemedyView;
  readonly now: Tally | null;
  /** The first one has the solid button. */
  readonly first: boolean;
  readonly finding: Finding;
}

function RemedyCard({ remedy, now, first, finding }: CardProps): ReactElement {
  const { before, after, fresh } = remedy;
  const words = own.remedies;
  return (
    <section className="remedy" aria-label={remedy.title}>
      <h3>{remedy.title}</h3>
      <table>
        <thead>
          <tr>
            <td />
            <th scope="col" className="number">
              {words.now}
            </th>
            <th scope="col" className="number">
              {words.after}
            </th>
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">{words.value}</th>
            <td className="number">{printMeasure(before.value)}</td>
            <td className="number">{after === null ? words.gone : printMeasure(after.value)}</td>
          </tr>
          <tr>
            <th scope="row">{words.margin}</th>
            <td className="number">{marginOf(before)}</td>
            <td className="number">{after === null ? '' : marginOf(after)}</td>
          </tr>
          <tr>
            <th scope="row">
              {words.findings}, {fresh.length === 0 ? words.nothingNew : words.fresh(fresh.length)}
            </th>
            <td className="number">{now !== null && <TallyMarks tally={now} all={false} />}</td>
            <td className="number">
              <TallyMarks tally={remedy.tally} all={false} />
            </td>
          </tr>
        </tbody>
      </table>
      {fresh.map((each) => (
        <p key={each.id} className="small">
          {each.verdict}: {each.title}
        </p>
      ))}
      <p className="buttons">
        <button
          type="button"
          className={first ? 'button solid' : 'button'}
          onClick={() => void edit(remedy.changes, `${remedy.title}.`)}
        >
          {words.make}
        </button>
        <button type="button" className="button" onClick={() => pick(finding.id)}>
          {own.see}
        </button>
      </p>
    </section>
  );
}

/** The last piece of the line of measures: "0.07 V over", "12 A to spare"; its spread where it has no limit. */
function marginOf(finding: Finding): string {
  const pieces = measureLine(finding).split(', ');
  const last = pieces.at(-1) ?? '';
  return /over|short|spare/.test(last) ? last : bandLine(finding).replace(/^.*: /, '');
}
