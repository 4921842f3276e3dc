/** Builds: list, make, read, rename, archive, copy. */
import { z } from 'zod';
import { describe } from '../../document.ts';
import { createBuild, listBuilds, readBuild, readHead } from '../../store/builds.ts';
import { changeBuild, copyBuild, listEvents } from '../../store/keeping.ts';
import * as field from '../fields.ts';
import * as shape from '../shapes.ts';
import { refuseOther } from './not-a-build.ts';
import type { Api } from './api.ts';

export const oneBuild = z.strictObject({ id: field.id });
const said = { who: field.who.default(''), why: field.why.default('') };

export function buildRoutes({ app, store }: Api): void {
  app.get(
    '/builds',
    {
      schema: {
        querystring: z.strictObject({
          archived: z.enum(['no', 'yes', 'all']).default('no'),
          search: field.plain(200).default(''),
          limit: z.coerce.number().int().min(1).max(5000).default(1000),
        }),
        response: { 200: z.object({ builds: z.array(shape.buildHead), more: z.boolean() }) },
      },
    },
    async ({ query }) => await listBuilds(store, query),
  );

  app.post(
    '/builds',
    {
      schema: {
        body: z.strictObject({
          saveId: field.saveId,
          text: field.buildText,
          id: field.id.nullable().default(null),
          name: field.name.nullable().default(null),
          ...said,
        }),
        response: { 200: shape.imported, 201: shape.imported },
      },
    },
    async ({ body }, reply) => {
      const { title, errors, diagnostics, isBuild } = describe(body.text);
      if (!isBuild) throw refuseOther('The text', diagnostics);
      const saved = await createBuild(store, { ...body, title, faults: errors });
      return await reply.code(saved.replayed ? 200 : 201).send({ ...saved, diagnostics });
    },
  );

  app.get(
    '/builds/:id',
    {
      schema: {
        params: oneBuild,
        response: { 200: z.object({ build: shape.buildHead, revision: shape.revision }) },
      },
    },
    async ({ params }) => await readBuild(store, params.id),
  );

  app.get(
    '/builds/:id/head',
    {
      schema: {
        params: oneBuild,
        response: {
          200: shape.buildHead.pick({
            id: true,
            head: true,
            saved: true,
            who: true,
            archived: true,
            name: true,
          }),
        },
      },
    },
    async ({ params }) => await readHead(store.db, params.id),
  );

  app.patch(
    '/builds/:id',
    {
      schema: {
        params: oneBuild,
        body: z
          .strictObject({ name: field.name.nullable().optional(), archived: z.boolean().optional(), ...said })
          .refine(
            (body) => body.name !== undefined || body.archived !== undefined,
            'changes neither name nor archived',
          ),
        response: { 200: z.object({ build: shape.buildHead }) },
      },
    },
    async ({ params, body: { name, archived, who, why } }) => ({
      build: await changeBuild(store, params.id, {
        who,
        why,
        ...(name === undefined ? {} : { name }),
        ...(archived === undefined ? {} : { archived }),
      }),
    }),
  );

  app.get(
    '/builds/:id/events',
    { schema: { params: oneBuild, response: { 200: z.object({ events: z.array(shape.event) }) } } },
    async ({ params }) => ({ events: await listEvents(store, params.id) }),
  );

  app.post(
    '/builds/:id/copy',
    {
      schema: {
        params: oneBuild,
        body: z.strictObject({
          saveId: field.saveId,
          id: field.id.nullable().default(null),
          revision: field.revisionNumber.nullable().default(null),
          name: field.name.nullable().default(null),
          photos: z.boolean().default(false),
          ...said,
        }),
        response: { 200: shape.saved, 201: shape.saved },
      },
    },
    async ({ params, body }, reply) => {
      const saved = await copyBuild(store, params.id, body);
      return await reply.code(saved.replayed ? 200 : 201).send(saved);
    },
  );
}
