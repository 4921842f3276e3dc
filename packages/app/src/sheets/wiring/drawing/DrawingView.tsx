/** A drawing on the screen: zoomed in steps, pressed, walked through by arrow keys, with whatever is hung on it. */
import {
  useCallback,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
  type KeyboardEvent,
  type MouseEvent,
  type ReactElement,
  type ReactNode,
} from 'react';
import type { LiveReading } from '@loomwright/engine';
import type { Drop } from './dragging.ts';
import { DrawingOver, type DrawingHandle } from './DrawingOver.tsx';
import { focusSpot, makeFocusable } from './focusing.ts';
import { hitAt, nextThatWay, type Hit, type Way } from './hit.ts';
import { FAR, PX_PER_MM, type WireLook } from './look.ts';
import { along, EMPTY, measure, type Box, type Measured, type Point } from './measure.ts';
import type { Drawn } from '../../../engine/drawer.ts';
import { Shown } from './shown.ts';
import { useDragging } from './use-dragging.ts';
import './drawing.css';

export type Zoom = 'whole' | 'place' | 'part';

interface Props {
  readonly drawn: Drawn;
  readonly looks: ReadonlyMap<string, WireLook>;
  /** For the amperes along the wires; null: none are known. */
  readonly reading: LiveReading | null;
  /** Parts and wires on the marker. */
  readonly picked: ReadonlySet<string>;
  readonly zoom: Zoom;
  /** Sizes and lengths stand on the wires (default); without them figures have more room. */
  readonly labels?: boolean;
  /** Presses look for terminals first. */
  readonly terminals?: boolean;
  /** Kept in view. */
  readonly near?: string | null;
  /** A place that is brought to the left edge. */
  readonly place?: string | null;
  readonly onPress: (hit: Hit | null) => void;
  /** Parts and ends of wires can be dragged. */
  readonly onDrop?: (drop: Drop) => void;
  /** Room in which no figure is to stand. */
  readonly keep?: (measured: Measured, scale: number) => readonly Box[];
  /** Drawn over it, in millimetres. */
  readonly children?: (at: DrawingHandle) => ReactNode;
}

const UNMEASURED: { readonly measured: Measured; readonly of: Drawn | null } = { measured: EMPTY, of: null };

/** After an edit the room of new words is measured, ms. */
const CALM = 100;

const ARROWS: ReadonlySet<string> = new Set(['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown']);

export function DrawingView(props: Props): ReactElement {
  const {
    drawn,
    looks,
    reading,
    picked,
    zoom,
    labels = true,
    terminals = false,
    near = null,
    place = null,
    onPress,
    onDrop,
    keep,
    children,
  } = props;
  const scroller = useRef<HTMLDivElement>(null);
  const ink = useRef<HTMLDivElement>(null);
  const [{ measured, of }, setMeasured] = useState(UNMEASURED);
  const [focused, setFocused] = useState<string | null>(null);
  const room = useRoom(scroller);
  const scale = scaleOf(drawn, room, zoom);

  const shownIn = useRef<Shown | null>(null);

  useLayoutEffect(() => {
    const place = ink.current;
    if (place === null) return;
    const paper = (shownIn.current ??= new Shown());
    paper.show(drawn.cut);
    if (paper.svg.parentElement !== place) place.replaceChildren(paper.svg);
    const found = measure(paper.svg, drawn.subject, true);
    makeFocusable(paper.svg, found);
    setMeasured({ measured: found, of: drawn });
  }, [drawn]);
  useEffect(() => {
    if (measured.sure || of === null) return undefined;
    // Once it is painted the page is laid out, and measuring costs little.
    const timer = setTimeout(() => {
      const paper = shownIn.current;
      if (paper === null) return;
      const found = measure(paper.svg, of.subject);
      makeFocusable(paper.svg, found);
      setMeasured({ measured: found, of });
    }, CALM);
    return () => clearTimeout(timer);
  }, [measured, of]);

  const spots = useMemo(() => (terminals ? measured.terminals : spotsOf(measured)), [measured, terminals]);
  useNear(scroller, near, spots, scale);
  useEffect(() => {
    const band = measured.places.find((each) => each.id === place);
    if (band === undefined) return;
    const room = scroller.current?.clientWidth ?? 0;
    const spare = Math.max(0, room - (band.box.right - band.box.left) * scale) / 2;
    const tops = [...measured.parts.values()].flatMap(({ id, whole }) =>
      of?.subject.parts.get(id)?.place === place ? [whole.top] : [],
    );
    const top = tops.length === 0 ? 0 : Math.max(0, Math.min(...tops) * scale - 56);
    scroller.current?.scrollTo({ left: band.box.left * scale - Math.min(spare, 24), top });
  }, [measured, place, scale, of]);

  const toMillimetres = useCallback(
    (event: MouseEvent): Point => {
      const box = ink.current?.getBoundingClientRect();
      return { x: (event.clientX - (box?.left ?? 0)) / scale, y: (event.clientY - (box?.top ?? 0)) / scale };
    },
    [scale],
  );

  const { dragged, handlers } = useDragging({
    ground:
      onDrop === undefined || terminals
        ? null
        : { measured, subject: drawn.subject, ordered: drawn.form === 'sheet' },
    scale,
    toMillimetres,
    onDrop: onDrop ?? (() => undefined),
  });

  const walk = (event: KeyboardEvent): void => {
    const own = (event.target as Element).closest<SVGElement>('[data-spot]')?.dataset['spot'] ?? null;
    if (event.key === 'Enter' || event.key === ' ') {
      if (own === null) return;
      event.preventDefault();
      onPress(hitOf(own, measured, terminals));
      return;
    }
    if (!ARROWS.has(event.key) || event.ctrlKey || event.altKey) return;
    event.preventDefault();
    const from = spots.get(own ?? '') ?? { x: 0, y: 0 };
    const next = nextThatWay(spots, from, event.key as Way, own);
    if (next !== null) focusSpot(ink.current, next);
  };

  return (
    <div className="drawing-scroll" ref={scroller}>
      {/* oxlint-disable-next-line jsx-a11y/no-static-element-interactions -- what is pressed are the parts and wires inside; the keys bubble up from them */}
      <div
        className={`drawing-stage zoom-${detailOf(scale)}${labels ? '' : ' bare'}${dragged === null ? '' : ' dragging'}`}
        style={{ width: drawn.width * scale, height: drawn.height * scale, ['--mm' as string]: 1 / scale }}
        onClick={(event) => onPress(hitAt(measured, toMillimetres(event), scale, terminals))}
        {...handlers}
        onKeyDown={walk}
        onFocus={(event) => setFocused(ringed(event.target))}
        onBlur={() => setFocused(null)}
      >
        <div className="drawing-ink" ref={ink} />
        <DrawingOver
          fits={of === drawn}
          {...{
            drawn,
            measured,
            ink,
            looks,
            reading,
            picked,
            scale,
            labels,
            focused,
            dragged,
            keep,
            children,
          }}
        />
      </div>
    </div>
  );
}

