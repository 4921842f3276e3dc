// `npm run generate`: writes the lists and schemas that follow from the registries. `--check`: ends 1 when one of them is stale.
import { compiled } from './compiled.mjs';
import { build, ensureInstalled, run } from './ensure.mjs';

ensureInstalled();
// The command line's schema asks the built engine.
build();
const folder = compiled('tests/generated/main.ts');
run(process.execPath, [`${folder}/tests/generated/main.js`, ...process.argv.slice(2)]);
