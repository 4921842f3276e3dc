import { describe, expect, it } from 'vitest';
import { buildText, freshApp, nextSaveId, type Ask } from '../testing/store.ts';

async function made(ask: Ask, title = 'Job 1') {
  const answer = await ask('POST', '/api/builds', {
    saveId: nextSaveId(),
    text: buildText(title),
    who: 'Ada',
    why: 'first',
  });
  expect(answer.status).toBe(201);
  return answer.json as { build: { id: string; head: number }; revision: { number: number } };
}

describe('builds', () => {
  it('makes, reads and lists a build, with who, when and why', async () => {
    const { ask } = await freshApp();
    const { build } = await made(ask, 'Job 114, van');
    const read = await ask('GET', `/api/builds/${build.id}`);
    expect(read.json.build).toMatchObject({ title: 'Job 114, van', head: 1, draft: false, archived: null });
    expect(read.json.revision).toMatchObject({
      number: 1,
      who: 'Ada',
      why: 'first',
      text: buildText('Job 114, van'),
    });
    expect(Date.parse(read.json.revision.saved)).not.toBeNaN();
    const list = await ask('GET', '/api/builds?search=VAN');
    expect(list.json).toMatchObject({ more: false, builds: [{ id: build.id }] });
    expect((await ask('GET', '/api/builds?search=boat')).json.builds).toEqual([]);
    const head = await ask('GET', `/api/builds/${build.id}/head`);
    expect(head.json).toEqual({
      id: build.id,
      head: 1,
      saved: read.json.revision.saved,
      who: 'Ada',
      archived: null,
      name: null,
    });
  });

  it('keeps every revision and reads any of them', async () => {
    const { ask } = await freshApp();
    const { build } = await made(ask);
    for (const base of [1, 2, 3]) {
      const text = buildText(`Job 1 ${base}`);
      const body = { saveId: nextSaveId(), base, text, who: 'Bo', why: `step ${base}` };
      const saved = await ask('POST', `/api/builds/${build.id}/revisions`, body);
      expect([saved.status, saved.json.revision.number, saved.json.build.head]).toEqual([
        201,
        base + 1,
        base + 1,
      ]);
    }
    const list = await ask('GET', `/api/builds/${build.id}/revisions?limit=2`);
    expect(list.json.more).toBe(true);
    expect(list.json.revisions.map((r: { number: number }) => r.number)).toEqual([4, 3]);
    const rest = await ask('GET', `/api/builds/${build.id}/revisions?before=3`);
    expect(rest.json.revisions.map((r: { number: number; why: string }) => [r.number, r.why])).toEqual([
      [2, 'step 1'],
      [1, 'first'],
    ]);
    const old = await ask('GET', `/api/builds/${build.id}/revisions/1`);
    expect(old.json.revision.text).toBe(buildText());
    expect((await ask('GET', `/api/builds/${build.id}/revisions/9`)).status).toBe(404);
  });

  it('refuses a save from a stale revision with both versions and their base, and overwrites nothing', async () => {
    const { ask } = await freshApp();
    const { build } = await made(ask);
    const url = `/api/builds/${build.id}/revisions`;
    await ask('POST', url, { saveId: nextSaveId(), base: 1, text: buildText('Theirs'), who: 'Bo', why: 'b' });
    const saveId = nextSaveId();
    const mine = { saveId, base: 1, text: buildText('Mine'), who: 'Cy', why: 'c' };
    const refused = await ask('POST', url, mine);
    expect(refused.status).toBe(409);
    expect(refused.headers['content-type']).toMatch(/^application\/problem\+json/);
    expect(refused.json).toMatchObject({
      type: 'urn:loomwright:problem:stale-revision',
      code: 'stale-revision',
      status: 409,
      theirs: { number: 2, who: 'Bo', text: buildText('Theirs') },
      base: { number: 1, text: buildText() },
      yours: { ...mine },
    });
    const now = await ask('GET', `/api/builds/${build.id}`);
    expect([now.json.build.head, now.json.revision.text]).toEqual([2, buildText('Theirs')]);
    const again = await ask('POST', url, { ...mine, base: 2 });
    expect([again.status, again.json.build.head]).toEqual([201, 3]);
  });

  it('says stale also for a base that does not exist yet', async () => {
    const { ask } = await freshApp();
    const { build } = await made(ask);
    const body = { saveId: nextSaveId(), base: 7, text: buildText('Mine') };
    const refused = await ask('POST', `/api/builds/${build.id}/revisions`, body);
    expect([refused.status, refused.json.base, refused.json.theirs.number]).toEqual([409, null, 1]);
  });

  it('lets exactly one of many concurrent saves from one revision win', async () => {
    const { ask } = await freshApp();
    const { build } = await made(ask);
    const tries = Array.from({ length: 20 }, (_, n) =>
      ask('POST', `/api/builds/${build.id}/revisions`, {
        saveId: nextSaveId(),
        base: 1,
        text: buildText(`Try ${n}`),
      }),
    );
    const statuses = (await Promise.all(tries)).map((answer) => answer.status);
    expect(statuses.filter((status) => status === 201)).toHaveLength(1);
    expect(statuses.filter((status) => status === 409)).toHaveLength(19);
    const winner = statuses.indexOf(201);
    const read = await ask('GET', `/api/builds/${build.id}`);
    expect([read.json.build.head, read.json.revision.text]).toEqual([2, buildText(`Try ${winner}`)]);
  });

  it('saves once however often the same save is tried', async () => {
    const { ask } = await freshApp();
    const { build } = await made(ask);
    const url = `/api/builds/${build.id}/revisions`;
    const body = { saveId: nextSaveId(), base: 1, text: buildText('Once') };
    const first = await ask('POST', url, body);
    await ask('POST', url, { saveId: nextSaveId(), base: 2, text: buildText('Later') });
    const second = await ask('POST', url, body);
    expect([first.status, second.status]).toEqual([201, 200]);
    expect(second.json.revision).toEqual(first.json.revision);
    expect(second.json).toMatchObject({ replayed: true, build: { head: 3 } });
    const reused = await ask('POST', url, { ...body, base: 3, text: buildText('Other') });
    expect([reused.status, reused.json.code]).toEqual([409, 'save-id-reused']);
    expect((await ask('GET', `/api/builds/${build.id}`)).json.build.head).toBe(3);
  });

  it('makes a build once however often it is tried, under the id that was asked for', async () => {
    const { ask } = await freshApp();
    const body = { saveId: nextSaveId(), id: 'chosen-in-browser', text: buildText() };
    const first = await ask('POST', '/api/builds', body);
    const second = await ask('POST', '/api/builds', body);
    expect([first.status, second.status, second.json.build.id]).toEqual([201, 200, 'chosen-in-browser']);
    const other = await ask('POST', '/api/builds', { ...body, saveId: nextSaveId() });
    expect([other.status, other.json.code]).toEqual([409, 'id-taken']);
    expect((await ask('GET', '/api/builds')).json.builds).toHaveLength(1);
  });

  it('keeps an unreadable text as a draft under the last title', async () => {
    const { ask } = await freshApp();
    const { build } = await made(ask, 'Good');
    const text = 'loomwright: 1\ntitle: [\n';
    const body = { saveId: nextSaveId(), base: 1, text };
    const saved = await ask('POST', `/api/builds/${build.id}/revisions`, body);
    expect(saved.json.build).toMatchObject({ draft: true, title: 'Good', head: 2 });
    expect((await ask('GET', `/api/builds/${build.id}`)).json.revision.text).toBe(text);
  });

  it('renames, archives and takes out again, and notes who did it; nothing is deleted', async () => {
    const { ask } = await freshApp();
    const { build } = await made(ask);
    const url = `/api/builds/${build.id}`;
    const named = await ask('PATCH', url, { name: 'The blue one', who: 'Di', why: 'customer calls it so' });
    expect(named.json.build).toMatchObject({ name: 'The blue one', title: 'Job 1', head: 1 });
    await ask('PATCH', url, { archived: true, who: 'Di' });
    expect((await ask('GET', '/api/builds')).json.builds).toEqual([]);
    expect((await ask('GET', '/api/builds?archived=yes')).json.builds).toHaveLength(1);
    await ask('PATCH', url, { archived: false, name: null });
    expect((await ask('GET', url)).json.build).toMatchObject({ archived: null, name: null });
    const { events } = (await ask('GET', `${url}/events`)).json;
    expect(
      events.map((e: { what: string; who: string; detail: string }) => [e.what, e.who, e.detail]),
    ).toEqual([
      ['renamed', 'Di', 'The blue one'],
      ['archived', 'Di', ''],
      ['renamed', '', ''],
      ['unarchived', '', ''],
    ]);
    expect((await ask('DELETE', url)).status).toBe(404);
  });

  it('copies an earlier job, any revision of it, once', async () => {
    const { ask } = await freshApp();
    const { build } = await made(ask);
    const url = `/api/builds/${build.id}`;
    const body = { saveId: nextSaveId(), name: 'Job 2', who: 'Ed' };
    const copy = await ask('POST', `${url}/copy`, body);
    expect(copy.json.build).toMatchObject({
      name: 'Job 2',
      head: 1,
      copiedFrom: { id: build.id, revision: 1 },
    });
    await ask('POST', `${url}/revisions`, { saveId: nextSaveId(), base: 1, text: buildText('Later') });
    const again = await ask('POST', `${url}/copy`, body);
    expect([again.status, again.json.build.id]).toEqual([200, copy.json.build.id]);
    const second = await ask('POST', `${url}/copy`, { saveId: nextSaveId() });
    const text = (await ask('GET', `/api/builds/${second.json.build.id}`)).json.revision.text as string;
    expect(text).toBe(buildText('Later'));
  });

  it('gives out the document byte for byte, as a file', async () => {
    const { ask } = await freshApp();
    const text = `\uFEFF${buildText('Bäckers Wagen / "x"')}# end  \r\n`;
    const { json } = await ask('POST', '/api/builds', { saveId: nextSaveId(), text });
    const file = await ask('GET', `/api/builds/${json.build.id}/yaml`);
    expect(file.bytes.equals(Buffer.from(text))).toBe(true);
    expect(file.headers).toMatchObject({
      'content-type': 'application/yaml; charset=utf-8',
      'content-disposition': 'attachment; filename="backers-wagen-x.yaml"',
      'x-content-type-options': 'nosniff',
    });
    expect((await ask('GET', `/api/builds/${json.build.id}/yaml?revision=2`)).status).toBe(404);
  });
});