const spotOf = (element: Element | null): string | null =>
  element?.closest<SVGElement>('[data-spot]')?.dataset['spot'] ?? null;

/** The ring is for those who came by keys. */
const ringed = (target: Element): string | null => (target.matches(':focus-visible') ? spotOf(target) : null);

const detailOf = (scale: number): string => (scale < FAR ? 'far' : scale < 6.4 ? 'mid' : 'near');

/** Largest that still shows all of it; or near enough to read sizes; or near enough to read terminals. */
export function scaleOf(
  drawn: Drawn,
  room: { readonly width: number; readonly height: number },
  zoom: Zoom,
): number {
  const fit = Math.min(room.width / drawn.width, room.height / drawn.height, 6);
  if (zoom === 'whole') return Math.max(0.6, fit);
  return zoom === 'place' ? Math.max(PX_PER_MM, fit * 1.2) : Math.max(7.4, fit * 1.9);
}

function useRoom(scroller: { readonly current: HTMLDivElement | null }): {
  readonly width: number;
  readonly height: number;
} {
  const [room, setRoom] = useState({ width: 800, height: 500 });
  useLayoutEffect(() => {
    const element = scroller.current;
    if (element === null) return undefined;
    const look = (): void => setRoom({ width: element.clientWidth - 2, height: element.clientHeight - 2 });
    look();
    const observer = new ResizeObserver(look);
    observer.observe(element);
    return () => observer.disconnect();
  }, [scroller]);
  return room;
}

const middle = ({ left, right, top, bottom }: Box): Point => ({
  x: (left + right) / 2,
  y: (top + bottom) / 2,
});

/** Where focus may stand: middles of parts and wires. */
function spotsOf({ parts, wires }: Measured): ReadonlyMap<string, Point> {
  return new Map([
    ...[...parts.values()].map(({ id, box }) => [id, middle(box)] as const),
    ...[...wires.values()].map(
      ({ id, label, points, length }) =>
        [id, label === null ? along(points, length / 2) : middle(label)] as const,
    ),
  ]);
}

function hitOf(id: string, { parts, wires }: Measured, terminals: boolean): Hit {
  if (terminals && !parts.has(id) && !wires.has(id)) return { type: 'terminal', id };
  const wire = wires.get(id);
  return wire === undefined
    ? { type: 'part', id }
    : { type: 'wire', id, at: along(wire.points, wire.length / 2) };
}

function useNear(
  scroller: { readonly current: HTMLDivElement | null },
  near: string | null,
  spots: ReadonlyMap<string, Point>,
  scale: number,
): void {
  const spot = near === null ? undefined : spots.get(near);
  const [x, y] = spot === undefined ? [NaN, NaN] : [spot.x * scale, spot.y * scale];
  // Only where it is another place: to ask where the page is scrolled to lays it out.
  useEffect(() => {
    const element = scroller.current;
    if (element === null || Number.isNaN(x)) return;
    const { scrollLeft, scrollTop, clientWidth, clientHeight } = element;
    const seen =
      x > scrollLeft + 40 &&
      x < scrollLeft + clientWidth - 40 &&
      y > scrollTop + 40 &&
      y < scrollTop + clientHeight - 40;
    if (!seen) element.scrollTo({ left: x - clientWidth / 2, top: y - clientHeight / 2 });
  }, [scroller, near, x, y]);
}
