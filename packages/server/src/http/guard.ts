/**
 * Who may ask: pages of this server, and programs on this machine. A page of another site that makes a browser send requests
 * here is refused, also when it made its own name point to this machine (DNS rebinding).
 */
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { Problem } from '../problem.ts';

const LOOPBACK = new Set(['127.0.0.1', '[::1]', 'localhost']);
const SAFE = new Set(['GET', 'HEAD', 'OPTIONS']);

export function guard(app: FastifyInstance, canonical: string | null): void {
  app.addHook('onRequest', async (request, reply) => {
    const host = request.headers.host ?? '';
    if (!LOOPBACK.has(hostName(host))) throw wrongHost(host);
    if (isForeign(request, host)) throw crossSite();
    if (request.headers['content-encoding'] !== undefined) throw encoded();
    const home = canonical === null ? null : homeOf(request, host, canonical);
    if (home !== null) await reply.redirect(home, 307);
  });
}

/** The name in a Host header without its port; what does not read as one is given back whole, and refused. */
function hostName(host: string): string {
  return host.toLowerCase().replace(/:\d{1,5}$/, '');
}

/** Whether another site's page sent this. Programs that are no browsers send neither header. */
function isForeign(request: FastifyRequest, host: string): boolean {
  const { origin } = request.headers;
  if (origin !== undefined) return origin.toLowerCase() !== `http://${host.toLowerCase()}`;
  const site = request.headers['sec-fetch-site'];
  const own = site === undefined || site === 'same-origin' || site === 'none';
  // A link or a bookmark elsewhere may open the app; nothing else may be reached from elsewhere.
  const opensApp = SAFE.has(request.method) && !isApi(request.url);
  return !own && !opensApp;
}

export const isApi = (url: string): boolean => /^\/api(?:[/?#]|$)/.test(url);

/**
 * Where a page is opened from under another of this machine's names: what a browser keeps for one name it does not show under
 * another, and unsaved changes would seem lost. null: it is right as it is.
 */
function homeOf({ method, url, headers }: FastifyRequest, host: string, canonical: string): string | null {
  const page = headers['sec-fetch-dest'] === 'document' || (headers.accept ?? '').startsWith('text/html');
  if (method !== 'GET' || !page || isApi(url) || hostName(host) === canonical) return null;
  const port = /:\d{1,5}$/.exec(host)?.[0] ?? '';
  // Two slashes at the start would name another host.
  return `http://${canonical}${port}/${url.replace(/^\/+/, '')}`;
}

const wrongHost = (host: string): Problem =>
  new Problem({
    code: 'wrong-host',
    status: 421,
    title: 'Refused. Wrong host name.',
    detail: `The request was for ${JSON.stringify(host.slice(0, 100))}; this server answers only as 127.0.0.1, [::1] and localhost.`,
    todo: 'Open it under one of these names, on this machine.',
  });

const crossSite = (): Problem =>
  new Problem({
    code: 'cross-site',
    status: 403,
    title: 'Refused. The request came from another site.',
    detail: 'A page that is not of this server tried to reach it. Nothing was changed.',
    todo: 'Open the app itself. If you did not expect this, close the other page.',
  });

const encoded = (): Problem =>
  new Problem({
    code: 'wrong-type',
    status: 415,
    title: 'Refused. The body is compressed.',
    detail: 'Bodies of requests are taken as they are only.',
    todo: 'Send it without Content-Encoding.',
  });
