/** Wiring: the drawing that answers back, with its findings beside it; the same as a schedule, as a list and as text. */
import type { DrawingSubject, Finding, LiveReading, StateId, View } from '@loomwright/engine';
import { memo, useCallback, useEffect, useMemo, useState, type ReactElement } from 'react';
import { buildStore } from '../../build-store.ts';
import { useJudged, usePicked, useView } from '../../hooks.ts';
import { sheetKeys } from '../../shell/keys.ts';
import { InMargin, InSlip, InState, InTools } from '../../shell/places.tsx';
import { words } from '../../words.ts';
import type { LiveVehicle } from '../../engine/live-desk.ts';
import type { SheetProps } from '../sheet.ts';
import type { Zoom } from './drawing/DrawingView.tsx';
import { warmElk } from '../../engine/layout-library.ts';
import { AddPart, warmKinds } from './edit/AddPart.tsx';
import { JoinWire, type Ends } from './edit/JoinWire.tsx';
import { useLooks, useTried, useVehicle } from './look-desk.ts';
import { FindingsMargin } from './margin/FindingsMargin.tsx';
import { Picture } from './Picture.tsx';
import { PlaceSteps } from './PlaceSteps.tsx';
import { printDrawing } from './print-drawing.ts';
import { PickedSlip } from './slip/SlipView.tsx';
import { StateView } from './StateView.tsx';
import { PartList } from './table/PartList.tsx';
import { Schedule } from './table/Schedule.tsx';
import { TextSheet } from './text/TextSheet.tsx';
import { Tools, type Way } from './Tools.tsx';
import { useDrawing } from './use-drawing.ts';
import { useWarmEngine } from './warm-up.ts';
import { own } from './words.ts';
import './slip/slip.css';
import './table/table.css';
import './wiring.css';

/** What is being done in the slip's place. */
export type Doing =
  | { readonly type: 'nothing' }
  | { readonly type: 'adding' }
  | { readonly type: 'joining'; readonly ends: Ends };

const NOTHING: Doing = { type: 'nothing' };

export function Wiring({ phone }: SheetProps): ReactElement {
  const [layer, setLayer] = useState<View>('all');
  const [zoom, setZoom] = useState<Zoom>('whole');
  const [way, setWay] = useState<Way>('drawing');
  const [sheet, setSheet] = useState(false);
  const [tidied, setTidied] = useState(0);
  const [doing, setDoing] = useState<Doing>(NOTHING);
  const [line, setLine] = useState<number | null>(null);
  const [look, setLook] = useState(0);
  const picked = usePicked();
  const { drawn, subject } = useDrawing(layer, sheet || phone, tidied);
  const [place, setPlace] = usePlace(subject, picked);
  const tried = useTried();
  const vehicle = useVehicle(tried);
  const state = useStateOnView(vehicle);
  const looks = useLooks(tried, state);
  const reading = looks[Math.min(look, looks.length - 1)]?.reading ?? null;

  useEffect(() => {
    void warmElk();
    void warmKinds();
  }, []);
  useEffect(() => sheetKeys({ t: () => setWay((now) => (now === 'schedule' ? 'drawing' : 'schedule')) }), []);
  useWarmEngine();
  useLetGo(doing.type !== 'nothing', () => setDoing(NOTHING));

  const toText = useCallback((at: number) => {
    setLine(at);
    setWay('text');
  }, []);
  const joinFrom = useCallback((from: string) => {
    setDoing({ type: 'joining', ends: { from, to: null } });
  }, []);

  return (
    <div className="wiring">
      <h1 className="unseen">{words.sheets.wiring}</h1>
      <InState>
        {vehicle !== null && state !== null && (
          <StateView
            vehicle={vehicle}
            state={state}
            looks={looks}
            look={look}
            chooseLook={setLook}
            phone={phone}
          />
        )}
      </InState>
      {!phone && (
        <InTools>
          <Layers layer={layer} set={setLayer} />
        </InTools>
      )}
      {phone && subject !== null && place !== null && (way === 'drawing' || way === 'parts') && (
        <PlaceSteps subject={subject} place={place} set={setPlace} />
      )}
      <Body
        way={way}
        place={phone ? place : null}
        phone={phone}
        {...{ drawn, subject, reading, layer, zoom, doing, setDoing, line, looks }}
        setLayer={setLayer}
      />
      <Tools
        way={way}
        setWay={setWay}
        zoom={zoom}
        setZoom={setZoom}
        phone={phone}
        doing={doing}
        setDoing={setDoing}
        tidy={() => setTidied(tidied + 1)}
        sheet={layer === 'all' && (sheet || drawn?.form === 'vehicle') ? sheet : null}
        setSheet={setSheet}
        print={() => {
          if (subject !== null) void printDrawing(subject.practice, judgedFindings());
        }}
      />
      <InMargin>
        <FindingsMargin subject={subject} />
      </InMargin>
      <InSlip>
        {doing.type === 'adding' ? (
          <AddPart done={() => setDoing(NOTHING)} />
        ) : doing.type === 'joining' ? (
          <JoinWire
            ends={doing.ends}
            set={(ends) => setDoing({ type: 'joining', ends })}
            done={() => setDoing(NOTHING)}
          />
        ) : (
          picked !== null && (
            <PickedSlip
              picked={picked}
              subject={subject}
              reading={reading}
              toText={toText}
              joinFrom={joinFrom}
              sheet={!phone && way === 'drawing' && drawn?.form === 'sheet' ? drawn.view : null}
            />
          )
        )}
      </InSlip>
    </div>
  );
}

