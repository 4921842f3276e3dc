import { beforeAll, describe, expect, it } from 'vitest';
import { describe as describeText } from './document.ts';
import { sha256Of } from './photos/files.ts';
import { readStore } from './store/open.ts';
import { proveStore } from './store/prove.ts';
import { askOver, compile, startChild, type Child } from './testing/process.ts';
import { buildText, freshFolder, pngOf } from './testing/store.ts';

const KILLS = process.env['SOAK'] === '1' ? 100 : 20;
const WRITERS = 3;

/** A small generator with a fixed seed (Park and Miller's multiplier 48271), so that a failure can be run again. */
function chance(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

const textOf = (writer: number, number: number): string =>
  `${buildText(`W${writer} R${number}`)}# ${'abcdefghij'.repeat(50 + ((writer * 7 + number * 13) % 900))}\n`;

/** One window that saves as fast as it can. What was acknowledged is in `head`; what was not is tried again. */
class Writer {
  head = 0;
  acknowledged = 0;
  readonly #id: string;
  readonly #writer: number;

  constructor(writer: number) {
    this.#writer = writer;
    this.#id = `writer-${writer}-build`;
  }

  async work(url: string, stopped: () => boolean, saved: () => void): Promise<void> {
    while (!stopped()) {
      const told = await this.#save(url);
      if (told === null) return;
      // 201: saved now; 200: the try that the kill took the answer of had saved it.
      expect([200, 201]).toContain(told.status);
      expect(told.json.revision.number).toBe(this.head + 1);
      this.head += 1;
      this.acknowledged += 1;
      saved();
    }
  }

  async #save(url: string) {
    const number = this.head + 1;
    const saving = {
      saveId: `save-${this.#writer}-${String(number).padStart(6, '0')}`,
      text: textOf(this.#writer, number),
    };
    return number === 1
      ? await askOver(url, 'POST', '/api/builds', { id: this.#id, ...saving })
      : await askOver(url, 'POST', `/api/builds/${this.#id}/revisions`, { base: this.head, ...saving });
  }

  /** After a restart: nothing acknowledged is lost, nothing is half there, at most the one without an answer is more. */
  async prove(url: string): Promise<void> {
    const told = await askOver(url, 'GET', `/api/builds/${this.#id}`);
    if (this.head === 0 && told?.status === 404) return;
    const head = told?.json.build.head as number;
    expect([this.head, this.head + 1]).toContain(head);
    expect(told?.json.revision).toMatchObject({ number: head, text: textOf(this.#writer, head), faults: 0 });
    const sums = new Map<number, string>();
    for (let before = head + 1; before > 1; before -= 1000) {
      const list = await askOver(url, 'GET', `/api/builds/${this.#id}/revisions?limit=1000&before=${before}`);
      for (const { number, sha256 } of list?.json.revisions ?? []) sums.set(number, sha256);
    }
    expect(sums.size).toBe(head);
    for (let number = 1; number <= head; number += 1)
      expect(sums.get(number)).toBe(sha256Of(textOf(this.#writer, number)));
  }
}

async function provePhotos(url: string, photos: ReadonlyMap<string, Buffer>): Promise<void> {
  for (const [sha256, bytes] of photos) {
    const told = await askOver(url, 'GET', `/api/photos/${sha256}`);
    expect(told?.status).toBe(200);
    expect(Buffer.compare(told?.json, bytes)).toBe(0);
  }
}

async function sendPhotos(url: string, photos: Map<string, Buffer>, stopped: () => boolean): Promise<void> {
  for (let n = 0; !stopped() && n < 20; n += 1) {
    const bytes = Buffer.concat([pngOf(n, 1, photos.size + 1), Buffer.alloc(100_000, photos.size)]);
    const told = await askOver(url, 'POST', '/api/photos', bytes);
    if (told?.status === 201) photos.set(told.json.photo.sha256, bytes);
  }
}

describe('a server that is killed', () => {
  beforeAll(compile);

  it(`loses no acknowledged save and shows no half save, ${KILLS} times`, { timeout: 900_000 }, async () => {
    const folder = freshFolder();
    const random = chance(20_261_125);
    const writers = Array.from({ length: WRITERS }, (_, n) => new Writer(n));
    const photos = new Map<string, Buffer>();
    for (let kill = 0; kill < KILLS; kill += 1) {
      const child = await startChild(folder);
      expect(child.url, child.said()).not.toBe('');
      for (const writer of writers) await writer.prove(child.url);
      await provePhotos(child.url, photos);
      let stopped = false;
      let work: Promise<void>[] = [];
      let left = 1 + Math.floor(15 * random());
      const enough = new Promise<void>((resolve) => {
        work = [
          ...writers.map((writer) =>
            writer.work(
              child.url,
              () => stopped,
              () => (left -= 1) === 0 && resolve(),
            ),
          ),
          sendPhotos(child.url, photos, () => stopped),
        ];
      });
      await enough;
      // Not at the same moment of a save each time.
      await new Promise((resolve) => setTimeout(resolve, 10 * random()));
      await child.kill();
      stopped = true;
      await Promise.all(work);
    }
    const last = await startChild(folder);
    for (const writer of writers) await writer.prove(last.url);
    await provePhotos(last.url, photos);
    expect(await last.stop()).toBe(0);
    expect(writers.reduce((sum, writer) => sum + writer.acknowledged, 0)).toBeGreaterThanOrEqual(KILLS);
    const store = await readStore(folder);
    await proveStore(store);
    await store.close();
  });

  it('finishes what it is doing when it is asked to end', async () => {
    const child = await startChild(freshFolder());
    const saves = Array.from({ length: 20 }, (_, n) =>
      askOver(child.url, 'POST', '/api/builds', { saveId: `save-at-end-${n}`, text: textOf(9, n) }),
    );
    await saves[0];
    const code = await child.stop();
    const told = await Promise.all(saves);
    expect(code).toBe(0);
    expect(told.filter((each) => each !== null && each.status !== 201)).toEqual([]);
  });
});

async function saveUntilRefused(child: Child) {
  for (let n = 0; n < 100; n += 1) {
    const text = `${buildText(`B${n}`)}# ${'x'.repeat(200_000)}\n`;
    const told = await askOver(child.url, 'POST', '/api/builds', { saveId: `save-big-${n}`, text });
    if (told?.status !== 201) return { kept: n, told, text };
  }
  throw new Error('nothing was refused');
}

describe('a disk that takes no more', () => {
  beforeAll(compile);

  it('is told in plain words, reading goes on, nothing saved is lost, and the same save works later', async () => {
    const folder = freshFolder();
    // 4096 blocks of 512 bytes: no file above 2 MiB.
    const child = await startChild(folder, { fileBlocks: 4096 });
    const { kept, told, text } = await saveUntilRefused(child);
    expect(kept).toBeGreaterThan(2);
    expect([507, 503]).toContain(told?.status);
    expect(['disk-full', 'disk-fault']).toContain(told?.json.code);
    expect(told?.json.title).toMatch(/^Not saved\./);
    expect(told?.json.todo).toContain('Nothing that was saved before is lost.');
    const list = await askOver(child.url, 'GET', '/api/builds');
    expect(list?.json.builds).toHaveLength(kept);
    const photo = Buffer.concat([pngOf(1), Buffer.alloc(3_000_000)]);
    const refused = await askOver(child.url, 'POST', '/api/photos', photo);
    expect([refused?.status, refused?.json.code]).toEqual([503, 'disk-fault']);
    await child.kill();
    const roomy = await startChild(folder);
    expect((await askOver(roomy.url, 'GET', '/api/builds'))?.json.builds).toHaveLength(kept);
    const again = await askOver(roomy.url, 'POST', '/api/builds', { saveId: `save-big-${kept}`, text });
    expect(again?.status).toBe(201);
    expect(describeText(text).errors).toBe(0);
    await roomy.stop();
    const store = await readStore(folder);
    await proveStore(store);
    await store.close();
  });
});
