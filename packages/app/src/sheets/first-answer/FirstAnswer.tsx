/** First answer: six facts, each may be "don't know", and the answer that stands there from the beginning. */
import { useCallback, useEffect, useState, type ReactElement } from 'react';
import { useBuild, useText } from '../../hooks.ts';
import { InMargin, InMarginFoot, InSlip, InState, InTools } from '../../shell/places.tsx';
import { DemoButton } from '../../shell/margin/Examples.tsx';
import { keepingStore } from '../../store/keeping.ts';
import { openBuildFile } from '../../store/open-file.ts';
import { useStore } from '../../store/store.ts';
import { showSheet } from '../../view-store.ts';
import { words } from '../../words.ts';
import type { SheetProps } from '../sheet.ts';
import { AnswerRows } from './AnswerRows.tsx';
import { Assumptions } from './Assumptions.tsx';
import { FactCells } from './FactCells.tsx';
import { FactSlip } from './FactSlip.tsx';
import { FirstLine } from './FirstLine.tsx';
import './first-answer.css';
import { factsFor, knownOf, type FactId } from './facts.ts';
import { firstStore, followText, stopTrying } from './first-store.ts';
import { VehiclePicture } from './VehiclePicture.tsx';
import { WorthGetting } from './WorthGetting.tsx';

export function FirstAnswer({ phone }: SheetProps): ReactElement {
  const text = useText();
  const build = useBuild();
  // Nothing was said yet: the other ways to begin stand beside the six facts.
  const blank = useStore(keepingStore, ({ id, cameAs }) => id === null && cameAs === 'new');
  const { answers, view, standing } = useStore(firstStore, (state) => state);
  const [inHand, setInHand] = useState<FactId | null>(null);
  const facts = factsFor(build?.practice === 'north-america', build?.units === 'imperial');
  const fact = facts.find((each) => each.id === inHand) ?? null;
  const wide = useWide();

  useEffect(() => {
    if (text !== null) void followText(text);
  }, [text]);
  useEffect(() => stopTrying, [inHand]);
  useEscape(useCallback(() => setInHand(null), []));

  const goOn = (): void => {
    const at = facts.findIndex((each) => each.id === inHand);
    const after = [...facts.slice(at + 1), ...facts.slice(0, Math.max(0, at))];
    setInHand(after.find((each) => knownOf(each, answersNow()) === 'unknown')?.id ?? null);
  };
  const shared = {
    facts,
    answers,
    advised: view?.advised ?? null,
    inHand,
    drawn: standing === 'other',
    take: (id: FactId) => setInHand(id === inHand ? null : id),
  };
  return (
    <div className="first">
      <InState>
        {!phone && <p className="quiet">{standing === 'other' ? words.first.drawnLead : words.first.lead}</p>}
      </InState>
      <InTools>
        {!phone && blank && <DemoButton />}
        {!phone && (
          <button type="button" className="button" onClick={() => void openBuildFile()}>
            {words.empty.open}
          </button>
        )}
      </InTools>
      <div className="first-head">
        <div>
          <h1 className="lead">{words.sheets.first}</h1>
          {phone && <p className="small quiet">{build?.title}</p>}
        </div>
        {!wide && <VehiclePicture {...shared} view={view} small />}
      </div>
      {wide ? <VehiclePicture {...shared} view={view} /> : <FactCells {...shared} />}
      <FirstLine />
      <AnswerRows view={view} />
      {phone ? (
        <>
          <WorthGetting take={setInHand} />
          <Assumptions folded />
          {blank && (
            <p className="line">
              <DemoButton />
              <button type="button" className="button" onClick={() => void openBuildFile()}>
                {words.empty.open}
              </button>
            </p>
          )}
        </>
      ) : (
        <InMargin>
          <WorthGetting take={setInHand} />
          <Assumptions folded={false} />
        </InMargin>
      )}
      <InSlip>
        {fact === null ? (
          phone && <GoOn />
        ) : (
          <FactSlip key={fact.id} fact={fact} goOn={goOn} letGo={() => setInHand(null)} />
        )}
      </InSlip>
      {!phone && (
        <InMarginFoot>
          <div className="go-on">
            <GoOn />
            {standing !== 'other' && <span className="small quiet">{words.first.keeps}</span>}
          </div>
        </InMarginFoot>
      )}
    </div>
  );
}

const answersNow = () => firstStore.get().answers;

/** Whether the facts stand in the vehicle: there is room for them. */
function useWide(): boolean {
  const [wide, setWide] = useState(() => matchMedia('(min-width: 1200px)').matches);
  useEffect(() => {
    const query = matchMedia('(min-width: 1200px)');
    const change = (): void => setWide(query.matches);
    query.addEventListener('change', change);
    return () => query.removeEventListener('change', change);
  }, []);
  return wide;
}

function useEscape(deed: () => void): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') deed();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [deed]);
}

function GoOn(): ReactElement {
  const drawn = useStore(firstStore, (state) => state.standing === 'other');
  return (
    <button type="button" className="button solid go-on-button" onClick={() => showSheet('wiring')}>
      {drawn ? words.first.toDrawing : words.first.goOn}
    </button>
  );
}
