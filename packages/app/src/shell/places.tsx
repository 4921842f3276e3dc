/** Where a sheet puts what does not stand in its own area. Each place belongs to one sheet at a time. */
import { createContext, useContext, type ReactElement, type ReactNode } from 'react';
import { createPortal } from 'react-dom';

export interface Places {
  readonly state: HTMLElement | null;
  readonly tools: HTMLElement | null;
  readonly margin: HTMLElement | null;
  readonly foot: HTMLElement | null;
  readonly slip: HTMLElement | null;
}

export const PlacesContext = createContext<Places>({
  state: null,
  tools: null,
  margin: null,
  foot: null,
  slip: null,
});

function In({ place, children }: { readonly place: keyof Places; readonly children: ReactNode }): ReactNode {
  const target = useContext(PlacesContext)[place];
  return target === null ? null : createPortal(children, target);
}

type Props = { readonly children: ReactNode };

/** Left part of the state line: the state and its hands, or the sheet's choice of view as `.segments`. */
export const InState = ({ children }: Props): ReactElement => <In place="state">{children}</In>;
/** Right part of the state line, before Find, Undo, Redo. */
export const InTools = ({ children }: Props): ReactElement => <In place="tools">{children}</In>;
/** The margin, while nothing else has taken it. Wrap parts in `<section className="margin-pad">`. */
export const InMargin = ({ children }: Props): ReactElement => <In place="margin">{children}</In>;
/** The foot of the margin: the one solid button stands here on the desk. */
export const InMarginFoot = ({ children }: Props): ReactElement => <In place="foot">{children}</In>;
/** The slip: one line at the foot of the sheet about what is picked up. */
export const InSlip = ({ children }: Props): ReactElement => <In place="slip">{children}</In>;
