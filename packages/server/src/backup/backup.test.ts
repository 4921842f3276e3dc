import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { createBuild, listBuilds, readBuild } from '../store/builds.ts';
import { openStore } from '../store/open.ts';
import { notePhoto } from '../store/photo-uses.ts';
import { saveRevision } from '../store/saving.ts';
import { sniffPhoto } from '../photos/sniff.ts';
import { buildText, freshFolder, freshStore, nextSaveId, pngOf } from '../testing/store.ts';
import { backup } from './backup.ts';
import { restore } from './restore.ts';

const NOW = () => '2026-11-25T10:00:00.000Z';
const saving = (title: string) => ({
  saveId: nextSaveId(),
  text: buildText(title),
  title,
  faults: 0,
  who: '',
  why: '',
});

async function filledFolder(): Promise<string> {
  const folder = freshFolder();
  const store = await openStore(folder);
  await createBuild(store, { id: 'build-one', name: null, ...saving('One') });
  await saveRevision(store, 'build-one', 1, saving('Two'));
  await store.photos.keep(pngOf(5));
  await notePhoto(store, sniffPhoto(pngOf(5)));
  await store.close();
  return folder;
}

const titles = async (at: string) => {
  const store = await openStore(at);
  const { builds } = await listBuilds(store, { archived: 'all', search: '', limit: 9 });
  await store.close();
  return builds.map((build) => build.title).toSorted();
};

describe('backup and restore', () => {
  it('goes round, while the store is being served', async () => {
    const folder = await filledFolder();
    const serving = await freshStore({}, folder);
    const file = join(freshFolder(), 'backup.tar');
    const made = await backup(folder, file);
    expect(made).toEqual({ builds: 1, items: 0, photos: 1, missing: [], path: file });
    await saveRevision(serving, 'build-one', 2, saving('After'));
    const to = join(freshFolder(), 'deep', 'data');
    const restored = await restore(file, to, NOW);
    expect(restored).toMatchObject({
      folder: to,
      kept: null,
      taken: { builds: { added: 1 }, photos: { added: 1 } },
    });
    const store = await freshStore({}, to);
    const { build, revision } = await readBuild(store, 'build-one');
    expect([build.head, revision.text]).toEqual([2, buildText('Two')]);
    expect((await store.photos.read(sniffPhoto(pngOf(5)).sha256)).equals(pngOf(5))).toBe(true);
    expect(readdirSync(join(to, '..'))).toEqual(['data']);
  });

  it('overwrites no file, and keeps the folder that was there', async () => {
    const folder = await filledFolder();
    const file = join(freshFolder(), 'backup.tar');
    await backup(folder, file);
    const bytes = readFileSync(file);
    await expect(backup(folder, file)).rejects.toMatchObject({ words: { code: 'exists' } });
    expect(readFileSync(file).equals(bytes)).toBe(true);
    const other = await openStore(folder);
    await createBuild(other, { id: 'made-later', name: null, ...saving('Later') });
    await other.close();
    const { kept } = await restore(file, folder, NOW);
    expect(kept).toBe(`${folder}.before-restore-2026-11-25T10-00-00.000Z`);
    expect(await titles(folder)).toEqual(['Two']);
    expect(await titles(kept ?? '')).toEqual(['Later', 'Two']);
    rmSync(kept ?? '', { recursive: true });
  });

  it('is refused while the folder is in use, and leaves it alone', async () => {
    const folder = await filledFolder();
    const file = join(freshFolder(), 'backup.tar');
    await backup(folder, file);
    const store = await freshStore({}, folder);
    await expect(restore(file, folder, NOW)).rejects.toMatchObject({ words: { code: 'already-served' } });
    expect((await readBuild(store, 'build-one')).build.head).toBe(2);
  });

  it('refuses a damaged archive before anything is moved', async () => {
    const folder = await filledFolder();
    const file = join(freshFolder(), 'backup.tar');
    await backup(folder, file);
    const bent = readFileSync(file);
    bent.writeUInt8(bent.readUInt8(520) ^ 1, 520);
    writeFileSync(file, bent);
    await expect(restore(file, folder, NOW)).rejects.toMatchObject({ words: { code: 'archive-refused' } });
    await expect(restore(join(folder, 'no.tar'), folder, NOW)).rejects.toMatchObject({
      words: { code: 'not-found' },
    });
    const store = await freshStore({}, folder);
    expect((await readBuild(store, 'build-one')).build.head).toBe(2);
  });

  it('refuses to back up a store whose texts are not as saved, and one that is not there', async () => {
    const folder = await filledFolder();
    const store = await openStore(folder);
    const { sql } = await import('kysely');
    await sql`drop trigger revision_no_update`.execute(store.db);
    await sql`update revision set text = 'x' where number = 1`.execute(store.db);
    await store.close();
    const file = join(freshFolder(), 'backup.tar');
    await expect(backup(folder, file)).rejects.toMatchObject({ words: { code: 'store-damaged' } });
    await expect(backup(freshFolder(), file)).rejects.toMatchObject({ words: { code: 'not-found' } });
    expect(existsSync(file)).toBe(false);
  });

  it('tells of photos whose files are gone, and backs up the rest', async () => {
    const folder = await filledFolder();
    rmSync(join(folder, 'photos'), { recursive: true });
    const file = join(freshFolder(), 'backup.tar');
    const { missing, photos } = await backup(folder, file);
    expect([photos, missing]).toEqual([0, [sniffPhoto(pngOf(5)).sha256]]);
    await restore(file, join(freshFolder(), 'data'), NOW);
  });
});
