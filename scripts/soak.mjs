// `npm run soak -- [--seed N] [--short]`: the generators of the tests longer, from a fresh seed when none is given: solver against
// outside opinions, laws, made-up and damaged documents, windows, conditions between the corners. Prints its seed; ends 0 or 1.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { ensureInstalled, root } from './ensure.mjs';

const ROOMS = ['tests/oracles', 'tests/laws', 'tests/documents', 'tests/windows', 'tests/corner'];

function seedOf(args) {
  const at = args.indexOf('--seed');
  if (at < 0) return 1 + Math.floor(Math.random() * 1_000_000);
  const seed = Number(args[at + 1]);
  if (Number.isInteger(seed) && seed >= 0) return seed;
  console.error('soak: --seed wants a whole number of 0 or more, such as --seed 7');
  process.exit(2);
}

const args = process.argv.slice(2);
const seed = seedOf(args);
const short = args.includes('--short');
ensureInstalled();
console.log(`soak: seed ${seed}${short ? ', short' : ''}`);
const done = spawnSync('npx', ['vitest', 'run', ...ROOMS.filter((room) => existsSync(`${root}${room}`))], {
  cwd: root,
  stdio: ['ignore', 'inherit', args.includes('--loud') ? 'inherit' : 'ignore'],
  shell: process.platform === 'win32',
  env: { ...process.env, SOAK_SEED: String(seed), ...(short ? {} : { SOAK: '1' }) },
});
console.log(`soak: seed ${seed} ${done.status === 0 ? 'holds' : 'FAILED'}`);
process.exit(done.status === 0 ? 0 : 1);
