/** The order of a build's drawing: read it, tell it. */
import { z } from 'zod';
import { readHead } from '../../store/builds.ts';
import { keepOrder, readOrder } from '../../store/drawing-order.ts';
import * as field from '../fields.ts';
import type { Api } from './api.ts';
import { oneBuild } from './builds.ts';

/** Larger than the order of a build of 1 MiB gets. */
const MOST_ORDER = 512 * 1024;

export function drawingOrderRoutes({ app, store }: Api): void {
  app.get(
    '/builds/:id/drawing-order',
    {
      schema: {
        params: oneBuild,
        response: { 200: z.object({ order: field.drawingOrder.nullable() }) },
      },
    },
    async ({ params }) => {
      await readHead(store.db, params.id);
      return { order: await readOrder(store.db, params.id) };
    },
  );

  app.put(
    '/builds/:id/drawing-order',
    {
      bodyLimit: MOST_ORDER,
      schema: {
        params: oneBuild,
        body: z.strictObject({ order: field.drawingOrder }),
        response: { 200: z.object({ kept: z.literal(true) }) },
      },
    },
    async ({ params, body }) => {
      await keepOrder(store.db, params.id, body.order);
      return { kept: true as const };
    },
  );
}
