/** A build under slack or stiff values alone: what a companion says of it. */
import { asData, type Asked, type Pushed } from '../checks/company.ts';
import { checks } from '../checks/registry.ts';
import type { Build, Check, Judgement, Registry } from '../contracts/index.ts';
import { solveInSteps } from '../operate/index.ts';
import { practices } from '../practices/index.ts';
import { operationUnder, type JudgeOptions } from './judging.ts';

export interface Beside {
  /** Solves the judged set, conditions and windows, in steps; then judging solves only what a check asks for besides. */
  solving(): Generator<unknown, void, undefined>;
  /** What is so under these values, as plain data. */
  judge(asked: Asked): Judgement;
  /** All that would be asked if the subjects were looked for under these values: to judge it once makes the machine's compiler ready. */
  rehearsal(): Generator<Asked, void, undefined>;
}

const BY_ID: ReadonlyMap<string, Check> = new Map(checks.map((check) => [check.id, check]));

/** null: it names no practice. */
export function besideOf(
  build: Build,
  registry: Registry,
  push: Pushed,
  options: Pick<JudgeOptions, 'steps'> = {},
): Beside | null {
  if (build.practice === undefined) return null;
  const practice = practices[build.practice];
  const operation = operationUnder(push, build, registry, practice, options);
  return {
    *solving() {
      yield* solveInSteps(operation);
    },
    judge({ check, subject }) {
      const found = BY_ID.get(check);
      if (found === undefined) throw new Error(`there is no check ${check}`);
      return asData(found.judge(subject, operation, practice));
    },
    *rehearsal() {
      for (const check of checks)
        for (const subject of check.subjects(operation))
          yield { id: `${check.id}/${subject.id}`, check: check.id, subject };
    },
  };
}
