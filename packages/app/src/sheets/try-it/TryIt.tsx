/** Try it. */
import type { ReactElement } from 'react';
import type { SheetProps } from '../sheet.ts';

export function TryIt(_props: SheetProps): ReactElement {
  return <h1 className="lead">Try it</h1>;
}
