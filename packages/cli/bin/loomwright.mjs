#!/usr/bin/env node
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
