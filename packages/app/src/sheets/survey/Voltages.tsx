/** What the vehicle showed: the posts and the candidates, one column a vehicle state. */
import { useEffect, useState, type ReactElement } from 'react';
import type { Candidate, CellIs, Serves, StateHead, SurveyView } from '../../engine/survey.ts';
import { usePicked, useView } from '../../hooks.ts';
import { StateHands } from '../../marks/StateHands.tsx';
import { VerdictMark, type MarkName } from '../../marks/VerdictMark.tsx';
import { InMargin, InSlip, InTools } from '../../shell/places.tsx';
import { useStore } from '../../store/store.ts';
import { pick, viewStore } from '../../view-store.ts';
import { words } from '../../words.ts';
import { AddPoint } from './AddPoint.tsx';
import { StateSlip } from './StateSlip.tsx';
import { at, surveyStore } from './survey-store.ts';
import { turnCell } from './turn-cell.ts';
import { ValueCell } from './ValueCell.tsx';
import { Why } from './Why.tsx';

export function Voltages({ phone }: { readonly phone: boolean }): ReactElement {
  const { view } = useStore(surveyStore, (state) => state);
  const picked = usePicked();
  const state = useView((all) => all.vehicleState);
  const [adding, setAdding] = useState(false);
  const chosen = view?.candidates.find((each) => each.id === picked) ?? view?.candidates[0] ?? null;
  useEffect(() => () => viewStore.set({ vehicleState: null }), []);
  return (
    <>
      {!phone && (
        <InTools>
          <AddButton adding={adding} set={setAdding} />
        </InTools>
      )}
      <h1 className="lead">{words.survey.title}</h1>
      <p className="quiet">{words.survey.lead}</p>
      {view === null ? (
        <p className="survey-wait">{words.first.workingOut}</p>
      ) : phone ? (
        <PhoneTable view={view} chosen={chosen} />
      ) : (
        <DeskTable view={view} chosen={chosen} />
      )}
      {view !== null && view.candidates.length === 0 && (
        <p className="survey-wait">{words.survey.noPoints}</p>
      )}
      {phone && view !== null && <AddButton adding={adding} set={setAdding} />}
      <p className="legend small">
        <span>
          <i className="bar live" /> {words.survey.live}
        </span>
        <span>
          <i className="bar dead" /> {words.survey.dead}
        </span>
        <span className="quiet">{words.survey.how}</span>
      </p>
      <InMargin>
        <Why view={view} candidate={chosen} />
      </InMargin>
      <InSlip>
        {adding ? (
          <AddPoint done={() => setAdding(false)} />
        ) : (
          view !== null &&
          state !== null && <StateSlip state={view.states.find((each) => each.id === state) ?? null} />
        )}
      </InSlip>
    </>
  );
}

interface AddButtonProps {
  readonly adding: boolean;
  readonly set: (adding: boolean) => void;
}

const AddButton = ({ adding, set }: AddButtonProps): ReactElement => (
  <button type="button" className="button" aria-expanded={adding} onClick={() => set(!adding)}>
    {words.survey.addPoint}
  </button>
);

interface TableProps {
  readonly view: SurveyView;
  readonly chosen: Candidate | null;
}

