/** Documents of earlier formats, brought forward step by step. */
import type { Node, Pair, YAMLMap } from 'yaml';
import { isMap, textOf } from './nodes.ts';
import { parseText } from './open.ts';
import { splice, type Splice } from './splice.ts';
import type { SourceText } from './source.ts';
import { FORMAT } from './version.ts';

/** One step. It changes the text only where it must, so that comments and order stay. */
export interface Migration {
  readonly from: number;
  readonly to: number;
  /** What it did, in words, behind "read as format N:". */
  readonly says: string;
  migrate(source: SourceText): readonly Splice[];
}

/** Format 0, of the first drafts: three names were others. */
const zeroToOne: Migration = {
  from: 0,
  to: 1,
  says: 'cables are now wires, their cross-section is now size, standard is now practice',
  migrate: (source) => {
    const root = source.root;
    if (!isMap(root)) return [];
    const cables = source.find(['cables'])?.value;
    const wires = isMap(cables) ? pairsOf(cables).map(({ value }) => value) : [];
    return [
      ...renamed(root, 'standard', 'practice'),
      ...renamed(root, 'cables', 'wires'),
      ...wires.flatMap((wire) => (isMap(wire) ? renamed(wire, 'cross-section', 'size') : [])),
      ...versionSet(source, 1),
    ];
  },
};

export const migrations: readonly Migration[] = [zeroToOne];

const pairsOf = (map: YAMLMap) => map.items as Pair<Node | null, Node | null>[];

/** Renames the key of an entry, unless the new name is there already. */
function renamed(map: YAMLMap, old: string, name: string): readonly Splice[] {
  const pairs = pairsOf(map);
  if (pairs.some(({ key }) => textOf(key) === name)) return [];
  const range = pairs.find(({ key }) => textOf(key) === old)?.key?.range;
  return range === undefined || range === null
    ? []
    : [{ at: range[0], remove: range[1] - range[0], put: name }];
}

function versionSet(source: SourceText, version: number): readonly Splice[] {
  const range = source.find(['loomwright'])?.value?.range;
  return range === undefined || range === null
    ? []
    : [{ at: range[0], remove: range[1] - range[0], put: String(version) }];
}

/** The document in the present format, or null when it is that already (or newer). */
export function migrated(
  source: SourceText,
  version: number,
): { readonly text: string; readonly says: string } | null {
  let now = source;
  let at = version;
  const said: string[] = [];
  for (let step = stepFrom(at); step !== undefined && at < FORMAT; step = stepFrom(at)) {
    now = parseText(now.file, splice(now.lines.text, step.migrate(now))).source;
    at = step.to;
    said.push(step.says);
  }
  if (said.length === 0) return null;
  return { text: now.text, says: `format ${version} read as format ${at}: ${said.join('; ')}` };
}

const stepFrom = (version: number): Migration | undefined => migrations.find(({ from }) => from === version);
