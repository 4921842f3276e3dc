/** A build file from disk becomes a build. */
import { isUtf8 } from 'node:buffer';
import { z } from 'zod';
import { describe, MOST_TEXT } from '../../document.ts';
import { createBuild } from '../../store/builds.ts';
import { takeBytes } from '../body.ts';
import * as field from '../fields.ts';
import * as shape from '../shapes.ts';
import type { Api } from './api.ts';
import { refuseOther } from './not-a-build.ts';

const TYPES = ['application/yaml', 'text/yaml', 'application/octet-stream'] as const;

/** A file with errors is kept as a draft, byte for byte, with its diagnostics; what is no build, or no text, is refused. */
export function importRoute({ app, store }: Api): void {
  takeBytes(app, TYPES, MOST_TEXT);
  app.post(
    '/builds/import',
    {
      bodyLimit: MOST_TEXT,
      schema: {
        querystring: z.strictObject({
          saveId: field.saveId,
          file: field.plain(200).default('The file'),
          id: field.id.nullable().default(null),
          name: field.name.nullable().default(null),
          who: field.who.default(''),
          why: field.why.default(''),
        }),
        body: z.instanceof(Buffer),
        response: { 200: shape.imported, 201: shape.imported },
      },
    },
    async ({ body, query: { file, ...saving } }, reply) => {
      const { title, errors, diagnostics, isBuild } = describe(body, file);
      const readable = isUtf8(body) && !body.includes(0);
      if (!isBuild || !readable) throw refuseOther(file, diagnostics);
      const text = body.toString('utf8');
      const saved = await createBuild(store, { ...saving, text, title, faults: errors });
      return await reply.code(saved.replayed ? 200 : 201).send({ ...saved, diagnostics });
    },
  );
}
