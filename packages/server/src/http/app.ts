/** The HTTP side of a store, without a socket: tests ask it directly. */
import compress from '@fastify/compress';
import rateLimit from '@fastify/rate-limit';
import fastify, { type FastifyInstance } from 'fastify';
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod';
import { constants } from 'node:zlib';
import { z } from 'zod';
import { Problem } from '../problem.ts';
import type { Store } from '../store/open.ts';
import { answerProblems, sendProblem, wordsOf, type Log } from './answer-problem.ts';
import { MOST_JSON, takeJsonOnly } from './body.ts';
import { guard } from './guard.ts';
import { cachingOf, HEADERS } from './headers.ts';
import type { Api, ApiApp } from './routes/api.ts';
import { archiveRoutes } from './routes/archive.ts';
import { buildRoutes } from './routes/builds.ts';
import { changeRoute } from './routes/changes.ts';
import { drawingOrderRoutes } from './routes/drawing-order.ts';
import { importRoute } from './routes/import.ts';
import { photoBytesRoutes, photoUseRoutes } from './routes/photos.ts';
import { revisionRoutes } from './routes/revisions.ts';
import { shelfRoutes } from './routes/shelf.ts';
import { serveApp } from './static.ts';

export interface AppOptions {
  /** Folder of the built app; null or missing: a page says how to build it. */
  readonly appFolder: string | null;
  readonly version: string;
  /** The one name under which pages are opened; null: any of this machine's. */
  readonly canonical?: string | null;
  /** Requests in ten seconds, of all windows together. */
  readonly rate?: number;
  readonly log?: Log;
}

const RATE = 1500;

export async function createApp(store: Store, options: AppOptions): Promise<FastifyInstance> {
  const log = options.log ?? (() => undefined);
  const app = fastify({
    bodyLimit: MOST_JSON,
    requestTimeout: 300_000,
    connectionTimeout: 0,
    forceCloseConnections: 'idle',
    // What has reached the server while it stops is still done.
    return503OnClosing: false,
    frameworkErrors: (error, _request, reply) => void sendProblem(reply, wordsOf(error)),
    routerOptions: { maxParamLength: 100, ignoreTrailingSlash: false },
  });
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  app.addHook('onRequest', async ({ url }, reply) => {
    void reply.headers({ ...HEADERS, 'cache-control': cachingOf(url) });
  });
  answerProblems(app, log);
  guard(app, options.canonical ?? null);
  takeJsonOnly(app);
  await app.register(rateLimit, {
    max: options.rate ?? RATE,
    timeWindow: 10_000,
    errorResponseBuilder: (_request, context) => tooMany(context.ttl),
  });
  await app.register(compress, {
    globalDecompression: false,
    encodings: ['br', 'gzip'],
    brotliOptions: { params: { [constants.BROTLI_PARAM_QUALITY]: 5 } },
  });
  await app.register(async (scope) => await api(scope.withTypeProvider<ZodTypeProvider>(), store, options), {
    prefix: '/api',
  });
  await serveApp(app, options.appFolder);
  return app;
}

/** Groups that take other bodies than JSON are plugins of their own, so that no other route takes them. */
async function api(app: ApiApp, store: Store, { version }: AppOptions): Promise<void> {
  app.get(
    '/status',
    {
      schema: {
        response: { 200: z.object({ name: z.string(), version: z.string(), folder: z.string() }) },
      },
    },
    () => Promise.resolve({ name: 'loomwright', version, folder: store.folder }),
  );
  const json: Api = { app, store };
  buildRoutes(json);
  revisionRoutes(json);
  drawingOrderRoutes(json);
  shelfRoutes(json);
  photoUseRoutes(json);
  changeRoute(json);
  for (const routes of [importRoute, photoBytesRoutes, archiveRoutes])
    await app.register(async (scope) => {
      routes({ app: scope.withTypeProvider<ZodTypeProvider>(), store });
      await Promise.resolve();
    });
}

const tooMany = (ttl: number): Problem =>
  new Problem({
    code: 'too-many-requests',
    status: 429,
    title: 'Too many requests at once.',
    detail: 'The server was asked more often than windows of the app ask.',
    todo: `Wait ${Math.max(1, Math.ceil(ttl / 1000))} seconds. Unsaved changes are kept and sent again.`,
  });
