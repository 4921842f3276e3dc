/** The drawing with its live states, numbers of findings and what is picked up. */
import type { DrawingSubject, Finding, LiveReading, View } from '@loomwright/engine';
import { useMemo, type ReactElement } from 'react';
import type { StateLook } from '../../engine/live-desk.ts';
import { usePicked } from '../../hooks.ts';
import { pick } from '../../view-store.ts';
import type { Drop } from './drawing/dragging.ts';
import { DrawingView, type Zoom } from './drawing/DrawingView.tsx';
import { carryOut } from './edit/drop.ts';
import type { Hit } from './drawing/hit.ts';
import { looksOf } from './drawing/look.ts';
import { HuntingTags } from './drawing/HuntingTags.tsx';
import { FindingMarks, Grips, TerminalSpots } from './drawing/Marks.tsx';
import type { Drawn } from '../../engine/drawer.ts';
import { markedBy, numbered } from './margin/numbered.ts';
import type { Doing } from './Wiring.tsx';
import { OutlineMap } from './OutlineMap.tsx';
import { PartList } from './table/PartList.tsx';
import { own } from './words.ts';

interface Props {
  readonly drawn: Drawn | null;
  readonly subject: DrawingSubject | null;
  readonly reading: LiveReading | null;
  readonly looks: readonly StateLook[];
  readonly layer: View;
  readonly setLayer: (layer: View) => void;
  readonly zoom: Zoom;
  readonly phone: boolean;
  /** On the phone: the place on view. */
  readonly place: string | null;
  readonly doing: Doing;
  readonly setDoing: (doing: Doing) => void;
  readonly findings?: readonly Finding[];
}

export function Picture(props: Props): ReactElement {
  const { drawn, subject, reading, looks, layer, zoom, doing, setDoing, findings = [] } = props;
  const picked = usePicked();
  const marked = useMemo(() => markedBy(picked, findings), [picked, findings]);
  const list = useMemo(() => numbered(findings), [findings]);
  const hunting = useMemo(() => huntingWires(looks, subject), [looks, subject]);
  const dressed = useMemo(
    () => (drawn === null ? new Map() : looksOf(drawn.subject, reading, hunting)),
    [drawn, reading, hunting],
  );
  const unwired =
    subject === null
      ? []
      : [...subject.parts.values()].filter(
          (part) => part.wired.size === 0 && !joinedByAssumption(subject, part.id),
        );
  const joining = doing.type === 'joining';
  const chosen = new Set(joining ? [doing.ends.from ?? '', doing.ends.to ?? ''] : []);
  const press = (hit: Hit | null): void => {
    if (joining && hit !== null && hit.type !== 'wire') {
      const end = hit.type === 'terminal' ? hit.id : `${hit.id}.`;
      const { from, to } = doing.ends;
      const open = from === null || from.endsWith('.');
      setDoing({ type: 'joining', ends: open ? { from: end, to } : { from, to: end } });
      return;
    }
    // A line that stands for sitting at the battery's posts is no wire of the build: its part is meant.
    const wire = hit?.type === 'wire' ? subject?.wires.get(hit.id) : undefined;
    const id = wire?.assumed === true ? wire.from.part : (hit?.id ?? null);
    pick(id === picked ? null : id);
  };
  return (
    <>
      {drawn?.form === 'sheet' && layer === 'all' && !props.phone && (
        <OutlineMap subject={drawn.subject} here={placeOf(picked, drawn.subject)} press={pick} />
      )}
      <div className="wiring-body">
        {drawn === null ? (
          <p className="quiet">{subject?.wires.size === 0 ? own.nothing : own.drawing}</p>
        ) : drawn.wired ? (
          <DrawingView
            drawn={drawn}
            looks={dressed}
            reading={reading}
            picked={marked}
            zoom={props.phone ? 'place' : zoom}
            place={props.place}
            terminals={joining}
            near={[...marked][0] ?? null}
            onPress={press}
            {...(props.phone
              ? {}
              : { onDrop: (drop: Drop) => void carryOut(drop, drawn.subject, drawn.view) })}
          >
            {(at) => (
              <>
                <Grips picked={marked} {...at} />
                <HuntingTags looks={looks} {...at} />
                <FindingMarks list={list} press={pick} {...at} />
                {joining && <TerminalSpots chosen={chosen} {...at} />}
              </>
            )}
          </DrawingView>
        ) : (
          <p className="quiet">
            {layer === 'all' ? own.nothing : own.nothingInView(own.layers[layer].toLowerCase())}
          </p>
        )}
      </div>
      {props.place !== null && subject !== null && (
        <div className="phone-list">
          <PartList subject={subject} reading={reading} only={props.place} />
        </div>
      )}
      {unwired.length > 0 && (
        <div className="unwired">
          <span className="small quiet">{own.unwired}:</span>
          {unwired.map((part) => (
            <button
              key={part.id}
              type="button"
              className="button"
              aria-pressed={picked === part.id}
              onClick={() => pick(part.id)}
            >
              <b>{part.designation}</b> {part.name}
            </button>
          ))}
        </div>
      )}
    </>
  );
}

const placeOf = (picked: string | null, subject: DrawingSubject): string | null =>
  subject.places.find((place) => place.id === picked)?.id ?? subject.parts.get(picked ?? '')?.place ?? null;

/** Parts without wires that are taken to sit at the battery's posts are drawn there. */
const joinedByAssumption = (subject: DrawingSubject, part: string): boolean =>
  [...subject.wires.values()].some((wire) => wire.assumed && wire.from.part === part);

/** Wires of converters that go on and off: those at their terminals that carry current. */
function huntingWires(looks: readonly StateLook[], subject: DrawingSubject | null): ReadonlySet<string> {
  const parts = new Set(looks.flatMap((look) => look.forecast.cycling.map((each) => each.part)));
  const wires = [...(subject?.wires.values() ?? [])].filter(
    (wire) => wire.view === 'power' && (parts.has(wire.from.part) || parts.has(wire.to.part)),
  );
  return new Set(wires.map((wire) => wire.id));
}
