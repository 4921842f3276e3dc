// Compiles the tests' own programs (benches) with what they import into a folder of node_modules, so that they run as plain
// JavaScript: no loader stands between the clock and the code.
import { writeFileSync, mkdirSync } from 'node:fs';
import { root, run } from './ensure.mjs';

const FOLDER = `${root}node_modules/.cache/loomwright`;

/** The folder that holds the compiled programs, laid out as the repository is. */
export function compiled(...entries) {
  mkdirSync(FOLDER, { recursive: true });
  writeFileSync(
    `${FOLDER}/tsconfig.json`,
    JSON.stringify({
      extends: `${root}tsconfig.base.json`,
      compilerOptions: {
        rootDir: root,
        outDir: `${FOLDER}/out`,
        composite: false,
        declaration: false,
        declarationMap: false,
        sourceMap: false,
        types: ['node'],
        typeRoots: [`${root}node_modules/@types`],
        // Types are checked by `npm run types`; here only the programs are wanted.
        noCheck: true,
      },
      files: entries.map((entry) => `${root}${entry}`),
    }),
  );
  run('npx', ['tsc', '-p', `${FOLDER}/tsconfig.json`]);
  return `${FOLDER}/out`;
}
