/** Draws build documents in tests, with the layout library that the command line and the app hand in. */
import { createRequire } from 'node:module';
import { readDocument } from '../../packages/engine/src/document/index.ts';
import {
  makeDraughtsman,
  subjectOf,
  type Elk,
  type ElkGraph,
  type DrawingSubject as Subject,
} from '../../packages/engine/src/drawing/index.ts';
import { makeRegistry } from '../../packages/engine/src/kinds/registry.ts';
import { makeOperation, valuesFor } from '../../packages/engine/src/operate/index.ts';
import { practices } from '../../packages/engine/src/practices/index.ts';

const require = createRequire(import.meta.url);
const ELK = require('elkjs/lib/elk.bundled.js') as new () => { layout(graph: ElkGraph): Promise<ElkGraph> };
const library = new ELK();

export const elk: Elk = (graph) => library.layout(graph);

const registry = makeRegistry();

/** What a document's drawing shows; throws what is wrong with the document. */
export function subjectFrom(text: string): Subject {
  const { build, diagnostics } = readDocument(text, registry);
  const errors = diagnostics
    .filter((each) => each.severity === 'error')
    .map((each) => `${each.line}: ${each.message}`);
  if (build === null || errors.length > 0) throw new Error(errors.join('\n'));
  const assumption = { push: 'nominal', pinned: new Set<string>() } as const;
  return subjectOf(
    makeOperation(build, registry, {
      assumption,
      practice: practices[build.practice ?? 'europe'],
      values: valuesFor(build, assumption),
    }),
  );
}

export const draughtsman = () => makeDraughtsman(elk);