const send = (ask: Ask, body: Buffer | string, file = 'job.yaml') =>
  ask('POST', `/api/builds/import?saveId=${nextSaveId()}&file=${file}`, body, {
    'content-type': 'application/yaml',
  });

describe('importing a file', () => {
  it('takes a build as it is', async () => {
    const { ask } = await freshApp();
    const answer = await send(ask, buildText('From disk'));
    expect([answer.status, answer.json.build.title, answer.json.diagnostics]).toEqual([201, 'From disk', []]);
  });

  it('keeps a build with errors as a draft, with what is wrong, by line and column', async () => {
    const { ask } = await freshApp();
    const text = `${buildText('Broken')}parts:\n  f1: { kind: fuse, rating: 25 }\n`;
    const answer = await send(ask, text);
    expect(answer.status).toBe(201);
    expect(answer.json.build).toMatchObject({ draft: true, title: 'Broken' });
    expect(answer.json.diagnostics.length).toBeGreaterThan(0);
    expect(answer.json.diagnostics[0]).toMatchObject({ severity: 'error', line: 6 });
    const back = await ask('GET', `/api/builds/${answer.json.build.id}/yaml`);
    expect(back.text).toBe(text);
  });

  it('refuses what is no build, and says why', async () => {
    const { ask } = await freshApp();
    for (const body of [
      'just words',
      '{"a": 1}',
      '\x7fELF\0\0',
      Buffer.from([0xff, 0xfe, 0x41, 0x00]),
      '[]',
    ]) {
      const answer = await send(ask, body, 'holiday.txt');
      expect([answer.status, answer.json.code]).toEqual([422, 'not-a-build']);
      expect(answer.json.detail).toContain('holiday.txt');
    }
    const torn = Buffer.concat([Buffer.from('loomwright: 1\ntitle: '), Buffer.from([0xff, 0xfe])]);
    expect((await send(ask, torn)).status).toBe(422);
    expect((await ask('GET', '/api/builds')).json.builds).toEqual([]);
  });

  it('refuses more than 1 MiB', async () => {
    const { ask } = await freshApp();
    const answer = await send(ask, `loomwright: 1\n# ${'x'.repeat(1024 * 1024)}`);
    expect([answer.status, answer.json.code]).toEqual([413, 'too-large']);
  });
});
