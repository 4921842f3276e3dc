/** What a person may not know about the vehicle, and every answer it could have. */
import type { InSteps } from '../checks/judge.ts';
import type { Basis, Build, Effort, Finding, Vehicle } from '../contracts/index.ts';
import type { Choice } from '../facts/index.ts';

interface Question {
  readonly path: string;
  readonly label: string;
  readonly how: string;
  readonly effort: Effort;
  asked(vehicle: Vehicle): boolean;
  readonly answers: readonly Partial<Vehicle>[];
}

const QUESTIONS: readonly Question[] = [
  {
    path: 'vehicle.supply',
    label: 'what feeds the vehicle net: an alternator or a converter',
    how: 'look under the bonnet, or read the handbook: is there an alternator?',
    effort: 'read',
    asked: (v) => v.supply === 'unknown',
    answers: [{ supply: 'alternator' }, { supply: 'converter' }],
  },
  {
    path: 'vehicle.variable-voltage',
    label: 'whether the running voltage varies',
    how: 'look for a sensor on the negative post; log the posts on a drive',
    effort: 'log',
    asked: (v) => v.variableVoltage === 'unknown',
    answers: [{ variableVoltage: true }, { variableVoltage: false }],
  },
  {
    path: 'vehicle.automatic-stop',
    label: 'whether the engine stops by itself at halts',
    how: 'look for its button on the dash',
    effort: 'read',
    asked: (v) => v.automaticStop === 'unknown',
    answers: [{ automaticStop: true }, { automaticStop: false }],
  },
];

/** The unanswered questions of a build; each answer is judged on a copy when it is asked for. */
export function choicesOf(
  build: Build,
  judge: (copy: Build) => InSteps<readonly Finding[]>,
): readonly Choice[] {
  return QUESTIONS.filter((q) => q.asked(build.vehicle)).map((q) => ({
    basis: basisOf(q),
    *outcomes() {
      const outcomes: (readonly Finding[])[] = [];
      for (const answer of q.answers)
        outcomes.push(yield* judge({ ...build, vehicle: { ...build.vehicle, ...answer } }));
      return outcomes;
    },
  }));
}

const basisOf = (q: Question): Basis => ({
  path: q.path,
  label: q.label,
  how: q.how,
  effort: q.effort,
  assumed: true,
  sourced: { value: Number.NaN, unit: '', prov: 'memory', source: 'not known' },
});
