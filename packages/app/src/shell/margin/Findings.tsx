/** The findings on any sheet: as beside the drawing, with working and remedies. */
import type { DrawingSubject } from '@loomwright/engine';
import { useEffect, useState, type ReactElement } from 'react';
import { reader } from '../../build-store.ts';
import { useFromBuild, useText } from '../../hooks.ts';
import { FindingsMargin } from '../../sheets/wiring/margin/FindingsMargin.tsx';
import '../../sheets/wiring/wiring.css';

export function Findings(): ReactElement {
  const text = useText();
  const readable = useFromBuild((state) => state.readable);
  const [subject, setSubject] = useState<DrawingSubject | null>(null);
  useEffect(() => {
    let here = true;
    if (text !== null && readable)
      void reader.ask
        .subject(text, null)
        .then((found) => here && setSubject(found))
        .catch(() => undefined);
    return () => {
      here = false;
    };
  }, [text, readable]);
  return <FindingsMargin subject={subject} />;
}
