/** Writes the generated files; with `--check` only says which are stale, and ends 1 when one is. */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { reportSchemaText } from '../../packages/cli/src/json/schema.ts';
import { jsonText, type Json } from '../../packages/cli/src/json/write.ts';
import { documentSchema } from '../../packages/engine/src/index.ts';
import { checksText } from './checks.ts';
import { defaultsText } from './defaults.ts';
import { moduleText } from './module.ts';

const FILES: Readonly<Record<string, () => string>> = {
  'docs/checks.md': checksText,
  'docs/defaults.md': defaultsText,
  'docs/build-document.schema.json': () => jsonText(documentSchema() as Json),
  'packages/cli/schema/report.schema.json': reportSchemaText,
  'packages/engine/src/network/module.ts': moduleText,
};

const check = process.argv.includes('--check');
let stale = 0;
for (const [name, make] of Object.entries(FILES)) {
  const file = join(process.cwd(), name);
  const made = make();
  if (existsSync(file) && readFileSync(file, 'utf8') === made) continue;
  stale += 1;
  if (check) console.error(`${name} is stale: run npm run generate`);
  else {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, made);
    console.log(`${name} written`);
  }
}
if (check && stale > 0) process.exit(1);
if (stale === 0) console.log('generated files are fresh');
