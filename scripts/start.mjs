// `npm start`: installs what is missing, builds what is out of date, and serves the app on this machine only. Arguments go to the
// command line instead: `npm start -- check FILE`; options alone belong to `serve`: `npm start -- --port 4900`.
// What it is started with is told in packages/cli/bin/loomwright.mjs.
import { build, buildApp, ensureInstalled, root } from './ensure.mjs';

const given = process.argv.slice(2);
const serving = given.length === 0 || (given[0].startsWith('--') && given[0] !== '--help');
const args = serving ? ['serve', '--open', ...given] : given;

ensureInstalled();
build();
if (args[0] === 'serve') buildApp();
// In this very process, so that Ctrl-C reaches nothing but the server, which ends in order.
const { run } = await import(`${root}packages/cli/dist/index.js`);
process.exitCode = await run(args);
