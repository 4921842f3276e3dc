/** What is on view on this device: the sheet, what is picked up, the margin, theme, units. None of it belongs to the build. */
import type { StateId } from '@loomwright/engine';
import { Store } from './store/store.ts';

export type SheetId = 'first' | 'survey' | 'wiring' | 'try-it';
export type Theme = 'light' | 'dark' | 'glare' | 'system';
export type Units = 'metric' | 'imperial';
/** What has taken the margin, on any sheet; null: the sheet's own. */
export type MarginView = 'findings' | 'builds' | 'find' | 'keys' | 'saving' | 'build' | null;

export interface ViewState {
  readonly sheet: SheetId;
  /** Part, wire, place or finding that is picked up. */
  readonly picked: string | null;
  readonly margin: MarginView;
  /** On the phone: the margin covers the sheet; the title block is raised. */
  readonly marginUp: boolean;
  readonly blockUp: boolean;
  readonly theme: Theme;
  readonly units: Units;
  /** Single keys can be switched off (WCAG 2.1.4). */
  readonly keys: boolean;
  /** The person at this device, for revisions and confirmations. */
  readonly who: string;
  /** The vehicle state on view, for sheets that show one. */
  readonly vehicleState: StateId | null;
  /** Said once to those who listen instead of look. */
  readonly polite: string;
  readonly assertive: string;
}

const KEPT = 'loomwright:view';
type Kept = Pick<ViewState, 'theme' | 'units' | 'keys' | 'who'>;

function kept(): Partial<Kept> {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(KEPT) ?? '{}');
    return typeof read === 'object' && read !== null ? read : {};
  } catch {
    return {};
  }
}

export const viewStore = new Store<ViewState>({
  sheet: 'first',
  picked: null,
  margin: null,
  marginUp: false,
  blockUp: false,
  theme: 'system',
  units: 'metric',
  keys: true,
  who: '',
  vehicleState: null,
  polite: '',
  assertive: '',
  ...kept(),
});

export function keepView(change: Partial<Kept>): void {
  viewStore.set(change);
  const { theme, units, keys, who } = viewStore.get();
  try {
    localStorage.setItem(KEPT, JSON.stringify({ theme, units, keys, who }));
  } catch {
    // A browser that keeps nothing still shows everything.
  }
}

/** Picks up a part, wire, place or finding by its id; null lets go. */
export function pick(id: string | null): void {
  viewStore.set({ picked: id });
}

export function showSheet(sheet: SheetId): void {
  viewStore.set({ sheet, blockUp: false, marginUp: false, margin: null });
}

/** Gives the margin to something else than the sheet; the same again gives it back. */
export function showMargin(margin: MarginView): void {
  const now = viewStore.get();
  const same = now.margin === margin && now.marginUp;
  viewStore.set({ margin: same ? null : margin, marginUp: margin !== null && !same, blockUp: false });
}

export const say = (polite: string): void => viewStore.set({ polite });
export const warn = (assertive: string): void => viewStore.set({ assertive });
