/** Which bodies are taken: JSON with its content type, within limits; other types only where a route says so. */
import type { FastifyInstance } from 'fastify';
import { tooDeep } from './answer-problem.ts';
import { depthOf, MOST_DEPTH } from './depth.ts';

/** A build's text as JSON may take six bytes for each of its own, but never does in practice; three are plenty. */
export const MOST_JSON = 3 * 1024 * 1024 + 64 * 1024;

export function takeJsonOnly(app: FastifyInstance): void {
  app.removeAllContentTypeParsers();
  const parse = app.getDefaultJsonParser('error', 'error');
  app.addContentTypeParser('application/json', { parseAs: 'buffer' }, (request, body, done) => {
    const bytes = body as Buffer;
    if (depthOf(bytes) > MOST_DEPTH) done(tooDeep());
    else void parse(request, bytes.toString('utf8'), done);
  });
}

/** Lets the routes of this plugin take bodies of these types whole, as bytes. */
export function takeBytes(app: FastifyInstance, types: readonly string[], most: number): void {
  app.addContentTypeParser([...types], { parseAs: 'buffer', bodyLimit: most }, (_request, body, done) =>
    done(null, body),
  );
}
