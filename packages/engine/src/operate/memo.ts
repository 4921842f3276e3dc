/**
 * A memory for what a part answers: it is asked again only when something that it looked at before has another value now.
 * What it looks at is noted while it looks.
 */
import type { ElementOf, Surroundings } from '../contracts/index.ts';
import { BIT, LOOK, Watched, type Fixed, type Thing, type Varying } from './watched.ts';

export { BIT, differing } from './watched.ts';
export type { Fixed, Varying } from './watched.ts';

/** An answer, and the bits of what was looked at while it was made. */
export interface Entry<T> {
  readonly looked: number;
  readonly made: T;
}

/**
 * Answers by what was looked at: a part whose looks so far saw the same values looks at the same thing next, so the answers
 * hang on a tree of questions.
 */
interface Question<T> {
  readonly look: (at: Varying) => unknown;
  readonly answers: Map<unknown, Question<T> | Entry<T>>;
}

/** A swept voltage never comes back: remembering it would only fill the memory. */
const SWEPT = BIT.vehicleRest | BIT.setPoint;

export function remembering<T>(fixed: Fixed, make: (at: Surroundings) => T): (at: Varying) => Entry<T> {
  let root: Question<T> | Entry<T> | null = null;
  return (at) => {
    let node: Question<T> | Entry<T> | undefined = root ?? undefined;
    while (node !== undefined && 'look' in node) node = node.answers.get(node.look(at));
    if (node !== undefined) return node;
    const watched = new Watched(fixed, at);
    const made = make(watched);
    watched.close();
    const { looked } = watched;
    const entry = { looked, made };
    if (at.vehicleRest !== null && (looked & SWEPT) !== 0) return entry;
    root = planted(root, watched.looks, at, entry);
    return entry;
  };
}

/** The tree with one more answer in it. */
function planted<T>(
  root: Question<T> | Entry<T> | null,
  looks: readonly Thing[],
  at: Varying,
  entry: Entry<T>,
): Question<T> | Entry<T> {
  const [first] = looks;
  if (first === undefined) return entry;
  const top: Question<T> = root !== null && 'look' in root ? root : questionOf(first);
  let question = top;
  for (let i = 1; i < looks.length; i++) {
    const value = question.look(at);
    const known = question.answers.get(value);
    const next = known !== undefined && 'look' in known ? known : questionOf<T>(looks[i] ?? first);
    question.answers.set(value, next);
    question = next;
  }
  question.answers.set(question.look(at), entry);
  return top;
}

const questionOf = <T>(thing: Thing): Question<T> => ({ look: LOOK[thing], answers: new Map() });

export type PartElements = (at: Varying) => Entry<readonly ElementOf<number>[]>;
