/** Defaults of what is no part: wires, ways, places, states, settings, as met when builds are judged; and the published tables. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Basis } from '../../packages/engine/src/contracts/index.ts';
import { openSession } from '../../packages/engine/src/index.ts';
import { publishedTables } from '../../packages/engine/src/reference/published-tables.ts';
import { generate } from '../documents/generate.ts';
import { PROVENANCE, printed, row, table } from './words.ts';

/** Made-up builds that are judged beside the examples: both practices, 24 V, every supply. */
const SEEDS = Array.from({ length: 14 }, (_, i) => i + 1);

/** `wires.feed.joints.from` -> `wires.joints.from`: what belongs to a name is the same for every name. */
function general(path: string): string {
  const steps = path.split('.');
  if (['wires', 'places', 'routes'].includes(steps[0] ?? '')) return [steps[0], ...steps.slice(2)].join('.');
  return path;
}

function assumptions(text: string): readonly Basis[] {
  const session = openSession(text);
  if (session.build === null) throw new Error('a build for the list of defaults does not read');
  return session.judge().assumed.flatMap((basis) => flat(basis));
}

const flat = (basis: Basis): readonly Basis[] => [basis, ...(basis.from ?? []).flatMap((each) => flat(each))];

/** Neither a part's, nor a row of a table, nor computed from what the build says. */
const own = (basis: Basis): boolean =>
  basis.assumed &&
  basis.from === undefined &&
  basis.sourced.prov !== 'computed' &&
  !/^(parts\.|table:)/.test(basis.path);

export function aroundDefaults(): readonly string[] {
  const folder = join(process.cwd(), 'examples');
  const files = readdirSync(folder).filter((name) => name.endsWith('.yaml'));
  const texts = [
    ...files.toSorted().map((name) => readFileSync(join(folder, name), 'utf8')),
    ...SEEDS.map((seed) => generate(seed, { parts: 10, owners: 0 })),
  ];
  const found = new Map<string, readonly [string, string]>();
  for (const basis of texts.flatMap((text) => assumptions(text)).filter(own)) {
    const { value, band } = printed(basis.sourced);
    const path = general(basis.path);
    const line = row(`\`${path}\``, value, band, PROVENANCE[basis.sourced.prov], basis.sourced.source);
    found.set(line, [path, line]);
  }
  const rows = [...found.values()].toSorted((a, b) =>
    a[0] === b[0] ? (a[1] < b[1] ? -1 : 1) : a[0] < b[0] ? -1 : 1,
  );
  return [
    '## Around the parts',
    '',
    'Wires, ways, places, weather, states of the vehicle and settings, as the example builds and some made-up ones come to use them.',
    '',
    ...table(
      ['path', 'value', 'band', 'provenance', 'source'],
      rows.map(([, line]) => line),
    ),
    '## Published tables',
    '',
    'A figure that is looked up in one of these is as well founded as its row.',
    '',
    ...table(
      ['table', 'title', 'rows', 'source'],
      Object.entries(publishedTables).map(
        ([
          name,
          {
            title,
            rows: { length },
            source,
          },
        ]) => row(`\`${name}\``, title, String(length), source),
      ),
    ),
  ];
}
