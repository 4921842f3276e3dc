/** What is wrong with what was just given, said at once; nothing where nothing is. */
import type { ReactElement } from 'react';
import { VerdictMark } from './VerdictMark.tsx';

export function Problem({ says }: { readonly says: string }): ReactElement | null {
  if (says === '') return null;
  return (
    <p className="mend small" role="alert">
      <VerdictMark verdict="fault" small /> {says}
    </p>
  );
}
