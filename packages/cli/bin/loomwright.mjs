#!/usr/bin/env -S node --v8-pool-size=1
// One thread beside the main one compiles and collects garbage: four, as usual, keep a machine of two cores from the work itself.
import { existsSync } from 'node:fs';

const program = new URL('../dist/index.js', import.meta.url);
if (existsSync(program)) {
  const { run } = await import(program.href);
  process.exitCode = await run();
} else {
  console.error(
    'loomwright is not built yet: run `npm start` once in the project’s folder (or `npm run build`), then try again.',
  );
  process.exitCode = 2;
}
