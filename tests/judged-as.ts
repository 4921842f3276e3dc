/**
 * Whole builds beside what is expected of each: exactly the dangers and faults that follow from what is wrong in it, the exit
 * code, and numbers within 2 % of arithmetic by hand.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { Finding } from '../packages/engine/src/contracts/index.ts';
import { openSession } from '../packages/engine/src/session/index.ts';

export interface Number_ {
  readonly of: string;
  /** Beginning of a line of the working; none: the value of the finding. */
  readonly line?: string;
  readonly is: number;
}

export interface Case {
  /** Verdict and id of each danger and fault, in alphabetical order. */
  readonly bad: readonly string[];
  readonly exit: 0 | 1;
  readonly numbers?: readonly Number_[];
  /** What must be read in a sentence. */
  readonly says?: readonly (readonly [id: string, text: RegExp])[];
  /** A part or wire that a finding must name. */
  readonly about?: readonly (readonly [id: string, names: string])[];
  /** Titles of what is offered and makes the finding hold, in order. */
  readonly remedies?: readonly (readonly [id: string, titles: readonly RegExp[]])[];
}

/** One test for each build of a folder. */
export function judgedAs(folder: URL, cases: Readonly<Record<string, Case>>): void {
  it('has a case for every build, and the other way round', () => {
    const files = readdirSync(folder).map((name) => name.replace('.yaml', ''));
    expect(files.toSorted()).toEqual(Object.keys(cases).toSorted());
  });

  it.each(Object.entries(cases))('%s', (name, expected) => {
    const session = openSession(readFileSync(new URL(`${name}.yaml`, folder), 'utf8'), {
      file: `${name}.yaml`,
    });
    expect(session.diagnostics).toEqual([]);
    const judged = session.judge();
    const bad = judged.findings.filter((f) => f.verdict === 'danger' || f.verdict === 'fault');
    expect(bad.map((f) => `${f.verdict} ${f.id}`).toSorted()).toEqual(expected.bad);
    expect(judged.exitCode).toBe(expected.exit);
    for (const number of expected.numbers ?? []) near(found(judged.findings, number.of), number);
    for (const [id, text] of expected.says ?? []) expect(found(judged.findings, id).says).toMatch(text);
    for (const [id, names] of expected.about ?? []) expect(found(judged.findings, id).about).toContain(names);
    for (const [id, titles] of expected.remedies ?? []) {
      const met = session.remedies(id).filter((r) => r.after?.verdict === 'met');
      expect(met.map((r) => r.title)).toEqual(titles.map((title) => expect.stringMatching(title) as string));
    }
  });
}

function found(findings: readonly Finding[], id: string): Finding {
  const finding = findings.find((f) => f.id === id);
  if (finding === undefined) throw new Error(`no finding ${id}`);
  return finding;
}

/** Within 2 %. */
function near(finding: Finding, { line, is }: Number_): void {
  const value =
    line === undefined
      ? finding.value.value
      : (finding.working.find((s) => s.what.startsWith(line))?.value ?? null);
  expect(value, `${finding.id} ${line ?? ''}`).not.toBeNull();
  const off = Math.abs((value ?? 0) / is - 1);
  expect(off, `${finding.id} ${line ?? ''}: ${value} for ${is}`).toBeLessThan(0.02);
}
