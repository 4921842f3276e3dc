// Installs what is missing, so that two commands do everything on a fresh machine.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));

/** Runs a command in the project's root with the caller's terminal; ends the process with its code when it fails. */
export function run(command, args, options = {}) {
  const done = spawnSync(command, args, {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
    ...options,
  });
  if (done.status !== 0) process.exit(done.status ?? 1);
}

/** True when a file is missing or older than another. */
const older = (file, than) => !existsSync(file) || statSync(file).mtimeMs < statSync(than).mtimeMs;

export function ensureInstalled() {
  if (!older(`${root}node_modules/.package-lock.json`, `${root}package-lock.json`)) return;
  console.error('Installing what is missing (once)...');
  run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], { stdio: ['ignore', 2, 2] });
}

/** Compiles the engine, the server and the command line; the compiler looks itself what is out of date. */
export function build() {
  run('npx', ['tsc', '-b', 'packages/engine', 'packages/server', 'packages/cli']);
}

/** What the built app is made of. */
const APP_FROM = [
  'packages/app/src',
  'packages/app/index.html',
  'packages/app/vite.config.ts',
  'packages/engine/src',
  'examples',
  'package-lock.json',
];

/** Bundles the app unless the one that is there is newer than all it is made of. */
export function buildApp() {
  const made = `${root}packages/app/dist/sw.js`;
  if (existsSync(made) && statSync(made).mtimeMs > Math.max(...APP_FROM.map((each) => newest(root + each))))
    return;
  console.error('Building the app...');
  run(
    'npx',
    ['vite', 'build', 'packages/app', '--config', 'packages/app/vite.config.ts', '--logLevel', 'warn'],
    {
      stdio: ['ignore', 2, 2],
    },
  );
}

/** When a file, or a folder or anything in it, changed last. */
function newest(path) {
  const own = statSync(path);
  if (!own.isDirectory()) return own.mtimeMs;
  return Math.max(own.mtimeMs, ...readdirSync(path).map((name) => newest(join(path, name))));
}
