/** The label on a wire: number, size, colour above it, length and protection below. */
import { NO_BREAK_SPACE } from '../../quantity/index.ts';
import type { SubjectWire } from '../subject.ts';
import {
  ASCENT,
  CAPITALS,
  DESCENT,
  LINE,
  roundUp,
  textWidth,
  widest,
  type Line,
  type Run,
} from '../text/measure.ts';
import type { Label } from './model.ts';

/** Baseline of the last line above the wire, and of the first below it, mm from the wire. */
export const ABOVE = 1.2;
export const BELOW = CAPITALS + 1.2;
const AIR = 0.6;

const plain = (text: string): Run => ({ text, strong: false });
const line = (...runs: readonly (Run | null)[]): Line =>
  runs.filter((run) => run !== null && run.text !== '').map((run) => run as Run);

/** The room of the largest number of the drawing, so that the order of the document moves nothing. */
export function numberRun(wire: Pick<SubjectWire, 'number' | 'digits'>): Run {
  const room = textWidth(`W${'0'.repeat(wire.digits)}`, 'strong');
  return { text: wire.number, strong: true, room };
}

const bodyRun = (wire: SubjectWire): Run =>
  plain([wire.size, wire.colour].filter((text) => text !== '').join(NO_BREAK_SPACE));

/** In one line each side, or `tall`: each word on its own line, for crowded places. */
export function wireLabel(wire: SubjectWire, tall: boolean): Label {
  if (wire.assumed) return boxed([line(plain(wire.number))], []);
  const body = bodyRun(wire);
  const below = [wire.length, wire.rating].filter((text) => text !== '');
  if (tall)
    return boxed(
      [line(numberRun(wire)), line(body)].filter(some),
      below.map((text) => line(plain(text))),
    );
  return boxed([line(numberRun(wire), body)], below.length === 0 ? [] : [line(plain(below.join(' · ')))]);
}

/** Number over the wire, size and colour under it: for the picture of the vehicle, where the rest is had by asking. */
export function briefLabel(wire: SubjectWire): Label {
  if (wire.assumed) return boxed([], []);
  return boxed([line(numberRun(wire))], [line(bodyRun(wire))].filter(some));
}

const some = (each: Line): boolean => each.length > 0;

function boxed(above: readonly Line[], below: readonly Line[]): Label {
  return {
    above,
    below,
    width: roundUp(Math.max(widest(above), widest(below)) + 2 * AIR),
    up: ABOVE + Math.max(0, above.length - 1) * LINE + ASCENT,
    down: below.length === 0 ? DESCENT : BELOW + (below.length - 1) * LINE + DESCENT,
  };
}
