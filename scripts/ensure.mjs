// Installs what is missing, so that two commands do everything on a fresh machine.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
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

export function build() {
  run('npx', ['tsc', '-b', 'packages/engine', 'packages/cli']);
}
