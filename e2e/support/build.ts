/** Builds what is tested: the engine and the server, the app, the pocket file. `E2E_BUILT=1` takes what is there. */
import { execFileSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

export default function build(): void {
  if (process.env['E2E_BUILT'] === '1') return;
  const run = (args: readonly string[], cwd = root): void => {
    execFileSync(process.execPath, args, { cwd, stdio: ['ignore', 'ignore', 'inherit'] });
  };
  run([join(root, 'node_modules/typescript/bin/tsc'), '-b', 'packages/engine', 'packages/server']);
  run([join(root, 'node_modules/vite/bin/vite.js'), 'build'], join(root, 'packages/app'));
  run(['scripts/pocket.mjs']);
}
