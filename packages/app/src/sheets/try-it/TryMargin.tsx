/** Beside the drawing: what is happening, in words; the source and its window; the readings; the strip. */
import { printValue, type DrawingSubject } from '@loomwright/engine';
import { useLayoutEffect, useRef, useState, type ReactElement } from 'react';
import { VerdictMark } from '../../marks/VerdictMark.tsx';
import { useStore } from '../../store/store.ts';
import { happeningOf, partName } from './happening.ts';
import { pensOf } from './pens.ts';
import { printProbe, probeValue, probeWords } from './probes.ts';
import { meanOf, Strip } from './Strip.tsx';
import { setCorner, setProbes, setSource, tryStore } from './try-store.ts';
import { WindowAxis, windowWords } from './WindowAxis.tsx';
import { own } from './words.ts';

export function TryMargin({ subject }: { readonly subject: DrawingSubject | null }): ReactElement {
  return (
    <div className="try-margin">
      <Happening />
      <Source />
      <Readings subject={subject} />
      <StripSection subject={subject} />
      <Events />
    </div>
  );
}

function Happening(): ReactElement {
  const now = useStore(tryStore, (state) => state);
  const { bad, title, lines } = happeningOf(now);
  return (
    <section className="margin-pad happening" aria-live="off">
      <h2>
        {bad && <VerdictMark verdict="fault" />}
        {title}
      </h2>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </section>
  );
}

/** How far the slider goes, V for each 12 V. */
const LOW = 11;
const HIGH = 15.5;

function Source(): ReactElement | null {
  const { vehicle, window, source, usual, corner } = useStore(tryStore, (state) => state);
  if (vehicle === null) return null;
  const blocks = vehicle.nominal / 12;
  const [low, high] = [LOW * blocks, HIGH * blocks];
  const stands = source ?? usual;
  return (
    <section className="margin-pad source">
      {window !== null && (
        <>
          <WindowAxis window={window} stands={stands} low={low} high={high} />
          <p className="small">{windowWords(window)}</p>
        </>
      )}
      <label className="source-slider">
        <span className="small">
          {usual === null ? own.sourceRest : own.source}:{' '}
          <b>{stands === null ? own.asVehicle : printValue(stands, 'V')}</b>
        </span>
        <input
          type="range"
          min={low}
          max={high}
          step={0.01}
          value={stands ?? 12.6 * blocks}
          aria-valuetext={stands === null ? own.asVehicle : printValue(stands, 'V')}
          onChange={(event) => setSource(Number(event.target.value))}
        />
      </label>
      <div className="source-line">
        <button
          type="button"
          className="button"
          aria-disabled={source === null}
          onClick={() => setSource(null)}
        >
          {own.asVehicle}
        </button>
        <label className="field">
          <span className="unseen">{own.corner}</span>
          <select value={corner} onChange={(event) => setCorner(event.target.value as typeof corner)}>
            {vehicle.corners.map(({ id, words }) => (
              <option key={id} value={id}>
                {words}
              </option>
            ))}
          </select>
        </label>
      </div>
    </section>
  );
}

function Readings({ subject }: { readonly subject: DrawingSubject | null }): ReactElement | null {
  const { probes, reading } = useStore(tryStore, (state) => state);
  if (probes.length === 0) return null;
  return (
    <section className="readings" aria-label={own.readings}>
      {probes.map((probe) => {
        const value = probeValue(probe, reading, subject);
        return (
          <div key={probe.letter} className="probe-reading">
            <span className="probe-value">{printProbe(probe, value)}</span>
            <span className="probe-letter">{probe.letter}</span>
            <span className="small quiet">{probeWords(probe, subject)}</span>
            <button
              type="button"
              className="probe-away"
              aria-label={own.removeProbe(probe.letter)}
              onClick={() => setProbes(probes.filter((each) => each !== probe))}
            >
              <svg width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
                <path d="m1 1 10 10M11 1 1 11" stroke="currentColor" strokeWidth="2" />
              </svg>
            </button>
          </div>
        );
      })}
    </section>
  );
}

function StripSection({ subject }: { readonly subject: DrawingSubject | null }): ReactElement | null {
  const { vehicle, probes, record, clock, rate } = useStore(tryStore, (state) => state);
  const place = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState({ width: 380, height: 300 });
  useLayoutEffect(() => {
    const element = place.current;
    if (element === null) return undefined;
    const look = (): void =>
      setSize({ width: element.clientWidth, height: Math.max(220, element.clientHeight) });
    const observer = new ResizeObserver(look);
    observer.observe(element);
    look();
    return () => observer.disconnect();
  }, []);
  const pens = vehicle === null ? [] : pensOf(vehicle, probes, subject);
  const output = pens.find((pen) => pen.id === 'output');
  const mean = output === undefined ? null : meanOf(output, record, clock);
  return (
    <section className="strip-section" aria-label={own.strip}>
      <div className="strip-place" ref={place}>
        {pens.length > 0 && <Strip pens={pens} record={record} clock={clock} rate={rate} {...size} />}
      </div>
      {mean !== null && (
        <p className="small margin-pad strip-mean">{own.mean('output', printValue(mean, 'A'))}</p>
      )}
    </section>
  );
}

const MOST = 6;

function Events(): ReactElement | null {
  const { record, vehicle, clock } = useStore(tryStore, (state) => state);
  const last = record
    .filter((each) => each.events.length > 0)
    .slice(-MOST)
    .toReversed();
  if (last.length === 0) return null;
  return (
    <section className="margin-pad events">
      <h3 className="small strong">{own.events}</h3>
      <ul className="small">
        {last.map(({ atMs, events }) => (
          <li key={atMs}>
            {printValue(Math.floor(Math.max(0, clock - atMs) / 1000) * 1000, 'ms', true)} ago:{' '}
            {events
              .map(
                ({ part, to, says }) => `${partName(vehicle, part)} ${to}${says === '' ? '' : ` (${says})`}`,
              )
              .join(', ')}
          </li>
        ))}
      </ul>
    </section>
  );
}
