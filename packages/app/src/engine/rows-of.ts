/** The six rows for a build that did not begin with six facts: what stands in it, judged, instead of what was advised. */
import {
  formatSize,
  printMeasure,
  firstAnswer,
  type AnswerRow,
  type Finding,
  type FirstRun,
  type SixFacts,
  type Verdict,
} from '@loomwright/engine';

const RANK: readonly Verdict[] = ['met', 'advice', 'open', 'fault', 'danger'];

export function rowsOfAnyBuild(facts: SixFacts, run: FirstRun): readonly AnswerRow[] {
  return firstAnswer(facts, [run], null).map((row) => {
    if (row.id === 'cable' && run.auto === null) return cableRow(row, run);
    return row.id === 'device' ? deviceRow(row, run) : row;
  });
}

/** The wires between the vehicle battery and the charger are those that the hunting check speaks of. */
function cableRow(row: AnswerRow, { findings, operation }: FirstRun): AnswerRow {
  const loop = new Set(findings.filter((each) => each.check === 'hunting').flatMap((each) => each.about));
  const wires = [...operation.build.wires.values()].filter((wire) => loop.has(wire.id));
  const sizes = [
    ...new Map(
      wires.flatMap(({ size }) => (typeof size === 'object' ? [[size.areaMm2, size] as const] : [])),
    ).values(),
  ];
  const about = findings.filter(
    (each) => ['conductor', 'rating'].includes(each.check) && each.about.some((id) => loop.has(id)),
  );
  const worst = worstOf(about);
  if (sizes.length === 0) return row;
  const words = sizes
    .toSorted((a, b) => a.areaMm2 - b.areaMm2)
    .map(formatSize)
    .join(', ');
  return { ...row, words, measures: [], verdict: worst?.verdict ?? 'open', why: worst?.says ?? 'As given.' };
}

function deviceRow(row: AnswerRow, { findings }: FirstRun): AnswerRow {
  const worst = worstOf(findings.filter((each) => each.check === 'rating-window'));
  if (worst === null) return { ...row, words: 'no figure', why: 'No device in the feed could be judged.' };
  const words = worst.value.value === null ? (worst.value.words ?? 'no figure') : printMeasure(worst.value);
  return { ...row, verdict: worst.verdict, words, why: worst.says };
}

function worstOf(findings: readonly Finding[]): Finding | null {
  return findings.toSorted((a, b) => RANK.indexOf(b.verdict) - RANK.indexOf(a.verdict))[0] ?? null;
}
