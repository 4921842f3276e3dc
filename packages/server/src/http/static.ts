/** The app's own files, and its one page for every address that is none of them. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { ProblemWords } from '../problem.ts';
import { sendProblem } from './answer-problem.ts';
import { isApi } from './guard.ts';

export async function serveApp(app: FastifyInstance, folder: string | null): Promise<void> {
  const built = folder !== null && existsSync(join(folder, 'index.html'));
  if (built)
    await app.register(fastifyStatic, {
      root: folder,
      dotfiles: 'ignore',
      cacheControl: false,
    });
  app.setNotFoundHandler(async (request, reply) => {
    if (!wantsPage(request)) return await sendProblem(reply, notFound(request));
    return await (built ? reply.header('cache-control', 'no-cache').sendFile('index.html') : notBuilt(reply));
  });
}

/** An address of the app, such as /builds/ID/wiring: not of the API, and no file (which would have an ending). */
function wantsPage({ method, url, headers }: FastifyRequest): boolean {
  const path = url.split(/[?#]/)[0] ?? '';
  const file = /\.[A-Za-z0-9]+$/.test(path) && path !== '/index.html';
  return (method === 'GET' || method === 'HEAD') && !isApi(url) && !file && accepts(headers.accept);
}

const accepts = (accept: string | undefined): boolean =>
  accept === undefined || accept.includes('text/html') || accept.includes('*/*');

const notFound = ({ method, url }: FastifyRequest): ProblemWords => ({
  code: 'not-found',
  status: 404,
  title: 'Not found.',
  detail: `There is nothing at ${method} ${JSON.stringify(url.slice(0, 200))}.`,
  todo: 'Begin at the first page.',
});

async function notBuilt(reply: FastifyReply): Promise<FastifyReply> {
  return await reply
    .code(503)
    .header('content-type', 'text/html; charset=utf-8')
    .send(
      '<!doctype html><html lang="en"><meta charset="utf-8"><title>Loomwright</title>' +
        '<h1>The app is not built yet</h1><p>Run <code>npm start</code> in the project; it builds the app and opens it.</p></html>',
    );
}
