import type { Fault } from '../../document.ts';
import { Problem } from '../../problem.ts';

/** Refuses a text that does not even mean to be a build, with what was found in it. */
export function refuseOther(what: string, diagnostics: readonly Fault[]): Problem {
  const [first] = diagnostics;
  const found = first === undefined ? '' : ` Line ${first.line}, column ${first.column}: ${first.message}.`;
  return new Problem({
    code: 'not-a-build',
    status: 422,
    title: 'Not opened. That is no build.',
    detail: `${what} has no line "loomwright: 1".${found} Nothing was changed.`,
    todo: 'Choose a build file; it begins with the line loomwright: 1.',
    members: { diagnostics },
  });
}
