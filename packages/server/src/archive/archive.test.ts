import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { buildText, freshApp, freshFolder, nextSaveId, type Ask } from '../testing/store.ts';
import { filesOf, filled, send } from '../testing/tar.ts';

const everything = async (ask: Ask) => ({
  builds: (await ask('GET', '/api/builds?archived=all')).json,
  one: (await ask('GET', '/api/builds/build-one/revisions')).json,
  texts: await Promise.all(
    [1, 2, 3].map(async (n) => (await ask('GET', `/api/builds/build-one/revisions/${n}`)).json),
  ),
  events: (await ask('GET', '/api/builds/build-one/events')).json,
  photos: (await ask('GET', '/api/builds/build-one/photos')).json,
  copied: (await ask('GET', '/api/builds/build-two/photos')).json,
  drawing: (await ask('GET', '/api/builds/build-one/drawing-order')).json,
  shelf: (await ask('GET', '/api/shelf')).json,
  item: (await ask('GET', '/api/shelf/item-one/revisions')).json,
});

describe('everything as one archive', () => {
  it('goes out and comes into an empty store whole; taken again, it adds nothing', async () => {
    const from = await freshApp();
    await filled(from.ask);
    const out = await from.ask('GET', '/api/archive');
    expect(out.headers['content-type']).toBe('application/x-tar');
    const to = await freshApp();
    const taken = await send(to.ask, out.bytes);
    expect(taken.json).toEqual({
      builds: { added: 2, extended: 0, present: 0, keptBeside: 0 },
      items: { added: 1, extended: 0, present: 0, keptBeside: 0 },
      photos: { added: 1, present: 0 },
    });
    expect(await everything(to.ask)).toEqual(await everything(from.ask));
    const again = await send(to.ask, out.bytes);
    expect([again.json.builds.present, again.json.items.present, again.json.photos.present]).toEqual([
      2, 1, 1,
    ]);
    expect(await everything(to.ask)).toEqual(await everything(from.ask));
    const files = filesOf(out.bytes);
    const back = filesOf((await to.ask('GET', '/api/archive')).bytes);
    for (const [name, content] of files)
      if (name.includes('/')) expect(back.get(name)?.equals(content), name).toBe(true);
    expect(readdirSync(to.store.folder).filter((name) => name.startsWith('incoming'))).toEqual([]);
  });

  it('is a tar file as other programs read it, with sums as sha256sum reads them', async () => {
    const { ask } = await freshApp();
    await filled(ask);
    const folder = freshFolder();
    writeFileSync(join(folder, 'all.tar'), (await ask('GET', '/api/archive')).bytes);
    const unpacked = spawnSync('tar', ['-xf', 'all.tar'], { cwd: folder, encoding: 'utf8' });
    expect([unpacked.status, unpacked.stderr]).toEqual([0, '']);
    expect(readFileSync(join(folder, 'builds/build-one/000003.yaml'), 'utf8')).toBe(buildText('R2'));
    const sums = spawnSync('sha256sum', ['-c', '--quiet', 'SHA256SUMS'], { cwd: folder, encoding: 'utf8' });
    expect([sums.status, sums.stdout]).toEqual([0, '']);
  });

  it('extends a build that goes on in the archive, and stands one that went another way beside ours, once', async () => {
    const from = await freshApp();
    await filled(from.ask);
    const early = (await from.ask('GET', '/api/archive')).bytes;
    await from.ask('POST', '/api/builds/build-one/revisions', {
      saveId: nextSaveId(),
      base: 3,
      text: buildText('R3'),
    });
    const late = (await from.ask('GET', '/api/archive')).bytes;
    const to = await freshApp();
    await send(to.ask, early);
    expect((await send(to.ask, late)).json.builds).toEqual({
      added: 0,
      extended: 1,
      present: 1,
      keptBeside: 0,
    });
    expect((await send(to.ask, early)).json.builds).toEqual({
      added: 0,
      extended: 0,
      present: 2,
      keptBeside: 0,
    });
    const other = await freshApp();
    await send(other.ask, early);
    await other.ask('POST', '/api/builds/build-one/revisions', {
      saveId: nextSaveId(),
      base: 3,
      text: buildText('Ours'),
    });
    expect((await send(other.ask, late)).json.builds).toEqual({
      added: 0,
      extended: 0,
      present: 1,
      keptBeside: 1,
    });
    expect((await send(other.ask, late)).json.builds).toEqual({
      added: 0,
      extended: 0,
      present: 2,
      keptBeside: 0,
    });
    const { builds } = (await other.ask('GET', '/api/builds')).json;
    expect(
      builds.map((b: { title: string; name: string; head: number }) => [b.title, b.name, b.head]).toSorted(),
    ).toEqual([
      ['Ours', 'Blue', 4],
      ['R3', 'Blue (from archive)', 4],
    ]);
    const theirs = builds.find((b: { title: string }) => b.title === 'R3');
    expect((await other.ask('GET', `/api/builds/${theirs.id}`)).json.revision.text).toBe(buildText('R3'));
    expect(theirs.copiedFrom).toEqual({ id: 'build-one', revision: 3 });
    expect((await other.ask('GET', `/api/builds/${theirs.id}/photos`)).json.photos).toHaveLength(1);
  });
});
