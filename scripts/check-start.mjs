// Tries `npm start` as a person does: starts it, waits until the address that it prints answers with the app and all the page
// asks for, then presses Ctrl-C.
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root } from './ensure.mjs';

/** Installing and building on a slow machine are in it, ms. */
const PATIENCE = 600_000;

const data = mkdtempSync(join(tmpdir(), 'loomwright-start-'));
const child = spawn('npm', ['start', '--silent', '--', '--port', '0', '--data', data], {
  cwd: root,
  stdio: ['ignore', 'pipe', 'inherit'],
  // A group of its own: Ctrl-C reaches all of it, as on a terminal.
  detached: true,
});
let printed = '';
const ended = new Promise((resolve) => child.once('exit', resolve));
const address = new Promise((resolve, reject) => {
  child.stdout.on('data', (chunk) => {
    process.stdout.write(chunk);
    printed += chunk;
    const found = /open at (http:\/\/127\.0\.0\.1:\d+\/)/.exec(printed);
    if (found !== null) resolve(found[1]);
  });
  void ended.then(() => reject(new Error('It ended before it was open.')));
  setTimeout(() => reject(new Error('It was not open in time.')), PATIENCE).unref();
});

async function text(url) {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`${url} answered ${answer.status}.`);
  return await answer.text();
}

async function answersWithTheApp(url) {
  const page = await text(url);
  if (!page.includes('<div id="app">')) throw new Error('What answers is not the app.');
  const asked = [...page.matchAll(/(?:src|href)="(\/[^"]+)"/g)].map(([, path]) => path);
  if (!asked.some((path) => path.endsWith('.js'))) throw new Error('The page asks for no script.');
  for (const path of asked) await text(new URL(path, url));
  const { builds } = JSON.parse(await text(new URL('api/builds', url)));
  if (!Array.isArray(builds)) throw new Error('The store does not answer.');
  console.log(`The app answers: the page and ${asked.length} files that it asks for, and the store.`);
}

let problem = null;
try {
  await answersWithTheApp(await address);
} catch (error) {
  problem = error;
} finally {
  if (child.exitCode === null && child.pid !== undefined) process.kill(-child.pid, 'SIGINT');
  await ended;
  rmSync(data, { recursive: true, force: true });
}
if (problem === null && !printed.includes('Stopped. Everything is saved.'))
  problem = new Error('It did not end in order.');
if (problem !== null) {
  console.error(problem.message);
  process.exit(1);
}
