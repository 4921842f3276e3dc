/** Survey. */
import type { ReactElement } from 'react';
import type { SheetProps } from '../sheet.ts';

export function Survey(_props: SheetProps): ReactElement {
  return <h1 className="lead">Survey</h1>;
}
