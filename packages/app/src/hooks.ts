/** How the sheets see the build and the view. */
import { buildStore, type BuildState } from './build-store.ts';
import type { JudgedView } from './engine/plain.ts';
import { useStore } from './store/store.ts';
import { viewStore, type ViewState } from './view-store.ts';

/** One part of the state of the build on the desk. */
export const useFromBuild = <P>(pick: (state: BuildState) => P): P => useStore(buildStore, pick);

/** Its text. */
export const useText = (): string | null => useStore(buildStore, (state) => state.text);

/** The build as read: of the present text, or of the last text that could be read; null when there is none. */
export const useBuild = (): BuildState['build'] => useStore(buildStore, (state) => state.build);

export interface JudgedNow {
  readonly judged: JudgedView | null;
  /** A newer text is being judged; `judged` is that of an older one, but for what is judged anew already. */
  readonly judging: boolean;
}

/** The newest findings. */
export function useJudged(): JudgedNow {
  const judged = useStore(buildStore, (state) => state.judged);
  const judging = useStore(buildStore, (state) => state.judging);
  return { judged, judging };
}

/** While a newer text is being judged: ids of the findings that are of it already; else null. */
export const useAnew = (): ReadonlySet<string> | null =>
  useStore(buildStore, (state) => (state.judging ? state.anew : null));

/** Whether the findings that are there are those of the present text, and all of them. */
export const useJudgedNow = (): boolean =>
  useStore(buildStore, ({ judged, text }) => judged !== null && judged.text === text);

export const usePicked = (): string | null => useStore(viewStore, (state) => state.picked);
export const useView = <P>(pick: (view: ViewState) => P): P => useStore(viewStore, pick);
