/** Wiring. */
import type { ReactElement } from 'react';
import type { SheetProps } from '../sheet.ts';

export function Wiring(_props: SheetProps): ReactElement {
  return <h1 className="lead">Wiring</h1>;
}
