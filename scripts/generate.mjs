// `npm run generate`: writes the lists and schemas that follow from the registries. `--check`: ends 1 when one of them is stale.
import { compiled } from './compiled.mjs';
import { build, ensureInstalled, run } from './ensure.mjs';

ensureInstalled();
const given = process.argv.slice(2);
// The module first: all else is made by an engine that runs it.
run(process.execPath, [`${compiled('tests/generated/module.ts')}/tests/generated/module.js`, ...given]);
// The command line's schema asks the built engine.
build();
run(process.execPath, [`${compiled('tests/generated/main.ts')}/tests/generated/main.js`, ...given]);
