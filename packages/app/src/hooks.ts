/** How the sheets see the build and the view. */
import { buildStore, type BuildState } from './build-store.ts';
import type { JudgedView } from './engine/plain.ts';
import { useStore } from './store/store.ts';
import { viewStore, type ViewState } from './view-store.ts';

/** The whole state of the build on the desk. */
export const useBuildState = (): BuildState => useStore(buildStore, (state) => state);

/** The build as read: of the present text, or of the last text that could be read; null when there is none. */
export const useBuild = (): BuildState['build'] => useStore(buildStore, (state) => state.build);

export interface JudgedNow {
  readonly judged: JudgedView | null;
  /** A newer text is being judged; `judged` is that of an older one. */
  readonly judging: boolean;
}

/** The newest findings. */
export function useJudged(): JudgedNow {
  const judged = useStore(buildStore, (state) => state.judged);
  const judging = useStore(buildStore, (state) => state.judging);
  return { judged, judging };
}

export const usePicked = (): string | null => useStore(viewStore, (state) => state.picked);
export const useView = <P>(pick: (view: ViewState) => P): P => useStore(viewStore, pick);
