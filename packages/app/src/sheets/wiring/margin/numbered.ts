/** Findings with the numbers that hang on the drawing: those that need reading are numbered, in their order. */
import type { Finding } from '@loomwright/engine';

export interface Numbered {
  readonly finding: Finding;
  /** null: it needs no reading. */
  readonly number: number | null;
}

const NEEDS: ReadonlySet<Finding['verdict']> = new Set(['danger', 'fault', 'open']);

export const needsReading = (finding: Finding): boolean =>
  finding.aside === null && NEEDS.has(finding.verdict);

export function numbered(findings: readonly Finding[]): readonly Numbered[] {
  let count = 0;
  return findings.map((finding) => ({ finding, number: needsReading(finding) ? (count += 1) : null }));
}

/** What is on the marker: the picked part or wire, or all that a picked finding speaks of. */
export function markedBy(picked: string | null, findings: readonly Finding[]): ReadonlySet<string> {
  if (picked === null) return new Set();
  const finding = findings.find((each) => each.id === picked);
  return new Set(finding === undefined ? [picked] : finding.about);
}
