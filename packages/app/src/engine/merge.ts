/** Brings two edits of one build together: what meets on the same value is named, the rest goes by itself. */
import type { Change, DocumentSource } from '@loomwright/engine';
import { diffNotation } from './notation-diff.ts';
import type { Sessions } from './sessions.ts';

type Notation = ReturnType<DocumentSource['notation']>;

/** One value that both changed. */
export interface Meeting {
  readonly path: readonly (string | number)[];
  readonly before: string;
  readonly yours: string;
  readonly theirs: string;
}

export interface Merged {
  /** Yours laid on theirs; null when that cannot be done value by value. */
  readonly text: string | null;
  readonly meetings: readonly Meeting[];
  /** Number of your changes. */
  readonly yours: number;
}

export function mergeDesk(sessions: Sessions) {
  return {
    merge(base: string | null, mine: string, theirs: string): Merged {
      const [was, is, other] = [base ?? '', mine, theirs].map((text) =>
        sessions.of(text).source.notation([]),
      );
      if (base === null || was === undefined || is === undefined || other === undefined)
        return { text: null, meetings: [], yours: 1 };
      const yours = diffNotation(was, is);
      const others = diffNotation(was, other);
      if (yours.length === 0) return { text: null, meetings: [], yours: 1 };
      const at = (text: string, path: readonly (string | number)[]): string =>
        words(sessions.of(text).source.notation(path));
      const meetings = yours.flatMap((change) => {
        const path = pathOf(change);
        const met = others.some((theirChange) => touches(path, pathOf(theirChange)));
        if (!met || at(mine, path) === at(theirs, path)) return [];
        return [{ path, before: at(base, path), yours: at(mine, path), theirs: at(theirs, path) }];
      });
      const fresh = yours.filter((change) => at(mine, pathOf(change)) !== at(theirs, pathOf(change)));
      const laid = sessions.of(theirs).edit(fresh);
      return { text: laid.build === null ? null : laid.source.text, meetings, yours: yours.length };
    },
  };
}

const pathOf = (change: Change): readonly (string | number)[] =>
  'set' in change ? change.set : 'remove' in change ? change.remove : change.add;

/** Whether one path is the other or leads to it. */
function touches(a: readonly (string | number)[], b: readonly (string | number)[]): boolean {
  const shorter = Math.min(a.length, b.length);
  return a.slice(0, shorter).every((key, index) => String(key) === String(b[index]));
}

function words(value: Notation): string {
  if (value === undefined) return 'not there';
  return typeof value === 'object' ? JSON.stringify(value) : String(value);
}
