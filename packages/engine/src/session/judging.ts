/** From a build to its findings: the practice it is judged by, the three assumptions, the automatic size. */
import { checks } from '../checks/registry.ts';
import type { Company } from '../checks/company.ts';
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
  /** Who judges under slack and stiff values meanwhile; asked before each step. Of use where one practice judges. */
  readonly company?: () => Company | null;
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
  const { company: _company, ...alone } = options;
  const europe = yield* unsaid(underOne(build, registry, practices.europe, alone));
  const america = yield* unsaid(underOne(build, registry, practices['north-america'], alone));
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
export const operationOf = (
  build: Build,
  registry: Registry,
  options: Pick<JudgeOptions, 'steps'> = {},
): Operation => operationUnder('nominal', build, registry, practices[build.practice ?? 'europe'], options);

/** A build under one assumption. */
export function operationUnder(
  push: Push,
  build: Build,
  registry: Registry,
  practice: Practice,
  { pinned = NOTHING, steps }: Pick<JudgeOptions, 'pinned' | 'steps'>,
): Operation {
  const assumption: Assumption = { push, pinned };
  return makeOperation(build, registry, {
    assumption,
    practice,
    values: valuesFor(build, assumption),
    ...(steps === undefined ? {} : { steps }),
  });
}

/** The build under each assumption, made when it is asked for. */
class Made implements Operations {
  readonly nominal: Operation;
  readonly #make: (push: Push) => Operation;
  readonly #made = new Map<Push, Operation>();

  constructor(make: (push: Push) => Operation) {
    this.#make = make;
    this.nominal = this.make('nominal');
  }

  get slack(): Operation {
    return this.make('slack');
  }

  get stiff(): Operation {
    return this.make('stiff');
  }

  make(push: Push): Operation {
    const made = this.#made.get(push) ?? this.#make(push);
    this.#made.set(push, made);
    return made;
  }
}

function* underOne(
  build: Build,
  registry: Registry,
  practice: Practice,
  options: JudgeOptions,
): InSteps<JudgedBuild> {
  const operations = new Made((push) => operationUnder(push, build, registry, practice, options));
  yield;
  // With company they are only made where something is wanted first.
  if ((options.ahead ?? null) !== null || (options.company?.() ?? null) === null) {
    operations.make('slack');
    yield;
    operations.make('stiff');
  }
  const same: Practices = { nominal: practice, slack: practice, stiff: practice };
  return {
    findings: yield* judgeInSteps(checks, operations, same, options),
    operation: operations.nominal,
    practice,
  };
}
