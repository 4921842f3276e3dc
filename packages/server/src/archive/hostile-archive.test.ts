import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { buildText, freshApp, pngOf } from '../testing/store.ts';
import { entry, filesOf, filled, packed, send, type Files } from '../testing/tar.ts';

type Refuse = (bytes: Buffer, says: RegExp) => Promise<void>;

const everyFile = (folder: string): string[] =>
  readdirSync(folder, { recursive: true })
    .map(String)
    .filter((name) => statSync(join(folder, name)).isFile())
    .toSorted();

/** Sends archives to an empty store, each of which must be refused and leave nothing anywhere. */
async function refuser(): Promise<Refuse> {
  const { ask, store } = await freshApp();
  const before = everyFile(store.folder);
  return async (bytes, says) => {
    const answer = await send(ask, bytes);
    expect([answer.status, answer.json.code]).toEqual([422, 'archive-refused']);
    expect(answer.json.detail).toMatch(says);
    expect((await ask('GET', '/api/builds?archived=all')).json.builds).toEqual([]);
    expect((await ask('GET', '/api/shelf')).json.items).toEqual([]);
    expect(everyFile(store.folder)).toEqual(before);
  };
}

async function goodFiles(): Promise<{ bytes: Buffer; files: Files }> {
  const { ask } = await freshApp();
  await filled(ask);
  const { bytes } = await ask('GET', '/api/archive');
  return { bytes, files: filesOf(bytes) };
}

const sized = (size: string) =>
  entry('builds/build-one/000009.yaml', 'x', (head) => head.write(size, 124, 'latin1'));

const revisions = (build: Record<string, never>) => build['revisions'] as Record<string, unknown>[];

