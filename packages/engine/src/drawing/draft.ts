/** Why a paper is no more than a draft. */
import type { Finding } from '../contracts/index.ts';

/** While a danger stands, or an open verdict that could be one: the reason in words. null: none does. */
export function draftReason(findings: readonly Pick<Finding, 'verdict' | 'dangerFamily'>[]): string | null {
  const dangers = findings.filter((f) => f.verdict === 'danger').length;
  const open = findings.filter((f) => f.verdict === 'open' && f.dangerFamily).length;
  const words = [
    ...(dangers === 0 ? [] : [dangers === 1 ? '1 danger' : `${dangers} dangers`]),
    ...(open === 0 ? [] : [`${open} open that could be a danger`]),
  ];
  return words.length === 0 ? null : `${words.join(' and ')}: do not build from this page.`;
}
