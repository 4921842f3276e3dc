/** What a choice would do to the answer, in few words. */
import type { RowView } from '../../engine/first.ts';

const SHORT: Readonly<Record<RowView['id'], string>> = {
  cable: 'cable',
  device: 'fuse',
  hunts: 'hunts:',
  'left-over': 'left over',
  signal: 'run signal:',
  driving: 'an hour gives',
};
const MOST = 3;

/** "cable 25 to 50 mm²; hunts: no", "as now"; the rows as they stand, and as they would. */
export function effectWords(now: readonly RowView[], then: readonly RowView[]): string {
  const changed = then.filter((row) => {
    const was = now.find((each) => each.id === row.id);
    return was === undefined || was.value !== row.value || was.verdict !== row.verdict;
  });
  if (changed.length === 0) return 'as now';
  return changed
    .slice(0, MOST)
    .map((row) => `${SHORT[row.id]} ${row.value}`)
    .join('; ');
}
