// `npm run soak -- [--seed N] [--short]`: the generators of the tests, longer and with a fresh seed. Prints the seed first, so that
// a failure can be run again; ends 1 when something fails. `--short`: the counts of `npm test` with the seed given.
import { randomInt } from 'node:crypto';
import { ensureInstalled, root } from './ensure.mjs';
import { spawnSync } from 'node:child_process';

const args = process.argv.slice(2);
const known = args.every((arg, i) => arg === '--short' || arg === '--seed' || args[i - 1] === '--seed');
const at = args.indexOf('--seed');
const seed = at < 0 ? randomInt(1, 1_000_000) : Number(args[at + 1]);
if (!known || !Number.isInteger(seed) || seed < 1 || seed > 1_000_000) {
  console.error('npm run soak -- [--seed N] [--short]   N: a whole number from 1 to 1000000');
  process.exit(2);
}

/** What draws at random: the oracles, damaged documents, laws and corners, the server killed while it saves. */
const TESTS = [
  'tests/oracles',
  'tests/documents/mutated',
  'tests/laws',
  'tests/corner',
  'packages/server/src/crash.test.ts',
];

ensureInstalled();
const short = args.includes('--short');
console.log(`soak: seed ${seed}${short ? ', short' : ''}`);
const done = spawnSync('npx', ['vitest', 'run', '--passWithNoTests', '--reporter=verbose', ...TESTS], {
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
