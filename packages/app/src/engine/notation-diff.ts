/** What differs between two documents, as changes: to carry an edit from one text to another. */
import type { Change, DocumentSource } from '@loomwright/engine';

type Notation = NonNullable<ReturnType<DocumentSource['notation']>>;
type Tree = { readonly [key: string]: Notation };

const isTree = (value: Notation | undefined): value is Tree =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const same = (a: Notation | undefined, b: Notation | undefined): boolean =>
  JSON.stringify(a) === JSON.stringify(b);

/** The changes that make `after` of `before`; lists of one length entry by entry, other lists as a whole. */
export function diffNotation(
  before: Notation,
  after: Notation,
  path: readonly (string | number)[] = [],
): Change[] {
  if (same(before, after)) return [];
  if (isTree(before) && isTree(after)) return diffTrees(before, after, path);
  if (Array.isArray(before) && Array.isArray(after) && before.length === after.length)
    return (before as readonly Notation[]).flatMap((item, index) =>
      diffNotation(item, (after as readonly Notation[])[index] as Notation, [...path, index]),
    );
  return [{ set: path, to: after }];
}

function diffTrees(before: Tree, after: Tree, path: readonly (string | number)[]): Change[] {
  const gone = Object.keys(before).filter((key) => !(key in after));
  return [
    ...gone.map((key) => ({ remove: [...path, key] })),
    ...Object.entries(after).flatMap(([key, value]) => {
      const was = before[key];
      return was === undefined
        ? [{ set: [...path, key], to: value }]
        : diffNotation(was, value, [...path, key]);
    }),
  ];
}

/** Path of a change as text, for comparing. */
export const pathOf = (change: Change): string =>
  JSON.stringify('set' in change ? change.set : 'remove' in change ? change.remove : change.add);
