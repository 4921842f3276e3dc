// `npm test`: installs what is missing and runs every test; arguments go to the test runner.
import { ensureInstalled, run } from './ensure.mjs';

ensureInstalled();
run('npx', ['vitest', 'run', ...process.argv.slice(2)]);
