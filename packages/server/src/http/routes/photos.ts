/** Photos: their bytes, and the places and parts they show. */
import { z } from 'zod';
import { extensionOf, MOST_PHOTO, sniffPhoto } from '../../photos/sniff.ts';
import { addUse, listUses, notePhoto, readPhoto, setRemoved } from '../../store/photo-uses.ts';
import { notFound } from '../../problem.ts';
import { takeBytes } from '../body.ts';
import * as field from '../fields.ts';
import { SANDBOX } from '../headers.ts';
import * as shape from '../shapes.ts';
import type { Api } from './api.ts';
import { oneBuild } from './builds.ts';

const TYPES = ['image/jpeg', 'image/png', 'image/webp', 'application/octet-stream'] as const;

/** Keeps a photo's bytes. The same photo sent twice is kept once. */
export function photoBytesRoutes({ app, store }: Api): void {
  takeBytes(app, TYPES, MOST_PHOTO);
  app.post(
    '/photos',
    {
      bodyLimit: MOST_PHOTO,
      schema: { body: z.instanceof(Buffer), response: { 201: z.object({ photo: shape.photo }) } },
    },
    async ({ body }, reply) => {
      const photo = sniffPhoto(body);
      await store.photos.keep(body);
      await notePhoto(store, photo);
      return await reply.code(201).send({ photo });
    },
  );

  app.get(
    '/photos/:sha256',
    { schema: { params: z.strictObject({ sha256: field.sha256 }) } },
    async ({ params, headers }, reply) => {
      const photo = await readPhoto(store, params.sha256);
      if ((await store.photos.size(photo.sha256)) !== photo.bytes)
        throw notFound('file of this photo any more');
      const etag = `"${photo.sha256}"`;
      void reply.headers({
        'content-type': photo.type,
        'content-security-policy': SANDBOX,
        'content-disposition': `inline; filename="photo-${photo.sha256.slice(0, 12)}.${extensionOf(photo.type)}"`,
        // The name says what the bytes are: they never change.
        'cache-control': 'private, max-age=31536000, immutable',
        etag,
      });
      if (headers['if-none-match'] === etag) return await reply.code(304).send();
      return await reply.header('content-length', photo.bytes).send(store.photos.stream(photo.sha256));
    },
  );
}

const on = z.union([
  z.strictObject({ place: field.plain(100).min(1) }),
  z.strictObject({ part: field.plain(100).min(1) }),
]);
const oneUse = oneBuild.extend({ use: field.id });

export function photoUseRoutes({ app, store }: Api): void {
  app.get(
    '/builds/:id/photos',
    {
      schema: {
        params: oneBuild,
        querystring: z.strictObject({ removed: z.enum(['no', 'all']).default('no') }),
        response: { 200: z.object({ photos: z.array(shape.photoUse) }) },
      },
    },
    async ({ params, query }) => ({ photos: await listUses(store, params.id, query.removed === 'all') }),
  );

  app.post(
    '/builds/:id/photos',
    {
      schema: {
        params: oneBuild,
        body: z.strictObject({
          saveId: field.saveId,
          sha256: field.sha256,
          on,
          caption: field.plain(1000).default(''),
          who: field.who.default(''),
        }),
        response: { 201: z.object({ photo: shape.photoUse }) },
      },
    },
    async ({ params, body }, reply) => {
      const where =
        'place' in body.on
          ? { kind: 'place' as const, id: body.on.place }
          : { kind: 'part' as const, id: body.on.part };
      const photo = await addUse(store, params.id, { ...body, on: where });
      return await reply.code(201).send({ photo });
    },
  );

  app.patch(
    '/builds/:id/photos/:use',
    {
      schema: {
        params: oneUse,
        body: z.strictObject({ removed: z.boolean() }),
        response: { 200: z.object({ photo: shape.photoUse }) },
      },
    },
    async ({ params, body }) => ({ photo: await setRemoved(store, params.id, params.use, body.removed) }),
  );
}