function DeskTable({ view, chosen }: TableProps): ReactElement {
  return (
    <div className="survey-scroll">
      <table className="survey-table">
        <thead>
          <tr>
            <th scope="col">
              <span className="quiet small">{words.survey.readings}</span>
            </th>
            {view.states.map((state) => (
              <StateHeadCell key={state.id} state={state} />
            ))}
            <th scope="col" className="verdict-head">
              {words.survey.asSignal}
            </th>
          </tr>
        </thead>
        <tbody>
          <tr className="posts-row">
            <th scope="row">
              {words.survey.battery}
              <span className="small quiet">{words.survey.postToPost}</span>
            </th>
            {view.states.map((state) => (
              <td key={state.id}>
                <PostCell state={state} />
              </td>
            ))}
            <td>
              <Spread view={view} />
            </td>
          </tr>
          {view.candidates.map((candidate) => (
            <tr key={candidate.id} aria-selected={candidate === chosen}>
              <th scope="row">
                <PointName candidate={candidate} chosen={candidate === chosen} />
              </th>
              {candidate.cells.map((cell, index) => (
                <td key={cell.state}>
                  <TruthCell candidate={candidate} index={index} label={view.states[index]?.label ?? ''} />
                </td>
              ))}
              <td>
                <Verdict candidate={candidate} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function StateHeadCell({ state }: { readonly state: StateHead }): ReactElement {
  const on = useView((view) => view.vehicleState === state.id);
  return (
    <th scope="col">
      <button
        type="button"
        className="state-head inset"
        aria-pressed={on}
        onClick={() => viewStore.set({ vehicleState: on ? null : state.id })}
      >
        <StateHands state={state.id} />
        <span>{capital(state.label)}</span>
        <span className="fine quiet">{state.running ? words.survey.runs : words.survey.stands}</span>
      </button>
    </th>
  );
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function PostCell({ state }: { readonly state: StateHead }): ReactElement {
  const notation = useStore(surveyStore, (all) => all.notation);
  const path = ['survey', state.id, 'posts', 'typical'];
  return (
    <ValueCell
      path={path}
      value={at(notation, path)}
      measured
      label={words.survey.postsWhile(state.label)}
      example="13.8 V"
    />
  );
}

/** What the posts do while it runs: the lowest and the highest that were read. */
function Spread({ view }: { readonly view: SurveyView }): ReactElement {
  if (view.postsNotRead.length > 0) {
    return (
      <span className="verdict">
        <VerdictMark verdict="open" />
        <span>
          <b>{words.survey.missing}</b>
          <span className="small">{words.survey.postsToRead(view.postsNotRead)}</span>
        </span>
      </span>
    );
  }
  return (
    <span className="verdict">
      <VerdictMark verdict="met" />
      <span>
        <b>{words.survey.postsRead}</b>
      </span>
    </span>
  );
}

function PointName({
  candidate,
  chosen,
}: {
  readonly candidate: Candidate;
  readonly chosen: boolean;
}): ReactElement {
  const more = [candidate.place, candidate.terminal === '' ? '' : `terminal ${candidate.terminal}`].filter(
    (each) => each !== '',
  );
  return (
    <button
      type="button"
      className="point-name inset"
      aria-pressed={chosen}
      onClick={() => pick(candidate.id)}
    >
      <b>{candidate.id}</b>
      <span className="small">{more.join(', ')}</span>
      <span className="small quiet">
        {candidate.limit === '' ? words.survey.noLimit : words.survey.limit(candidate.limit)}
      </span>
      {candidate.wired && <span className="small quiet">{words.survey.wired}</span>}
    </button>
  );
}

const NEXT: Readonly<Record<CellIs, CellIs>> = { 'not read': 'live', live: 'dead', dead: 'not read' };

function TruthCell({
  candidate,
  index,
  label,
}: {
  readonly candidate: Candidate;
  readonly index: number;
  readonly label: string;
}): ReactElement {
  const cell = candidate.cells[index];
  const [pending, setPending] = useState<CellIs | null>(null);
  const is = pending ?? cell?.is ?? 'not read';
  useEffect(() => {
    if (cell?.is === pending) setPending(null);
  }, [cell, pending]);
  const turn = async (): Promise<void> => {
    const next = NEXT[is];
    setPending(next);
    const refused = await turnCell(candidate, index, next, `${candidate.id}, ${label}: ${next}.`);
    if (refused.length > 0) setPending(null);
  };
  return (
    <button type="button" className="truth inset" onClick={() => void turn()}>
      <span className="unseen">
        {candidate.id}, {label}:
      </span>
      {is === 'not read' ? (
        <span className="to-read">{words.survey.read}</span>
      ) : (
        <>
          <i className={`bar ${is}`} />
          <span className="small">{is}</span>
        </>
      )}
    </button>
  );
}

const MARKS: Readonly<Record<Serves, MarkName>> = {
  may: 'met',
  'in-part': 'advice',
  unmeasured: 'open',
  'not-read': 'open',
  'may-not': 'may-not',
};

export function Verdict({ candidate }: { readonly candidate: Candidate }): ReactElement {
  return (
    <span className="verdict">
      <VerdictMark verdict={MARKS[candidate.serves]} />
      <span>
        <b>{candidate.verdict}</b>
        <span className="small">{candidate.reason}</span>
      </span>
    </span>
  );
}

/** On the phone one supply point at a time, its states below each other; the posts stand first. */
function PhoneTable({ view, chosen }: TableProps): ReactElement {
  return (
    <>
      <h2 className="strong">{words.survey.battery}</h2>
      <Spread view={view} />
      <ul className="rows">
        {view.states.map((state) => (
          <li key={state.id} className="phone-state">
            <StateHands state={state.id} size={22} />
            <span>{capital(state.label)}</span>
            <PostCell state={state} />
          </li>
        ))}
      </ul>
      {view.candidates.map((candidate) => (
        <section key={candidate.id} className="phone-point">
          <PointName candidate={candidate} chosen={candidate === chosen} />
          <Verdict candidate={candidate} />
          {candidate === chosen && (
            <ul className="rows">
              {candidate.cells.map((cell, index) => (
                <li key={cell.state} className="phone-state">
                  <StateHands state={cell.state} size={22} />
                  <span>{capital(view.states[index]?.label ?? '')}</span>
                  <TruthCell candidate={candidate} index={index} label={view.states[index]?.label ?? ''} />
                </li>
              ))}
            </ul>
          )}
          {candidate === chosen && <Why view={view} candidate={candidate} />}
        </section>
      ))}
    </>
  );
}
