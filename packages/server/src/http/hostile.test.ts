import { readdirSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { buildText, freshApp, later, nextSaveId, pngOf, type Answer } from '../testing/store.ts';

const SCRIPT = '<script>alert(1)</script>\'"><img src=x onerror=alert(1)>';

function isProblem(answer: Answer, status: number, code: string): void {
  expect([answer.status, answer.json?.code]).toEqual([status, code]);
  expect(answer.headers['content-type']).toBe('application/problem+json; charset=utf-8');
  expect(answer.json).toMatchObject({ type: `urn:loomwright:problem:${code}`, status });
  for (const words of [answer.json.title, answer.json.detail, answer.json.todo])
    expect(words).toMatch(/^[A-Z"].*\.$/s);
  expect(answer.text).not.toMatch(/\bat .*\.(?:ts|js):\d/);
}

describe('who may ask', () => {
  it('refuses every host name but those of this machine', async () => {
    const { ask } = await freshApp();
    for (const host of [
      'evil.test',
      '127.0.0.1.evil.test',
      'localhost.evil.test:80',
      '192.168.1.5:4817',
      '[::2]:80',
      'localhost:',
      '@127.0.0.1',
      '0.0.0.0:4817',
    ])
      isProblem(await ask('GET', '/api/builds', undefined, { host }), 421, 'wrong-host');
    for (const host of ['127.0.0.1:4817', 'localhost:1', 'LOCALHOST', '[::1]:4817'])
      expect((await ask('GET', '/api/builds', undefined, { host })).status).toBe(200);
  });

  it('refuses what another site makes a browser send', async () => {
    const { ask } = await freshApp();
    const body = { saveId: nextSaveId(), text: buildText() };
    for (const origin of [
      'http://evil.test',
      'null',
      'http://127.0.0.1:9999',
      'https://127.0.0.1:4817',
      'http://localhost:4817',
    ])
      isProblem(await ask('POST', '/api/builds', body, { origin }), 403, 'cross-site');
    for (const site of ['cross-site', 'same-site'])
      isProblem(await ask('POST', '/api/builds', body, { 'sec-fetch-site': site }), 403, 'cross-site');
    isProblem(
      await ask('GET', '/api/builds', undefined, { 'sec-fetch-site': 'cross-site' }),
      403,
      'cross-site',
    );
    expect((await ask('GET', '/api/builds')).json.builds).toEqual([]);
    const own = { origin: 'http://127.0.0.1:4817', 'sec-fetch-site': 'same-origin' };
    expect((await ask('POST', '/api/builds', body, own)).status).toBe(201);
  });

  it('refuses forms of another page: their content types are not taken', async () => {
    const { ask } = await freshApp();
    const body = JSON.stringify({ saveId: nextSaveId(), text: buildText() });
    for (const type of [
      'text/plain',
      'application/x-www-form-urlencoded',
      'multipart/form-data; boundary=x',
      'text/html',
      'application/yaml',
    ])
      isProblem(await ask('POST', '/api/builds', body, { 'content-type': type }), 415, 'wrong-type');
    isProblem(await ask('POST', '/api/photos', 'x', { 'content-type': 'text/plain' }), 415, 'wrong-type');
    isProblem(await ask('POST', '/api/archive', 'x', { 'content-type': 'text/plain' }), 415, 'wrong-type');
  });

  it('answers no preflight of another site', async () => {
    const { app } = await freshApp();
    const answer = await app.inject({
      method: 'OPTIONS',
      url: '/api/builds',
      headers: {
        host: '127.0.0.1:4817',
        origin: 'http://evil.test',
        'access-control-request-method': 'POST',
      },
    });
    expect(answer.statusCode).toBe(403);
    expect(Object.keys(answer.headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
  });

  it('sets the policy on every answer, errors included', async () => {
    const { ask } = await freshApp();
    for (const url of ['/api/builds', '/api/nowhere', '/api/builds/..%2f..%2fetc', '/', '/api/builds/%ff']) {
      const { headers } = await ask('GET', url);
      expect(headers['content-security-policy']).toMatch(
        /^default-src 'self'; script-src 'self' 'wasm-unsafe-eval';/,
      );
      const rest = String(headers['content-security-policy']).replace("'wasm-unsafe-eval'", '');
      expect(rest).not.toMatch(/unsafe|http:|\*/);
      expect(headers).toMatchObject({
        'x-content-type-options': 'nosniff',
        'referrer-policy': 'no-referrer',
      });
    }
  });
});

describe('ids and names', () => {
  it('refuses ways up and out in every place of an id', async () => {
    const { ask } = await freshApp();
    const ways = [
      '..%2f..%2fetc%2fpasswd',
      '..%5c..%5cwindows',
      '%2e%2e',
      '....',
      'a',
      'UPPERCASE',
      "x'%3b--",
      '%00abcdefgh',
      'x'.repeat(65),
    ];
    for (const way of ways) {
      for (const url of [
        `/api/builds/${way}`,
        `/api/builds/${way}/revisions`,
        `/api/shelf/${way}`,
        `/api/photos/${way}`,
      ]) {
        const answer = await ask('GET', url);
        expect([400, 404], url).toContain(answer.status);
        expect(answer.headers['content-type']).toMatch(/problem\+json/);
      }
    }
    isProblem(await ask('GET', `/api/builds/${'x'.repeat(3000)}`), 414, 'bad-request');
    isProblem(await ask('GET', '/api/builds/%zz'), 400, 'bad-request');
    const made = await ask('POST', '/api/builds', {
      saveId: nextSaveId(),
      id: '../../../etc',
      text: buildText(),
    });
    isProblem(made, 400, 'bad-request');
  });
});

describe('bodies', () => {
  it('refuses oversized ones before they are read', async () => {
    const { ask } = await freshApp();
    isProblem(await ask('POST', '/api/builds', 'x'.repeat(4 * 1024 * 1024)), 413, 'too-large');
    const text = `loomwright: 1\n# ${'é'.repeat(600_000)}`;
    isProblem(await ask('POST', '/api/builds', { saveId: nextSaveId(), text }), 400, 'bad-request');
    const png = Buffer.concat([pngOf(1), Buffer.alloc(12 * 1024 * 1024)]);
    isProblem(await ask('POST', '/api/photos', png, { 'content-type': 'image/png' }), 413, 'too-large');
  });

  it('refuses deep ones without recursion', async () => {
    const { ask } = await freshApp();
    for (const [open, close] of [
      ['[', ']'],
      ['{"a":', '}'],
    ] as const) {
      const deep = `${open.repeat(200_000)}1${close.repeat(200_000)}`;
      isProblem(await ask('POST', '/api/shelf', deep), 400, 'too-deep');
    }
    isProblem(await ask('POST', '/api/shelf', '['.repeat(1_000_000)), 400, 'too-deep');
    const yaml = `loomwright: 1\nnotes: ${'['.repeat(100_000)}`;
    const kept = await ask('POST', '/api/builds', { saveId: nextSaveId(), text: yaml });
    expect([kept.status, kept.json.build.draft]).toEqual([201, true]);
  });

  it('refuses wrong types, unknown fields, prototypes and broken JSON, and says which', async () => {
    const { ask } = await freshApp();
    const good = { saveId: nextSaveId(), text: buildText() };
    const wrong: [unknown, string][] = [
      [{ ...good, text: 7 }, 'text'],
      [{ ...good, text: { $ne: null } }, 'text'],
      [{ ...good, text: 'a\u0000b' }, 'text'],
      [{ ...good, text: 'loomwright: 1 # \ud800' }, 'text'],
      [{ ...good, saveId: ['x'] }, 'saveId'],
      [{ ...good, who: 'x'.repeat(81) }, 'who'],
      [{ ...good, admin: true }, 'admin'],
      [{ text: buildText() }, 'saveId'],
      [[], ''],
      [null, ''],
      ['"text"', ''],
    ];
    for (const [body, where] of wrong) {
      const answer = await ask('POST', '/api/builds', body === null ? 'null' : body);
      isProblem(answer, 400, 'bad-request');
      expect(JSON.stringify(answer.json)).toContain(where);
    }
    for (const text of [
      '{',
      '',
      '{"a":1}}',
      '{"saveId":NaN}',
      '{"__proto__":{"x":1}}',
      '{"constructor":{"prototype":{}}}',
    ])
      isProblem(await ask('POST', '/api/builds', text), 400, 'bad-request');
    expect((await ask('GET', '/api/builds')).json.builds).toEqual([]);
  });

  it('refuses compressed ones', async () => {
    const { ask } = await freshApp();
    isProblem(await ask('POST', '/api/builds', {}, { 'content-encoding': 'gzip' }), 415, 'wrong-type');
  });

  it('gives script in every field back as data', async () => {
    const { ask } = await freshApp();
    const quoted = JSON.stringify(SCRIPT);
    const said = { who: SCRIPT.slice(0, 60), why: SCRIPT, name: SCRIPT };
    const { json } = await ask('POST', '/api/builds', {
      saveId: nextSaveId(),
      text: buildText(quoted, quoted),
      ...said,
    });
    const { id } = json.build;
    await ask('PATCH', `/api/builds/${id}`, { archived: true, who: said.who, why: SCRIPT });
    const { sha256 } = (await ask('POST', '/api/photos', pngOf(1), { 'content-type': 'image/png' })).json
      .photo;
    const use = { saveId: nextSaveId(), sha256, on: { place: SCRIPT }, caption: SCRIPT, who: said.who };
    expect((await ask('POST', `/api/builds/${id}/photos`, use)).status).toBe(201);
    const item = { saveId: nextSaveId(), kind: 'part', data: { [SCRIPT]: SCRIPT }, ...said };
    expect((await ask('POST', '/api/shelf', item)).status).toBe(201);
    const reads = [
      `/api/builds?archived=all`,
      `/api/builds/${id}`,
      `/api/builds/${id}/events`,
      `/api/builds/${id}/photos`,
      '/api/shelf',
      `/api/builds/${id}/revisions`,
    ];
    for (const url of reads) {
      const answer = await ask('GET', url);
      expect(answer.headers['content-type']).toBe('application/json; charset=utf-8');
      expect(answer.headers['x-content-type-options']).toBe('nosniff');
      expect(JSON.stringify(answer.json)).toContain(JSON.stringify(SCRIPT.slice(0, 25)).slice(1, -1));
    }
    expect((await ask('GET', `/api/builds/${id}`)).json.revision).toMatchObject({
      title: SCRIPT,
      why: SCRIPT,
    });
    const file = await ask('GET', `/api/builds/${id}/yaml`);
    expect(file.headers['content-type']).toBe('application/yaml; charset=utf-8');
    expect(file.headers['content-disposition']).toMatch(/^attachment; filename="[a-z0-9-]+\.yaml"$/);
    const missing = await ask('GET', `/api/${encodeURIComponent(SCRIPT)}`);
    expect(missing.headers['content-type']).toMatch(/problem\+json/);
  });

  it('limits the rate, and says when to come again', async () => {
    const { ask } = await freshApp({ rate: 5 });
    const answers = [];
    for (let n = 0; n < 7; n += 1) answers.push(await ask('GET', '/api/builds'));
    expect(answers.map((answer) => answer.status)).toEqual([200, 200, 200, 200, 200, 429, 429]);
    const [, , , , , , last] = answers;
    expect(last).toBeDefined();
    if (last !== undefined) isProblem(last, 429, 'too-many-requests');
    expect(Number(last?.headers['retry-after'])).toBeGreaterThan(0);
  });

  it('survives bytes that are no HTTP', async () => {
    const { app, ask } = await freshApp();
    await app.listen({ host: '127.0.0.1', port: 0 });
    const address = app.addresses()[0] as { port: number };
    const said = await new Promise<string>((resolve) => {
      const socket = connect(address.port, '127.0.0.1', () => socket.write('\x16\x03\x01 nonsense\r\n\r\n'));
      later(() => socket.destroy());
      let text = '';
      socket.on('data', (chunk) => (text += String(chunk)));
      socket.on('close', () => resolve(text));
    });
    expect(said).toMatch(/^HTTP\/1\.1 400 /);
    expect((await ask('GET', '/api/status')).status).toBe(200);
  });
});

describe('photos', () => {
  const send = { 'content-type': 'image/png' };

  it('go by their bytes, not by what they are said to be', async () => {
    const { ask } = await freshApp();
    const bad = [
      Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'),
      Buffer.from('<html><script>alert(1)</script>'),
      Buffer.from('GIF89a0123456789'),
      Buffer.from('%PDF-1.7'),
      pngOf(1).subarray(0, 20),
      Buffer.from([0xff, 0xd8, 0xff]),
      Buffer.from('RIFF0000WEBPVP8 '),
    ];
    for (const bytes of bad) isProblem(await ask('POST', '/api/photos', bytes, send), 415, 'not-a-photo');
    isProblem(await ask('POST', '/api/photos', pngOf(1, 60_000, 60_000), send), 413, 'too-large');
    const kept = await ask('POST', '/api/photos', pngOf(1, 8, 9), { 'content-type': 'image/jpeg' });
    expect(kept.json.photo).toMatchObject({ type: 'image/png', width: 8, height: 9 });
  });

  it('are kept once, and come back byte for byte in a sandbox', async () => {
    const { ask, store } = await freshApp();
    const bytes = Buffer.concat([pngOf(7), Buffer.from(SCRIPT)]);
    const [first, second] = [
      await ask('POST', '/api/photos', bytes, send),
      await ask('POST', '/api/photos', bytes, send),
    ];
    expect(second.json).toEqual(first.json);
    const { sha256 } = first.json.photo;
    const folder = join(store.folder, 'photos', sha256.slice(0, 2));
    expect(readdirSync(folder)).toEqual([sha256]);
    const back = await ask('GET', `/api/photos/${sha256}`);
    expect(back.bytes.equals(bytes)).toBe(true);
    expect(back.headers).toMatchObject({
      'content-type': 'image/png',
      'content-security-policy': "default-src 'none'; sandbox",
      'x-content-type-options': 'nosniff',
      'cross-origin-resource-policy': 'same-origin',
    });
    const cached = await ask('GET', `/api/photos/${sha256}`, undefined, { 'if-none-match': `"${sha256}"` });
    expect([cached.status, cached.bytes.length]).toEqual([304, 0]);
    expect((await ask('GET', `/api/photos/${'0'.repeat(64)}`)).status).toBe(404);
  });

  it('stand on places and parts, go off and come back; copies of a build take them along', async () => {
    const { ask } = await freshApp();
    const { id } = (await ask('POST', '/api/builds', { saveId: nextSaveId(), text: buildText() })).json.build;
    const { sha256 } = (await ask('POST', '/api/photos', pngOf(3), send)).json.photo;
    const url = `/api/builds/${id}/photos`;
    const body = { saveId: nextSaveId(), sha256, on: { part: 'feed-fuse' }, caption: 'read 80 A', who: 'Fi' };
    const use = (await ask('POST', url, body)).json.photo;
    expect((await ask('POST', url, body)).json.photo.id).toBe(use.id);
    expect(use).toMatchObject({
      on: { part: 'feed-fuse' },
      caption: 'read 80 A',
      type: 'image/png',
      removed: null,
    });
    await ask('PATCH', `${url}/${use.id}`, { removed: true });
    expect((await ask('GET', url)).json.photos).toEqual([]);
    expect((await ask('GET', `${url}?removed=all`)).json.photos).toHaveLength(1);
    await ask('PATCH', `${url}/${use.id}`, { removed: false });
    const copy = await ask('POST', `/api/builds/${id}/copy`, { saveId: nextSaveId(), photos: true });
    const copied = (await ask('GET', `/api/builds/${copy.json.build.id}/photos`)).json.photos;
    expect(copied).toMatchObject([{ sha256, on: { part: 'feed-fuse' } }]);
    const unknown = { ...body, saveId: nextSaveId(), sha256: 'a'.repeat(64) };
    isProblem(await ask('POST', url, unknown), 404, 'not-found');
    isProblem(
      await ask('POST', url, { ...body, saveId: nextSaveId(), on: { place: 'a', part: 'b' } }),
      400,
      'bad-request',
    );
  });
});
