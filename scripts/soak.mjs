// `npm run soak -- [--seed N] [--short]`: the generators of the tests, longer and with a fresh seed. Prints the seed first, so that
// a failure can be run again; ends 1 when something fails. `--short`: the counts of `npm test` with the seed given.
import { spawnSync } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { ensureInstalled, root } from './ensure.mjs';

const args = process.argv.slice(2);
const known = args.every((arg, i) => arg === '--short' || arg === '--seed' || args[i - 1] === '--seed');
const at = args.indexOf('--seed');
const seed = at < 0 ? randomInt(1, 1_000_000) : Number(args[at + 1]);
if (!known || !Number.isInteger(seed) || seed < 1 || seed > 1_000_000) {
  console.error('npm run soak -- [--seed N] [--short]   N: a whole number from 1 to 1000000');
  process.exit(2);
}

/** Tests under these paths that draw more when they are told to: what does not look at the seed runs in `npm test` already. */
const FOLDERS = ['tests', 'packages/server/src'];
const tests = FOLDERS.flatMap((folder) =>
  readdirSync(`${root}${folder}`, { recursive: true })
    .map((name) => `${folder}/${String(name).replaceAll('\\', '/')}`)
    .filter((file) => file.endsWith('.test.ts') && drawsMore(file)),
);

/** Whether the test, or a file that it imports from its own folder, asks for a soak. */
function drawsMore(file) {
  const text = readFileSync(`${root}${file}`, 'utf8');
  const beside = [...text.matchAll(/from '\.\/([\w-]+\.ts)'/g)].map((m) => `${root}${dirname(file)}/${m[1]}`);
  return [text, ...beside.map((path) => readFileSync(path, 'utf8'))].some((each) => each.includes('SOAK'));
}

ensureInstalled();
const short = args.includes('--short');
console.log(`soak: seed ${seed}${short ? ', short' : ''}: ${tests.join(', ')}`);
const done = spawnSync('npx', ['vitest', 'run', '--maxWorkers=2', '--reporter=verbose', ...tests], {
  cwd: root,
  stdio: 'inherit',
  shell: process.platform === 'win32',
  env: { ...process.env, SOAK: short ? '0' : '1', SOAK_SEED: String(seed) },
});
console.log(
  done.status === 0
    ? `soak: seed ${seed} held`
    : `soak: seed ${seed} failed; run it again with --seed ${seed}`,
);
process.exit(done.status === 0 ? 0 : 1);
