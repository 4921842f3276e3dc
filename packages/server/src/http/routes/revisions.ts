/** Revisions: save one, list them, read any. */
import { z } from 'zod';
import { describe } from '../../document.ts';
import { notFound } from '../../problem.ts';
import { listRevisions, readHead, readRevision } from '../../store/builds.ts';
import { saveRevision } from '../../store/saving.ts';
import * as field from '../fields.ts';
import * as shape from '../shapes.ts';
import type { Api } from './api.ts';
import { oneBuild } from './builds.ts';

const oneRevision = oneBuild.extend({ number: z.coerce.number().pipe(field.revisionNumber) });

export function revisionRoutes({ app, store }: Api): void {
  app.post(
    '/builds/:id/revisions',
    {
      schema: {
        params: oneBuild,
        body: z.strictObject({
          saveId: field.saveId,
          base: field.revisionNumber,
          text: field.buildText,
          who: field.who.default(''),
          why: field.why.default(''),
        }),
        response: { 200: shape.saved, 201: shape.saved },
      },
    },
    async ({ params, body: { base, ...saving } }, reply) => {
      const { title, errors } = describe(saving.text);
      const saved = await saveRevision(store, params.id, base, { ...saving, title, faults: errors });
      return await reply.code(saved.replayed ? 200 : 201).send(saved);
    },
  );

  app.get(
    '/builds/:id/revisions',
    {
      schema: {
        params: oneBuild,
        querystring: z.strictObject({
          before: z.coerce.number().pipe(field.revisionNumber).nullable().default(null),
          limit: z.coerce.number().int().min(1).max(1000).default(100),
        }),
        response: { 200: z.object({ revisions: z.array(shape.revisionHead), more: z.boolean() }) },
      },
    },
    async ({ params, query }) => await listRevisions(store, params.id, query.before, query.limit),
  );

  app.get(
    '/builds/:id/revisions/:number',
    { schema: { params: oneRevision, response: { 200: z.object({ revision: shape.revision }) } } },
    async ({ params }) => ({ revision: await readRevision(store.db, params.id, params.number) }),
  );

  app.get(
    '/builds/:id/yaml',
    {
      schema: {
        params: oneBuild,
        querystring: z.strictObject({ revision: z.coerce.number().pipe(field.revisionNumber).optional() }),
      },
    },
    async ({ params, query }, reply) => {
      const build = await readHead(store.db, params.id);
      const wanted = query.revision ?? build.head;
      if (wanted > build.head) throw notFound(`revision ${wanted} of build ${params.id}`);
      const { text } = await readRevision(store.db, params.id, wanted);
      return await reply
        .header('content-type', 'application/yaml; charset=utf-8')
        .header('content-disposition', `attachment; filename="${fileName(build.name ?? build.title)}.yaml"`)
        .send(Buffer.from(text));
    },
  );
}

/** A name for a file on any system: small letters, digits and hyphens. */
function fileName(title: string): string {
  const name = title
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[\u0300-\u036f'’]/g, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return name === '' ? 'build' : name;
}
