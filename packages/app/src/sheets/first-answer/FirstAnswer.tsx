/** First answer. */
import type { ReactElement } from 'react';
import type { SheetProps } from '../sheet.ts';

export function FirstAnswer(_props: SheetProps): ReactElement {
  return <h1 className="lead">First answer</h1>;
}
