/** Everything as one archive: out, and in again. */
import { createWriteStream } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable, Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { writeArchive } from '../../archive/write.ts';
import { takeArchive } from '../../archive/take.ts';
import { Problem } from '../../problem.ts';
import { readStore } from '../../store/open.ts';
import * as shape from '../shapes.ts';
import type { Api } from './api.ts';

/** Largest archive over HTTP, bytes; larger ones go by the command line. */
const MOST_ARCHIVE = 4 * 1024 * 1024 * 1024;

export function archiveRoutes({ app, store }: Api): void {
  app.get('/archive', async (_request, reply) => {
    const view = await readStore(store.folder);
    const made = store.now();
    const stamp = made.slice(0, 19).replaceAll(':', '-');
    const body = Readable.from(writeArchive(view, made), { objectMode: false });
    body.once('close', () => void view.close());
    return await reply
      .header('content-type', 'application/x-tar')
      .header('content-disposition', `attachment; filename="loomwright-${stamp}.tar"`)
      .send(body);
  });

  app.addContentTypeParser('application/x-tar', { bodyLimit: MOST_ARCHIVE }, (_request, payload, done) =>
    done(null, payload),
  );
  app.post(
    '/archive',
    { bodyLimit: MOST_ARCHIVE, schema: { response: { 200: shape.taken } } },
    async ({ body }) => {
      if (!(body instanceof Readable)) throw empty();
      const folder = await mkdtemp(join(store.folder, 'incoming-'));
      try {
        const path = join(folder, 'archive.tar');
        await pipeline(body, limit(MOST_ARCHIVE), createWriteStream(path, { mode: 0o600 }));
        return await takeArchive(store, path);
      } finally {
        await rm(folder, { recursive: true, force: true });
      }
    },
  );
}

function limit(most: number): Transform {
  let bytes = 0;
  return new Transform({
    transform(chunk: Buffer, _encoding, done) {
      bytes += chunk.length;
      if (bytes > most) done(tooLarge());
      else done(null, chunk);
    },
  });
}

const tooLarge = (): Problem =>
  new Problem({
    code: 'too-large',
    status: 413,
    title: 'The archive was not taken.',
    detail: 'It has more than 4 GiB. Nothing of it was written.',
    todo: 'Use the command `loomwright restore`, which takes any size.',
  });

const empty = (): Problem =>
  new Problem({
    code: 'wrong-type',
    status: 415,
    title: 'The archive was not taken.',
    detail: 'There was none in the request.',
    todo: 'Send the archive as application/x-tar.',
  });
