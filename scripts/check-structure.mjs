// Proves the import order of the engine's rooms, and that shared code never asks which kind a part is.
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { root } from './ensure.mjs';

// A file imports only from rooms above its own in this list, and from its own.
const ROOMS = [
  'quantity',
  'reference',
  'contracts',
  'document',
  'network',
  'devices',
  'kinds',
  'wiring',
  'conditions',
  'operate',
  'practices',
  'checks',
  'remedies',
  'sizing',
  'facts',
  'report',
  'drawing',
  'session',
  'index.ts',
];
const MAY_ASK_KIND = new Set(['document', 'kinds']);
const engine = join(root, 'packages/engine/src');
const problems = [];

function files(folder) {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (name === 'node_modules' || name === 'dist') return [];
    return statSync(path).isDirectory() ? files(path) : /\.tsx?$/.test(name) ? [path] : [];
  });
}

const roomOf = (file) => relative(engine, file).split('/')[0];
const imports = (text) =>
  [...text.matchAll(/(?:^|\n)\s*(?:import|export)\b[^;]*?\bfrom\s+'([^'\n]+)'/g)].map((m) => m[1]);

for (const file of files(engine)) {
  const text = readFileSync(file, 'utf8');
  const room = roomOf(file);
  const rank = ROOMS.indexOf(room);
  const name = relative(root, file);
  if (rank < 0) problems.push(`${name}: ${room} is not a room of the engine`);
  const isTest = file.endsWith('.test.ts') || file.includes('/testing/');
  for (const target of imports(text)) {
    if (!target.startsWith('.')) {
      if (!isTest && target !== 'yaml') problems.push(`${name}: the engine imports ${target}`);
      continue;
    }
    const other = roomOf(resolve(dirname(file), target));
    if (!isTest && ROOMS.indexOf(other) > rank)
      problems.push(`${name}: imports ${target}, a room below ${room}`);
  }
  if (!isTest && !MAY_ASK_KIND.has(room) && /\.kind(\.name)?\s*[!=]==/.test(text))
    problems.push(`${name}: asks which kind a part is`);
  if (!isTest && /\b(Date\.now|new Date|Math\.random|process\.|toLocale)/.test(text))
    problems.push(`${name}: clock, chance, process or locale in the engine`);
}

for (const pkg of ['cli', 'server', 'app']) {
  for (const file of files(join(root, 'packages', pkg, 'src'))) {
    for (const target of imports(readFileSync(file, 'utf8'))) {
      if (/packages\/engine|engine\/(src|dist)/.test(target))
        problems.push(`${relative(root, file)}: imports the engine's inside; import its public surface`);
    }
  }
}

for (const p of problems) console.error(p);
console.log(
  problems.length === 0 ? 'structure: every import points upwards' : `structure: ${problems.length} to mend`,
);
process.exit(problems.length === 0 ? 0 : 1);
