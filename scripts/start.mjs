// `npm start`: installs what is missing, builds, checks the demo build and prints its report.
import { build, ensureInstalled, root, run } from './ensure.mjs';

const args = process.argv.slice(2);
ensureInstalled();
build();
run(process.execPath, [
  `${root}packages/cli/bin/loomwright.mjs`,
  ...(args.length > 0 ? args : ['check', 'examples/beekeepers-van.yaml']),
]);
