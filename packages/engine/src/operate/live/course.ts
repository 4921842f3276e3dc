/** A course as it is played: what stands at a time, and the moment from which to go on. */
import type { LiveChange, LiveCourse, LiveMoment } from './types.ts';

/** The moment `ms` into a course: the last change before it, its delays run on. */
export function momentAt(course: LiveCourse, ms: number): LiveMoment {
  const last = changeAt(course, ms);
  if (last === null) return { memory: {}, left: {} };
  const gone = ms - last.atMs;
  const left = Object.fromEntries(
    Object.entries(last.moment.left).map(([key, wait]) => [key, Math.max(0, wait - gone)]),
  );
  return { memory: last.moment.memory, left };
}

/** What stands `ms` into a course. */
export function changeAt({ changes }: LiveCourse, ms: number): LiveChange | null {
  let found: LiveChange | null = null;
  for (const change of changes) {
    if (change.atMs > ms) break;
    found = change;
  }
  return found;
}
