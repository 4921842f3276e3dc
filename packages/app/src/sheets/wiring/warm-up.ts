/** Edits that nobody makes, once a build is open and judged: an engine that was never asked is slow when the first real one comes. */
import type { Build, Change } from '@loomwright/engine';
import { useEffect } from 'react';
import { buildStore, foresee } from '../../build-store.ts';
import { atRest } from '../../engine/at-rest.ts';
import { useFromBuild } from '../../hooks.ts';

/** After opening and judging, ms. */
const CALM = 150;
const ROUNDS = 6;

/** How often it was asked; only once a page: what was warm stays so. */
let rounds = 0;

export function useWarmEngine(): void {
  const judged = useFromBuild((state) => state.judged !== null);
  useEffect(() => {
    if (!judged || rounds >= ROUNDS) return undefined;
    return atRest({
      begin: () => void warm(),
      // A real edit is the better exercise.
      leave: () => {
        rounds = ROUNDS;
      },
      calm: CALM,
    });
  }, [judged]);
}

async function warm(): Promise<void> {
  const { build } = buildStore.get();
  const changes = build === null ? null : madeUp(build, rounds);
  if (changes === null || rounds >= ROUNDS) return;
  rounds += 1;
  await foresee(changes);
  await warm();
}

/** Another rating of something, that is never shown; null: nothing has one. */
function madeUp({ parts }: Build, round: number): readonly Change[] | null {
  const rated = [...parts.values()].filter((part) => 'rating' in part.fields);
  const part = rated[round % Math.max(1, rated.length)];
  return part === undefined ? null : [{ set: ['parts', part.id, 'rating'], to: `${10 + 5 * round} A` }];
}
