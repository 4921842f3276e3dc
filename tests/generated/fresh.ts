/** Generated files: written where they differ; with `--check` only named, and the program ends 1. */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** @param files what stands in each file, by its path from the project's root */
export function keepFresh(files: Readonly<Record<string, () => string>>): void {
  const check = process.argv.includes('--check');
  let stale = 0;
  for (const [name, make] of Object.entries(files)) {
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
  if (stale === 0) console.log(`fresh: ${Object.keys(files).join(', ')}`);
}
