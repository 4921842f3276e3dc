/** The shelf: own parts, surveyed vehicles, stock, confirmed tables. */
import { z } from 'zod';
import {
  archiveItem,
  createItem,
  listItemRevisions,
  listItems,
  readItem,
  saveItem,
  SHELF_KINDS,
} from '../../store/shelf.ts';
import * as field from '../fields.ts';
import * as shape from '../shapes.ts';
import type { Api } from './api.ts';

/** Largest item, characters of its JSON. */
const MOST_DATA = 256 * 1024;

const oneItem = z.strictObject({ id: field.id });
const data = z
  .record(z.string(), z.unknown())
  .refine((value) => JSON.stringify(value).length <= MOST_DATA, 'has more than 256 KiB');
const saving = {
  saveId: field.saveId,
  name: field.name,
  data,
  who: field.who.default(''),
  why: field.why.default(''),
};

export function shelfRoutes({ app, store }: Api): void {
  app.get(
    '/shelf',
    {
      schema: {
        querystring: z.strictObject({
          kind: z.enum(SHELF_KINDS).nullable().default(null),
          archived: z.enum(['no', 'yes', 'all']).default('no'),
        }),
        response: { 200: z.object({ items: z.array(shape.shelfItem) }) },
      },
    },
    async ({ query }) => ({ items: await listItems(store, query.kind, query.archived) }),
  );

  app.post(
    '/shelf',
    {
      schema: {
        body: z.strictObject({ kind: z.enum(SHELF_KINDS), id: field.id.nullable().default(null), ...saving }),
        response: { 200: shape.shelfSaved, 201: shape.shelfSaved },
      },
    },
    async ({ body: { kind, id, ...rest } }, reply) => {
      const saved = await createItem(store, kind, id, rest);
      return await reply.code(saved.replayed ? 200 : 201).send(saved);
    },
  );

  app.get(
    '/shelf/:id',
    { schema: { params: oneItem, response: { 200: z.object({ item: shape.shelfItem }) } } },
    async ({ params }) => ({ item: await readItem(store.db, params.id) }),
  );

  app.get(
    '/shelf/:id/revisions',
    { schema: { params: oneItem, response: { 200: z.object({ revisions: z.array(shape.shelfRevision) }) } } },
    async ({ params }) => ({ revisions: await listItemRevisions(store, params.id) }),
  );

  app.post(
    '/shelf/:id/revisions',
    {
      schema: {
        params: oneItem,
        body: z.strictObject({ base: field.revisionNumber, ...saving }),
        response: { 200: shape.shelfSaved, 201: shape.shelfSaved },
      },
    },
    async ({ params, body: { base, ...rest } }, reply) => {
      const saved = await saveItem(store, params.id, base, rest);
      return await reply.code(saved.replayed ? 200 : 201).send(saved);
    },
  );

  app.patch(
    '/shelf/:id',
    {
      schema: {
        params: oneItem,
        body: z.strictObject({ archived: z.boolean() }),
        response: { 200: z.object({ item: shape.shelfItem }) },
      },
    },
    async ({ params, body }) => ({ item: await archiveItem(store, params.id, body.archived) }),
  );
}