type BodyProps = Omit<Parameters<typeof Picture>[0], 'list'> & {
  readonly way: Way;
  readonly reading: LiveReading | null;
  readonly line: number | null;
};

/** Drawn anew only where something of it is another one, not with the slip or what stands around it. */
const Body = memo(Shown);

function Shown({ way, line, ...picture }: BodyProps): ReactElement {
  const { judged } = useJudged();
  if (way === 'text') return <TextSheet line={line} />;
  if (way === 'schedule')
    return (
      <div className="wiring-body scrolls">
        <Schedule />
      </div>
    );
  if (way === 'parts')
    return (
      <div className="wiring-body scrolls">
        {picture.subject !== null && (
          <PartList subject={picture.subject} reading={picture.reading} only={picture.place} />
        )}
      </div>
    );
  return <Picture {...picture} findings={judged?.findings ?? []} />;
}

/** Findings of the present text; null: they are not all there yet. */
function judgedFindings(): readonly Finding[] | null {
  const { judged, text } = buildStore.get();
  return judged === null || judged.text !== text ? null : judged.findings;
}

/** The state on view, or the first in which the vehicle feeds. */
function useStateOnView(vehicle: LiveVehicle | null): StateId | null {
  const chosen = useView((view) => view.vehicleState);
  return useMemo(() => {
    if (vehicle === null) return null;
    const { states } = vehicle;
    const known = states.find((each) => each.id === chosen);
    return (known ?? states.find((each) => each.source !== null) ?? states[0])?.id ?? null;
  }, [vehicle, chosen]);
}

/** The place on view on the phone: the chosen one, or that of what is picked up. */
function usePlace(
  subject: DrawingSubject | null,
  picked: string | null,
): readonly [string | null, (place: string) => void] {
  const [place, setPlace] = useState<string | null>(null);
  useEffect(() => {
    const here = subject?.parts.get(picked ?? '')?.place;
    if (here !== undefined) setPlace(here);
  }, [subject, picked]);
  const known = subject?.places.find((each) => each.id === place) ?? subject?.places[0];
  return [known?.id ?? null, setPlace];
}

function Layers({ layer, set }: { readonly layer: View; readonly set: (layer: View) => void }): ReactElement {
  return (
    <div className="segments" role="group" aria-label={own.layersTitle}>
      {(['all', 'power', 'control', 'negative'] as const).map((each) => (
        <button key={each} type="button" aria-pressed={layer === each} onClick={() => set(each)}>
          {own.layers[each]}
        </button>
      ))}
    </div>
  );
}

/** Escape leaves what is being done before it lets go of what is picked up. */
function useLetGo(active: boolean, leave: () => void): void {
  useEffect(() => {
    if (!active) return undefined;
    const onKey = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape' || event.defaultPrevented) return;
      event.preventDefault();
      leave();
    };
    document.addEventListener('keydown', onKey, true);
    return () => document.removeEventListener('keydown', onKey, true);
  });
}
