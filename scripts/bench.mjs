// `npm run bench`: speed as ratios, measured side by side in one run. Ends 1 when a gate is missed.
import { compiled } from './compiled.mjs';
import { ensureInstalled, run } from './ensure.mjs';

ensureInstalled();
const folder = compiled('tests/bench/main.ts');
// Started as the command line is. ngspice reports its steps on stderr; the table is what counts.
run(process.execPath, ['--v8-pool-size=1', `${folder}/tests/bench/main.js`], {
  stdio: ['ignore', 'inherit', process.argv.includes('--loud') ? 'inherit' : 'ignore'],
});