describe('a hostile or damaged archive', () => {
  it('names that lead up, out or anywhere else', async () => {
    const refusedWhole = await refuser();
    const { files } = await goodFiles();
    const names = [
      '../evil',
      '/etc/cron.d/evil',
      'builds/../../../evil.yaml',
      'builds/build-one/../../x.yaml',
      'photos/..%2fx.jpg',
      'C:\\evil',
      'builds/build-one/000001.yaml/',
      './builds/build-one/000009.yaml',
      'photos/evil.svg',
      'store.sqlite',
      `photos/${'a'.repeat(64)}.html`,
    ];
    for (const name of names)
      await refusedWhole(packed(files, [entry(name, 'evil')]), /is no file of an archive/);
  });

  it('links, folders, devices, long-name extensions, prefixes', async () => {
    const refusedWhole = await refuser();
    const { files } = await goodFiles();
    for (const type of ['1', '2', '3', '4', '5', '6', '7', 'L', 'K', 'x', 'g', 'S']) {
      const link = entry('builds/build-one/000009.yaml', '', (head) => {
        head.write(type, 156, 'latin1');
        head.write('/etc/passwd', 157, 'latin1');
      });
      await refusedWhole(packed(files, [link]), /no plain file/);
    }
    const named = entry('builds/build-one/000009.yaml', '', (head) => head.write('/etc', 345, 'latin1'));
    await refusedWhole(packed(files, [named]), /prefix/);
    const linked = entry('builds/build-one/000009.yaml', '', (head) =>
      head.write('/etc/passwd', 157, 'latin1'),
    );
    await refusedWhole(packed(files, [linked]), /link/);
  });

  it('a name twice', async () => {
    const refusedWhole = await refuser();
    const { files } = await goodFiles();
    await refusedWhole(packed(files, [entry('builds/build-one/000001.yaml', 'loomwright: 1')]), /twice/);
  });

  it('sizes that are lies, bombs or no numbers', async () => {
    const refusedWhole = await refuser();
    const { files } = await goodFiles();
    await refusedWhole(packed(files, [sized('77777777777\0')]), /the most is 1048576/);
    await refusedWhole(packed(files, [sized('00004000000\0')]), /cut off|the most|damaged|no tar/);
    await refusedWhole(packed(files, [sized('-0000000001\0')]), /number/);
    await refusedWhole(packed(files, [sized('\x80\0\0\0\0\0\0\0\0\0\0\x01')]), /number/);
    const bomb = new Map([['loomwright-archive.json', Buffer.alloc(5000, ' ')]]);
    await refusedWhole(packed(bomb), /the most is 4096/);
    await refusedWhole(Buffer.alloc(40 * 1024 * 1024), /cut off/);
    await refusedWhole(Buffer.from([0x1f, 0x8b, 8, 0, 0, 0, 0, 0]), /cut off/);
    await refusedWhole(Buffer.alloc(2048, 'A'), /ustar/);
    await refusedWhole(Buffer.alloc(0), /cut off/);
  });

  it('cut off at any block, changed in any file, with something behind its end', async () => {
    const refusedWhole = await refuser();
    const { bytes, files } = await goodFiles();
    for (let at = 0; at < bytes.length - 1024; at += 512 * 3)
      await refusedWhole(bytes.subarray(0, at), /cut off|too early|missing/);
    for (const name of files.keys()) {
      const bent = Buffer.from(bytes);
      const at = bent.indexOf(Buffer.from(`${name}\0`, 'latin1')) + 512;
      bent.writeUInt8(bent.readUInt8(at) ^ 1, at);
      await refusedWhole(bent, /damaged|is none|missing|no photo|no text/);
    }
    const head = Buffer.from(bytes);
    head.writeUInt8(0x32, 0);
    await refusedWhole(head, /checksum/);
    await refusedWhole(Buffer.concat([bytes, entry('x', 'y')]), /behind its end/);
    await refusedWhole(Buffer.concat([bytes, Buffer.alloc(1024 * 1024)]), /behind its end/);
  });

  it('contents that are wrong though their sums are right', async () => {
    const refusedWhole = await refuser();
    const { files } = await goodFiles();
    const meta = 'builds/build-one/build.json';
    const json = (change: (build: Record<string, never>) => unknown): Files => {
      const copy = new Map(files);
      const build = JSON.parse(String(files.get(meta))) as Record<string, never>;
      const changed = change(build) ?? build;
      return copy.set(meta, Buffer.from(JSON.stringify(changed)));
    };
    const without = (name: string): Files => new Map([...files].filter(([each]) => each !== name));
    const photo = [...files.keys()].find((name) => name.startsWith('photos/')) ?? '';
    const cases: [Files, RegExp][] = [
      [json((build) => ({ ...build, id: 'build-two' })), /another build/],
      [json((build) => ({ ...build, evil: 1 })), /not as it should be/],
      [json((build) => ({ ...build, name: 'x'.repeat(201) })), /not as it should be/],
      [json((build) => void revisions(build).splice(1, 1)), /gap/],
      [
        json((build) => void Object.assign(revisions(build)[0] ?? {}, { sha256: 'f'.repeat(64) })),
        /missing from it/,
      ],
      [json((build) => void revisions(build).pop()), /belongs to no build/],
      [new Map(files).set(meta, Buffer.from('[')), /no JSON/],
      [new Map(files).set(meta, Buffer.from('['.repeat(100_000))), /too deeply/],
      [new Map(files).set(photo, Buffer.from('<svg onload=alert(1)>')), /no photo/],
      [new Map(files).set(photo, pngOf(99)), /another photo/],
      [new Map(files).set('builds/build-one/000001.yaml', Buffer.from([0xff])), /no text/],
      [without('builds/build-one/000001.yaml'), /missing from it/],
      [without('shelf/item-one.json'), /other numbers/],
      [without('loomwright-archive.json'), /does not begin/],
    ];
    for (const [changed, says] of cases) await refusedWhole(packed(changed), says);
  });

  it('keeps text with script as text, and save ids that another build has used apart', async () => {
    const { files } = await goodFiles();
    const { ask } = await freshApp();
    const meta = JSON.parse(String(files.get('builds/build-one/build.json'))) as {
      revisions: { saveId: string }[];
    };
    const used = meta.revisions[0]?.saveId ?? '';
    await ask('POST', '/api/builds', { saveId: used, id: 'unrelated', text: buildText('Unrelated') });
    const taken = await send(ask, packed(files));
    expect(taken.json.builds.added).toBe(2);
    expect((await ask('GET', '/api/builds/unrelated')).json.revision.text).toBe(buildText('Unrelated'));
    expect((await ask('GET', '/api/builds/build-one/revisions/1')).json.revision.saveId).toBe('build-one/1');
  });
});
