#!/usr/bin/env -S node --v8-pool-size=1 --min-semi-space-size=16 --max-semi-space-size=64 --initial-heap-size=160 --always-sparkplug
// One thread beside the main one compiles and collects garbage: four, as usual, keep a machine of two cores from the work itself.
// Room for the garbage of a judged set, so that it is not copied about, nor all gone through for what is old; and code is compiled, if roughly, before it runs often.
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
