/** The slip of what is picked up. */
import type { Slip } from '@loomwright/engine';
import { useEffect, useState } from 'react';
import { reader } from '../../../build-store.ts';
import { useReadable } from '../use-drawing.ts';

export function useSlip(picked: string | null): Slip | null {
  const { text } = useReadable();
  const [slip, setSlip] = useState<Slip | null>(null);
  useEffect(() => {
    let stale = false;
    if (picked === null || text === null) {
      setSlip(null);
      return undefined;
    }
    void reader.ask.slip(text, picked).then((found) => {
      if (!stale) setSlip(found);
    });
    return () => {
      stale = true;
    };
  }, [picked, text]);
  return slip;
}
