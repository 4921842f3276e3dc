/** A condition without an operating point is a defect of the program; it is never passed over in silence. */
import type { Check, Judgement, Operation, Solved } from '../contracts/index.ts';
import { TOPICS } from '../practices/index.ts';
import { settledExample } from './support/examples.ts';
import { judgement, missing, step } from './support/judgement.ts';
import { partOf } from './support/refs.ts';
import { listed, whereWords } from './support/words.ts';

export const solved: Check = {
  id: 'solved',
  title: 'Every condition has an operating point',
  family: 'solving',
  danger: true,
  statements: TOPICS.operatingPoint,
  subjects: (op) => (op.wires.size === 0 ? [] : [{ id: 'network', label: 'the whole circuit' }]),
  judge: (_subject, op) => judge(op),
  failing: '',
  passing: settledExample,
};

/** So many nodes are named. */
const MOST_NAMES = 6;

function judge(op: Operation): Judgement {
  const all = [...op.all(), ...op.windows().flatMap((w) => (w.sample === null ? [] : [w.sample]))];
  const without = distinct(all.filter((s) => s.outcome === 'none'));
  const [first] = without;
  if (first === undefined)
    return judgement({
      holds: true,
      says: `All ${op.judged.length} conditions have an operating point.`,
      value: { value: 0, unit: '', words: 'none without' },
      limit: { value: 0, unit: '' },
    });
  const at = [...new Set(without.flatMap((s) => s.unsettled ?? []))];
  const others = without.length - 1;
  const more = others === 0 ? '' : `, and in ${others} more ${others === 1 ? 'condition' : 'conditions'}`;
  return missing(
    `No operating point was found ${whereWords(first)}${more}${placeWords(at)}. This is a defect of the program, not of the build: what is said of these conditions does not count. Please report it together with this build.`,
    [],
    {
      value: { value: without.length, unit: '' },
      limit: { value: 0, unit: '' },
      worst: first.id,
      others,
      working: without.map((s) =>
        step('no operating point', whereWords(s), null, '', { about: partsOf(op, s) }),
      ),
      about: [...new Set(without.flatMap((s) => partsOf(op, s)))],
    },
  );
}

function placeWords(at: readonly string[]): string {
  if (at.length === 0) return '';
  const named = at.slice(0, MOST_NAMES);
  const rest = at.length - named.length;
  return `: the currents at ${listed(rest === 0 ? named : [...named, `${rest} more`])} do not add up`;
}

const partsOf = (op: Operation, s: Solved): readonly string[] => [
  ...new Set((s.unsettled ?? []).map((name) => (op.parts.has(name) ? name : partOf(name)))),
];

function distinct(points: readonly Solved[]): readonly Solved[] {
  const seen = new Map<string, Solved>();
  for (const s of points) if (!seen.has(s.id)) seen.set(s.id, s);
  return [...seen.values()];
}
