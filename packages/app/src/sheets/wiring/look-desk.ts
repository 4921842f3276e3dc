/** The desk that looks and tries: states on view and builds tried out, apart from judging, so that neither waits. */
import type { StateId } from '@loomwright/engine';
import { useEffect, useState } from 'react';
import type { LiveVehicle, StateLook, Tried } from '../../engine/live-desk.ts';
import { NewestDesk } from '../../engine/newest.ts';
import { useJudgedNow } from '../../hooks.ts';
import { useReadable } from './use-drawing.ts';

export const lookDesk = new NewestDesk();

export const keyOf = ({ text, auto }: Tried): string => `${auto ?? ''}\n${text}`;

/** After an edit drawing and judging come first, ms. */
const CALM = 120;

/** What can be tried now: the readable text, once the size of its `auto` wires is known. */
export function useTried(): Tried | null {
  const { text, auto } = useReadable();
  const judged = useJudgedNow();
  const [tried, setTried] = useState<Tried | null>(null);
  const ready = text !== null && (judged || (auto === null ? !/\bauto\b/.test(text) : true));
  const first = tried === null;
  useEffect(() => {
    if (text === null) setTried(null);
    if (text === null || !ready) return undefined;
    const take = (): void =>
      setTried((last) => (last?.text === text && last.auto === auto ? last : { text, auto }));
    if (first) {
      take();
      return undefined;
    }
    const timer = setTimeout(take, CALM);
    return () => clearTimeout(timer);
  }, [text, auto, ready, first]);
  return tried;
}

/** What the vehicle has; the last one known while a newer build is looked at. */
export function useVehicle(tried: Tried | null): LiveVehicle | null {
  const [vehicle, setVehicle] = useState<LiveVehicle | null>(null);
  useEffect(() => {
    let stale = false;
    if (tried === null) return undefined;
    void lookDesk
      .ask(keyOf(tried), async (desk) => await desk.liveVehicle(tried))
      .then((found) => {
        if (!stale && found !== null) setVehicle(found);
      });
    return () => {
      stale = true;
    };
  }, [tried]);
  return vehicle;
}

/** How a state comes out, each way; the last one known meanwhile. */
export function useLooks(tried: Tried | null, state: StateId | null): readonly StateLook[] {
  const [looks, setLooks] = useState<readonly StateLook[]>([]);
  useEffect(() => {
    let stale = false;
    if (tried === null || state === null) return undefined;
    void lookDesk
      .ask(keyOf(tried), async (desk) => await desk.look(tried, state))
      .then((found) => {
        if (!stale && found !== null) setLooks(found);
      });
    return () => {
      stale = true;
    };
  }, [tried, state]);
  return looks;
}
