/** From a build to its findings: the practice it is judged by, the three assumptions, the automatic size. */
import { checks } from '../checks/registry.ts';
import { judgeInSteps, type Ahead, type InSteps, type Operations, type Practices } from '../checks/judge.ts';
import type { Assumption, Build, Finding, Operation, Practice, Push, Registry } from '../contracts/index.ts';
import { atOnce, makeOperation, valuesFor, type Steps } from '../operate/index.ts';
import { practices } from '../practices/index.ts';
import { mergePractices } from './both-practices.ts';

export interface JudgedBuild {
  readonly findings: readonly Finding[];
  readonly operation: Operation;
  readonly practice: Practice;
}

export interface JudgeOptions {
  readonly pinned?: ReadonlySet<string>;
  /** Only these finding ids. */
  readonly only?: ReadonlySet<string>;
  readonly steps?: Steps;
  /** Findings that are wanted first. */
  readonly ahead?: Ahead;
}

const NOTHING: ReadonlySet<string> = new Set();

/**
 * Findings of a build under its practice. Without a practice both are tried: where they agree the verdict stands, else it is
 * open until the practice is named.
 */
export const judgeBuild = (build: Build, registry: Registry, options: JudgeOptions = {}): JudgedBuild =>
  atOnce(judgeBuildInSteps(build, registry, options));

/** As `judgeBuild`, in steps; each finding as soon as it is judged, unless two practices have to agree on it. */
export function* judgeBuildInSteps(
  build: Build,
  registry: Registry,
  options: JudgeOptions = {},
): InSteps<JudgedBuild> {
  if (build.practice !== undefined)
    return yield* underOne(build, registry, practices[build.practice], options);
  const europe = yield* unsaid(underOne(build, registry, practices.europe, options));
  const america = yield* unsaid(underOne(build, registry, practices['north-america'], options));
  return {
    ...europe,
    findings: mergePractices(europe.findings, america.findings, options.pinned ?? NOTHING),
  };
}

/** The same steps, of which nothing is final. */
function* unsaid<T>(steps: InSteps<T>): InSteps<T> {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    yield;
  }
}

/** A build under nominal values, unjudged; without a practice under the first. */
export function operationOf(
  build: Build,
  registry: Registry,
  options: Pick<JudgeOptions, 'steps'> = {},
): Operation {
  const assumption: Assumption = { push: 'nominal', pinned: NOTHING };
  const practice = practices[build.practice ?? 'europe'];
  return makeOperation(build, registry, {
    assumption,
    practice,
    values: valuesFor(build, assumption),
    ...(options.steps === undefined ? {} : { steps: options.steps }),
  });
}

function* underOne(
  build: Build,
  registry: Registry,
  practice: Practice,
  options: JudgeOptions,
): InSteps<JudgedBuild> {
  const pinned = options.pinned ?? NOTHING;
  const under = (push: Push): Operation => {
    const assumption: Assumption = { push, pinned };
    const values = valuesFor(build, assumption);
    return makeOperation(build, registry, {
      assumption,
      practice,
      values,
      ...(options.steps === undefined ? {} : { steps: options.steps }),
    });
  };
  const nominal = under('nominal');
  yield;
  const slack = under('slack');
  yield;
  const operations: Operations = { nominal, slack, stiff: under('stiff') };
  const same: Practices = { nominal: practice, slack: practice, stiff: practice };
  return {
    findings: yield* judgeInSteps(checks, operations, same, options),
    operation: operations.nominal,
    practice,
  };
}
