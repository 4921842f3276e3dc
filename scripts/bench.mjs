// `npm run bench`: speed as ratios, measured side by side in one run. Ends 1 when a gate is missed.
import { compiled } from './compiled.mjs';
import { ensureInstalled, run } from './ensure.mjs';

ensureInstalled();
const folder = compiled('tests/bench/main.ts');
// ngspice reports its steps on stderr; the table is what counts.
run(process.execPath, [`${folder}/tests/bench/main.js`], {
  stdio: ['ignore', 'inherit', process.argv.includes('--loud') ? 'inherit' : 'ignore'],
});
