/** The builds on which the laws are tried: the examples, the scenarios and some made up ones, with every size chosen. */
import { readdirSync, readFileSync } from 'node:fs';
import { operationsOf, readText } from '../../packages/engine/src/checks/testing/judge-text.ts';
import type { Build, Operation, Practice } from '../../packages/engine/src/contracts/index.ts';
import { makeRegistry } from '../../packages/engine/src/kinds/registry.ts';
import { makeOperation, valuesFor } from '../../packages/engine/src/operate/index.ts';
import { practices } from '../../packages/engine/src/practices/index.ts';
import { generateDoc } from '../documents/generate.ts';
import { plainOf, textOf, type Doc } from '../documents/plain.ts';

export interface Subject {
  readonly name: string;
  readonly doc: Doc;
}

/** What stands for `size: auto`, so that a change of the build does not choose another size. */
const SIZE = '50 mm2';

const folder = (path: string): readonly Subject[] => {
  const at = new URL(path, import.meta.url);
  return readdirSync(at)
    .filter((name) => name.endsWith('.yaml'))
    .toSorted()
    .map((name) => ({
      name: name.replace('.yaml', ''),
      doc: sized(plainOf(readFileSync(new URL(name, at), 'utf8'))),
    }));
};

function sized(doc: Doc): Doc {
  for (const wire of Object.values(doc.wires)) if (wire['size'] === 'auto') wire['size'] = SIZE;
  return doc;
}

export const EXAMPLES = folder('../../examples/');
export const SCENARIOS = folder('../scenarios/');

/** Made up builds: as many parts as asked, two owner's switches at most. */
export const generated = (seeds: readonly number[], parts = 14): readonly Subject[] =>
  seeds.map((seed) => ({
    name: `seed ${seed}`,
    doc: generateDoc(seed, { parts, owners: seed % 3 }),
  }));

export const SEEDS: readonly number[] = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

export const ALL: readonly Subject[] = [...EXAMPLES, ...SCENARIOS, ...generated(SEEDS)];

/** For `it.each`, with their names. */
export const named = (list: readonly Subject[]) => list.map((s) => [s.name, s.doc] as const);

/** The documents of before with one thing changed. */
export const changed = (doc: Doc, change: (copy: Doc) => void): Doc => {
  const copy = structuredClone(doc);
  change(copy);
  return copy;
};

export const buildOf = (doc: Doc): Build => readText(textOf(doc));

export const practiceOf = (build: Build): Practice => practices[build.practice ?? 'europe'];

/** The build of a document under nominal values. */
export function nominal(doc: Doc): Operation {
  const build = buildOf(doc);
  const assumption = { push: 'nominal', pinned: new Set<string>() } as const;
  return makeOperation(build, makeRegistry(), {
    assumption,
    practice: practiceOf(build),
    values: valuesFor(build, assumption),
  });
}

export { operationsOf };
