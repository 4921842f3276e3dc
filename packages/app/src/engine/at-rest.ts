/** Work that nobody waits for: it gives way while someone types or an edit is drawn, and begins again once all is calm. */

interface Waiting {
  readonly begin: () => void;
  readonly leave: () => void;
  /** So long nothing was typed or edited before it begins, ms. */
  readonly calm: number;
  timer: ReturnType<typeof setTimeout> | undefined;
}

const waiting = new Set<Waiting>();

/** Someone types, or an edit has begun: whatever nobody waits for is left now. */
export function giveWay(): void {
  for (const each of waiting) {
    clearTimeout(each.timer);
    each.leave();
    each.timer = setTimeout(each.begin, each.calm);
  }
}

/**
 * Begins work once nothing was typed or edited for `calm` ms; `leave` ends what of it is under way, and it is begun anew later.
 * Returns what takes it off for good.
 */
export function atRest({ begin, leave, calm }: Pick<Waiting, 'begin' | 'leave' | 'calm'>): () => void {
  const own: Waiting = { begin, leave, calm, timer: setTimeout(begin, calm) };
  waiting.add(own);
  return () => {
    waiting.delete(own);
    clearTimeout(own.timer);
    leave();
  };
}

if (typeof window !== 'undefined') addEventListener('input', giveWay, { capture: true, passive: true });
