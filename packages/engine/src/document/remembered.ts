/** What was read of single lines without a word to say: the same text at the same path reads the same again. */
import type { Path, Registry } from '../contracts/index.ts';
import type { Node } from './nodes.ts';
import type { Reading } from './reading.ts';

/** Entries that are remembered; past that all are forgotten. A build has some hundred. */
const MOST = 4000;

/** Of a registry, since its kinds say what their fields mean. Values are frozen with the build that they came in first. */
const all = new WeakMap<Registry, Map<string, unknown>>();

export function rememberedBy(registry: Registry): Map<string, unknown> {
  let known = all.get(registry);
  if (known === undefined) {
    known = new Map();
    all.set(registry, known);
  }
  return known;
}

/** The value of a node on one line, read by `read` unless it is remembered. What has faults is read each time, so that they are said each time. */
export function remember<T extends object>(
  reading: Reading,
  node: Node | null,
  path: Path,
  read: () => T,
): T {
  const { known, faults } = reading;
  const range = node?.range ?? null;
  const text = range === null ? '' : faults.lines.text.slice(range[0], range[1]);
  // What a line means depends on its text; what several mean depends on how they are indented too.
  if (known === null || text === '' || text.includes('\n')) return read();
  const key = `${path.join(' ')}\n${text}`;
  const old = known.get(key) as T | undefined;
  if (old !== undefined) {
    reading.steps.nodes++;
    return old;
  }
  const before = faults.list.length;
  const made = read();
  if (faults.list.length > before || faults.full) return made;
  if (known.size >= MOST) known.clear();
  known.set(key, made);
  return made;
}
