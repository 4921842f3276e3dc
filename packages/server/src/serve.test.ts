import { chmodSync, mkdirSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { sql } from 'kysely';
import { beforeAll, describe, expect, it } from 'vitest';
import { openStore } from './store/open.ts';
import { startServer } from './serve.ts';
import { askOver, compile, startCommand } from './testing/process.ts';
import { buildText, freshApp, freshFolder, later, nextSaveId } from './testing/store.ts';

describe('the command serve', () => {
  beforeAll(compile);

  it('says where it is open, answers there only to this machine, and stops when asked', async () => {
    const folder = join(freshFolder(), 'new', 'data');
    const child = await startCommand(['serve', '--data', folder, '--port', '0']);
    expect(child.said()).toContain(`Your builds are kept in ${folder}`);
    const status = await askOver(child.url, 'GET', '/api/status');
    expect(status?.json).toEqual({
      name: 'loomwright',
      version: expect.stringMatching(/^\d+\.\d+\.\d+$/),
      folder,
    });
    const second = await startCommand(['serve', '--data', folder, '--port', '0']);
    expect([await second.stop(), second.said()]).toEqual([
      2,
      expect.stringContaining('The data folder is in use.'),
    ]);
    expect(await child.stop()).toBe(0);
    expect(child.said()).toContain('Stopped. Everything is saved.');
  });

  it('backs up and restores', async () => {
    const [folder, out] = [freshFolder(), freshFolder()];
    const store = await openStore(folder);
    await store.close();
    const file = join(out, 'all.tar');
    const backup = await startCommand(['backup', '--data', folder, '--out', file]);
    expect([await backup.stop(), backup.said()]).toEqual([
      0,
      `${file}\n0 builds, 0 items on the shelf, 0 photos; read back and right.\n`,
    ]);
    const again = await startCommand(['backup', '--data', folder, '--out', file]);
    expect([await again.stop(), again.said()]).toEqual([2, expect.stringContaining('is there already')]);
    const to = join(out, 'data');
    const restore = await startCommand(['restore', file, '--data', to]);
    expect([await restore.stop(), restore.said()]).toEqual([
      0,
      `${to}\n0 builds, 0 items on the shelf, 0 photos; checked and in place.\n`,
    ]);
  });

  it('says in plain words that a folder may not be written, and changes nothing', async () => {
    const folder = freshFolder();
    const root = process.getuid?.() === 0;
    chmodSync(folder, 0o555);
    later(() => chmodSync(folder, 0o755));
    // For the superuser permissions do not count: the process then runs as another user.
    const options = root ? { uid: 65_534, gid: 65_534 } : {};
    const child = await startCommand(['serve', '--data', join(folder, 'data'), '--port', '0'], options);
    expect(await child.stop()).toBe(2);
    expect(child.said()).toContain('Not saved. The data folder may not be written.');
    expect(child.said()).toContain('--data');
    expect(child.said()).not.toMatch(/\bat .*:\d+:\d+/);
  });
});

describe('a running server', () => {
  it('answers on IPv4 and, where there is one, on IPv6, and refuses a taken port', async () => {
    const running = await startServer({ folder: freshFolder(), port: 0 });
    later(() => running.stop());
    const { port } = new URL(running.url);
    expect((await askOver(running.url, 'GET', '/api/status'))?.status).toBe(200);
    const six = await askOver(`http://[::1]:${port}/`, 'GET', '/api/status');
    expect([undefined, 200]).toContain(six?.status);
    await expect(startServer({ folder: freshFolder(), port: Number(port) })).rejects.toMatchObject({
      words: { code: 'already-served', title: 'The port is taken.' },
    });
  });

  it('tells windows of changes as they come, and lets go of them when it stops', async () => {
    const running = await startServer({ folder: freshFolder(), port: 0 });
    later(() => running.stop());
    let heard = '';
    const change = new Promise<void>((resolve, reject) => {
      const stream = request(new URL('/api/changes', running.url), (answer) => {
        expect(answer.headers['content-type']).toBe('text/event-stream; charset=utf-8');
        expect(answer.headers['content-security-policy']).toMatch(/^default-src 'self'/);
        answer.on('data', (chunk) => {
          heard += String(chunk);
          if (heard.startsWith('retry') && !heard.includes('event')) void save();
          if (heard.includes('event: change\n') && heard.endsWith('\n\n')) resolve();
        });
      });
      stream.on('error', reject);
      stream.end();
    });
    const save = () =>
      askOver(running.url, 'POST', '/api/builds', {
        saveId: nextSaveId(),
        id: 'seen-by-others',
        text: buildText(),
        who: 'Ada',
      });
    await change;
    const data = JSON.parse(/data: (.*)/.exec(heard)?.[1] ?? '') as object;
    expect(data).toMatchObject({ what: 'build', id: 'seen-by-others', head: 1, who: 'Ada' });
    await running.stop();
    expect(await askOver(running.url, 'GET', '/api/status')).toBeNull();
  });

  it('says in plain words that the store may not be written any more; reading goes on', async () => {
    const { ask, store } = await freshApp();
    const made = await ask('POST', '/api/builds', { saveId: nextSaveId(), text: buildText() });
    await sql.raw('pragma query_only = 1').execute(store.db);
    const refused = await ask('POST', '/api/builds', { saveId: nextSaveId(), text: buildText() });
    expect([refused.status, refused.json.code]).toEqual([503, 'read-only']);
    expect((await ask('GET', `/api/builds/${made.json.build.id}`)).status).toBe(200);
  });
});

function built(): string {
  const folder = freshFolder();
  mkdirSync(join(folder, 'assets'));
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>App</title>');
  writeFileSync(join(folder, 'assets', 'app-1a2b.js'), `export const a = '${'long '.repeat(1000)}';`);
  writeFileSync(join(folder, '.secret'), 'no');
  return folder;
}

describe('the app’s files', () => {
  it('come with etag, compression and the right caching; all addresses of the app give its page', async () => {
    const { ask } = await freshApp({ appFolder: built() });
    const script = await ask('GET', '/assets/app-1a2b.js', undefined, { 'accept-encoding': 'br' });
    expect(script.headers).toMatchObject({
      'content-encoding': 'br',
      'content-type': expect.stringMatching(/^(?:text|application)\/javascript; charset=utf-8$/) as unknown,
      'cache-control': 'public, max-age=31536000, immutable',
    });
    expect(script.bytes.length).toBeLessThan(1000);
    const etag = String(script.headers['etag']);
    const same = await ask('GET', '/assets/app-1a2b.js', undefined, { 'if-none-match': etag });
    expect(same.status).toBe(304);
    for (const url of ['/', '/index.html', '/builds/abc/wiring', '/builds/abc?sheet=survey']) {
      const page = await ask('GET', url, undefined, { accept: 'text/html' });
      expect([page.status, page.text], url).toEqual([200, '<!doctype html><title>App</title>']);
      expect(page.headers).toMatchObject({
        'cache-control': 'no-cache',
        'content-type': 'text/html; charset=utf-8',
      });
      expect(page.headers['content-security-policy']).toMatch(/script-src 'self' 'wasm-unsafe-eval';/);
    }
  });

  it('nothing else is served: missing files, hidden files, ways out', async () => {
    const { ask } = await freshApp({ appFolder: built() });
    for (const url of [
      '/assets/gone.js',
      '/.secret',
      '/..%2f..%2fetc/passwd.txt',
      '/assets/..%2f..%2f.secret',
      '/%2e%2e/x.js',
      '/api/none',
    ]) {
      const answer = await ask('GET', url);
      expect([400, 403, 404], url).toContain(answer.status);
      expect(answer.headers['content-type'], url).toMatch(/problem\+json/);
    }
    expect((await ask('POST', '/', {})).status).toBe(404);
  });

  it('say how to build them when they are not there', async () => {
    const { ask } = await freshApp();
    const page = await ask('GET', '/', undefined, { accept: 'text/html' });
    expect([page.status, page.text]).toEqual([503, expect.stringContaining('npm start')]);
  });

  it('open under one name, so that what a browser keeps is found again', async () => {
    const { ask } = await freshApp({ appFolder: built(), canonical: '127.0.0.1' });
    const page = (host: string, url = '/builds/abc') =>
      ask('GET', url, undefined, { host, accept: 'text/html,*/*' });
    expect((await page('127.0.0.1:4817')).status).toBe(200);
    for (const host of ['localhost:4817', '[::1]:4817']) {
      const { status, headers } = await page(host);
      expect([status, headers['location']]).toEqual([307, 'http://127.0.0.1:4817/builds/abc']);
    }
    expect((await page('localhost:4817', '//evil.test/x')).headers['location']).toBe(
      'http://127.0.0.1:4817/evil.test/x',
    );
    expect((await ask('GET', '/api/builds', undefined, { host: 'localhost:4817' })).status).toBe(200);
  });
});
