/** Try it: turn the hands, let time run, set probes, lay troubles on, and see what the vehicle does. */
import type { View } from '@loomwright/engine';
import { useCallback, useEffect, useMemo, useState, type ReactElement } from 'react';
import { buildStore, edit } from '../../build-store.ts';
import { sheetKeys } from '../../shell/keys.ts';
import { InMargin, InMarginFoot, InSlip, InState } from '../../shell/places.tsx';
import { useStore } from '../../store/store.ts';
import { say } from '../../view-store.ts';
import { words } from '../../words.ts';
import type { SheetProps } from '../sheet.ts';
import { DrawingView, type Zoom } from '../wiring/drawing/DrawingView.tsx';
import { warmElk } from '../../engine/layout-library.ts';
import type { Hit } from '../wiring/drawing/hit.ts';
import { HuntingTags } from '../wiring/drawing/HuntingTags.tsx';
import { looksOf } from '../wiring/drawing/look.ts';
import { TerminalSpots } from '../wiring/drawing/Marks.tsx';
import type { Measured } from '../wiring/drawing/measure.ts';
import { useTried, useVehicle } from '../wiring/look-desk.ts';
import { useDrawing } from '../wiring/use-drawing.ts';
import { own as wiring } from '../wiring/words.ts';
import { flip, HandsLine, stepHand } from './HandsLine.tsx';
import { noteChange, noteOf } from './note.ts';
import { Pennants, Probes, Troubles } from './Overlay.tsx';
import { needleRooms } from './probe-room.ts';
import { firstProbes, nextLetter, type Probe } from './probes.ts';
import { ProbeSlip } from './ProbeSlip.tsx';
import { TrialSlip } from './TrialSlip.tsx';
import { TryMargin } from './TryMargin.tsx';
import { advance, goTo, setProbes, setRate, takeBuild, tryStore } from './try-store.ts';
import '../wiring/slip/slip.css';
import '../wiring/wiring.css';
import './try-it.css';
import { own } from './words.ts';

export function TryIt({ phone }: SheetProps): ReactElement {
  const [layer, setLayer] = useState<View>('all');
  const [zoom, setZoom] = useState<Zoom>('whole');
  const [probing, setProbing] = useState<string | null>(null);
  const { drawn, subject } = useDrawing(layer, phone, 0);
  const tried = useTried();
  const vehicle = useVehicle(tried);
  // Each by itself: the clock, which changes with every frame, concerns only the strip.
  const state = useStore(tryStore, (now) => now.state);
  const reading = useStore(tryStore, (now) => now.reading);
  const known = useStore(tryStore, (now) => now.vehicle);
  const probes = useStore(tryStore, (now) => now.probes);
  const probeRooms = useCallback(
    (measured: Measured, scale: number) => needleRooms(measured, probes, scale),
    [probes],
  );
  const troubles = useStore(tryStore, (now) => now.troubles);
  const forecast = useStore(tryStore, (now) => now.forecast);

  useEffect(() => void warmElk(), []);
  useEffect(() => {
    if (tried !== null && vehicle !== null) takeBuild(tried, vehicle);
  }, [tried, vehicle]);
  useEffect(() => {
    const { probes: set, record } = tryStore.get();
    if (set.length === 0 && subject !== null && vehicle !== null && record.length <= 1)
      setProbes(firstProbes(vehicle.converters[0], subject));
    // Only when a vehicle is first seen.
    // oxlint-disable-next-line react/exhaustive-deps
  }, [vehicle === null, subject === null]);
  useTime();

  const addProbe = (): void => {
    const letter = nextLetter(tryStore.get().probes);
    setProbes([...tryStore.get().probes, { letter, type: 'volts', plus: null, minus: null }]);
    setProbing(letter);
  };
  const probe = probes.find((each) => each.letter === probing) ?? null;
  const leave = (): void => {
    setProbes(tryStore.get().probes.filter(isSet));
    setProbing(null);
  };
  const keep = (): void => {
    const note = noteOf(tryStore.get(), subject);
    void edit([noteChange(buildStore.get().build?.notes, note)], own.noted).then(() => say(own.noted));
  };
  useTryKeys({ addProbe, keep });
  useEscape(probing !== null, leave);

  const hunting = useMemo(() => new Set((forecast?.cycling ?? []).map((each) => each.part)), [forecast]);
  const looks = useMemo(
    () => (drawn === null ? new Map() : looksOf(drawn.subject, reading, new Set())),
    [drawn, reading],
  );
  const press = (hit: Hit | null): void => {
    if (probe === null || hit === null) return;
    const next = placed(probe, hit);
    setProbe(next);
    if (isSet(next)) setProbing(null);
  };
  return (
    <div className="wiring try-it">
      <h1 className="unseen">{words.sheets.tryIt}</h1>
      <InState>
        <HandsLine phone={phone} />
      </InState>
      <div className={state === null ? 'wiring-body no-state' : 'wiring-body'}>
        {drawn === null ? (
          <p className="quiet">{wiring.drawing}</p>
        ) : (
          <DrawingView
            drawn={drawn}
            looks={looks}
            reading={reading}
            picked={NOTHING}
            zoom={phone ? 'place' : zoom}
            near={phone ? (known?.converters[0]?.part ?? null) : null}
            labels={false}
            terminals={probe?.type === 'volts'}
            onPress={press}
            keep={probeRooms}
          >
            {(at) => (
              <>
                {reading !== null && known !== null && <Pennants reading={reading} vehicle={known} {...at} />}
                <Troubles troubles={troubles} reading={reading} subject={drawn.subject} {...at} />
                {hunting.size > 0 && forecast !== null && (
                  <HuntingTags looks={[{ forecast: forecast }]} {...at} />
                )}
                <Probes probes={probes} {...at} />
                {probe?.type === 'volts' && (
                  <TerminalSpots chosen={new Set([probe.plus ?? '', probe.minus ?? ''])} {...at} />
                )}
              </>
            )}
          </DrawingView>
        )}
      </div>
      <div className="wiring-tools">
        <Choice
          name={wiring.layersTitle}
          of={['all', 'power', 'control', 'negative'] as const}
          words={wiring.layers}
          on={layer}
          set={setLayer}
        />
        {!phone && (
          <Choice
            name={wiring.zoomTitle}
            of={['whole', 'place', 'part'] as const}
            words={wiring.zooms}
            on={zoom}
            set={setZoom}
          />
        )}
      </div>
      {phone ? (
        <>
          <TryMargin subject={subject} />
          <p className="margin-pad">
            <button type="button" className="button" onClick={keep}>
              {own.note}
            </button>
          </p>
        </>
      ) : (
        <InMargin>
          <TryMargin subject={subject} />
        </InMargin>
      )}
      <InMarginFoot>
        <button type="button" className="button" onClick={keep}>
          {own.note} <kbd className="key">n</kbd>
        </button>
      </InMarginFoot>
      <InSlip>
        {probe === null ? (
          <TrialSlip subject={subject} probing={false} addProbe={addProbe} />
        ) : (
          <ProbeSlip key={probe.letter} probe={probe} subject={subject} set={setProbe} done={leave} />
        )}
      </InSlip>
    </div>
  );
}

