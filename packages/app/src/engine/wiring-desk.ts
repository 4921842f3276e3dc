/** What the wiring sheet asks of the engine: what is drawn, slips, the schedule, names and places in the text. */
import {
  documentSchema,
  partKinds,
  type DrawingSubject,
  type JsonSchema,
  type KindEntry,
  type ScheduleRow,
  type Slip,
} from '@loomwright/engine';
import { sized } from './sized.ts';
import type { Sessions } from './sessions.ts';

export interface TextSpan {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

export function wiringDesk(sessions: Sessions) {
  return {
    subject: (text: string, auto: string | null): DrawingSubject | null => {
      const session = sized(sessions, text, auto);
      return session.build === null ? null : session.subject();
    },

    slip: (text: string, id: string): Slip | null => {
      const session = sessions.of(text);
      return session.build === null ? null : session.slip(id);
    },

    schedule: (text: string): readonly ScheduleRow[] => sessions.of(text).schedule(),

    kinds: (): readonly KindEntry[] => partKinds(),

    schema: (): JsonSchema => documentSchema(),

    /** Where something stands in the text; its key where the value is large. */
    span: (text: string, path: readonly (string | number)[]): TextSpan | null => {
      const { source } = sessions.of(text);
      return source.keySpan(path) ?? source.span(path);
    },
  };
}
