/** What a sheet is. */
import type { ComponentType, LazyExoticComponent } from 'react';
import type { SheetId } from '../view-store.ts';

/**
 * Given to every sheet. A sheet draws its content and may fill, by the components of `shell/places.tsx`: `<InState>` (left of
 * the state line), `<InTools>` (right of it), `<InMargin>` and `<InSlip>`. Its one `<h1>` it draws itself.
 */
export interface SheetProps {
  /** Narrower than 768 px. */
  readonly phone: boolean;
}

export interface Sheet {
  readonly id: SheetId;
  /** Its digit, which is its key as well. */
  readonly digit: number;
  readonly name: string;
  readonly component: ComponentType<SheetProps> | LazyExoticComponent<ComponentType<SheetProps>>;
}