const NOTHING: ReadonlySet<string> = new Set();

const setProbe = (next: Probe): void =>
  setProbes(tryStore.get().probes.map((each) => (each.letter === next.letter ? next : each)));

const isSet = (probe: Probe): boolean =>
  probe.type === 'clamp' ? probe.wire !== null : probe.plus !== null && probe.minus !== null;

/** Where a press puts the probe in hand. */
function placed(probe: Probe, hit: Hit): Probe {
  if (probe.type === 'clamp') return hit.type === 'wire' ? { ...probe, wire: hit.id } : probe;
  if (hit.type !== 'terminal') return probe;
  return probe.plus === null ? { ...probe, plus: hit.id } : { ...probe, minus: hit.id };
}

interface ChoiceProps<T extends string> {
  readonly name: string;
  readonly of: readonly T[];
  readonly words: Readonly<Record<T, string>>;
  readonly on: T;
  readonly set: (choice: T) => void;
}

function Choice<T extends string>({ name, of, words: spoken, on, set }: ChoiceProps<T>): ReactElement {
  return (
    <div className="segments" role="group" aria-label={name}>
      {of.map((each) => (
        <button key={each} type="button" aria-pressed={on === each} onClick={() => set(each)}>
          {spoken[each]}
        </button>
      ))}
    </div>
  );
}

/** Time runs with the screen's frames while the sheet is on view. */
function useTime(): void {
  useEffect(() => {
    let last: number | null = null;
    let frame = 0;
    const tick = (at: number): void => {
      // A sheet that was hidden for long goes on where it was, not where the wall's clock is.
      if (last !== null) advance(Math.min(250, at - last));
      last = at;
      frame = requestAnimationFrame(tick);
    };
    frame = requestAnimationFrame(tick);
    return () => cancelAnimationFrame(frame);
  }, []);
}

function useTryKeys({ addProbe, keep }: { readonly addProbe: () => void; readonly keep: () => void }): void {
  useEffect(() =>
    sheetKeys({
      k: () => stepHand('key', 1),
      K: () => stepHand('key', -1),
      e: () => stepHand(hasEngine() ? 'engine' : 'drive', 1),
      E: () => stepHand(hasEngine() ? 'engine' : 'drive', -1),
      s: () => flip(['switch']),
      b: () => flip(['breaker', 'isolator']),
      ',': () => stepState(-1),
      '.': () => stepState(1),
      ' ': () => setRate(tryStore.get().rate === 'hold' ? 'x1' : 'hold'),
      p: addProbe,
      n: keep,
    }),
  );
}

const hasEngine = (): boolean =>
  tryStore.get().vehicle?.hands.some((each) => each.hand === 'engine') === true;

function stepState(by: number): void {
  const { vehicle, state } = tryStore.get();
  const states = vehicle?.states ?? [];
  const at = states.findIndex((each) => each.id === state);
  const next = states[(at + by + states.length) % states.length];
  if (next !== undefined) goTo(next.id);
}

function useEscape(active: boolean, leave: () => void): void {
  useEffect(() => {
    if (!active) return undefined;
    const onKey = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape') return;
      event.preventDefault();
      leave();
    };
    document.addEventListener('keydown', onKey, true);
    return () => document.removeEventListener('keydown', onKey, true);
  });
}
