// `npm run bench`: speed as ratios, measured side by side in one run. Ends 1 when a gate is missed.
import { readFileSync } from 'node:fs';
import { compiled } from './compiled.mjs';
import { ensureInstalled, root, run } from './ensure.mjs';

ensureInstalled();
// Started as the command line is.
const { scripts } = JSON.parse(readFileSync(`${root}package.json`, 'utf8'));
const flags = scripts.start.split(' ').filter((each) => each.startsWith('--'));
const folder = compiled('tests/bench/main.ts');
// ngspice reports its steps on stderr; the table is what counts.
run(process.execPath, [...flags, `${folder}/tests/bench/main.js`], {
  stdio: ['ignore', 'inherit', process.argv.includes('--loud') ? 'inherit' : 'ignore'],
});
