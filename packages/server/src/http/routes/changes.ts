/** Tells open windows of new states as they come (server-sent events, HTML Living Standard 9.2). */
import type { ServerResponse } from 'node:http';
import { Problem } from '../../problem.ts';
import type { Api } from './api.ts';

/** Streams open at once; a window holds one. */
const MOST_STREAMS = 64;
/** Milliseconds between signs of life, so that a window notices a server that has gone. */
const BEAT = 20_000;

export function changeRoute({ app, store }: Api): void {
  const streams = new Set<ServerResponse>();
  const all = (text: string): void => {
    for (const stream of streams) stream.write(text);
  };
  const deaf = store.changes.listen((change) => all(`event: change\ndata: ${JSON.stringify(change)}\n\n`));
  const beat = setInterval(() => all(': here\n\n'), BEAT);
  beat.unref();
  // Before the server waits for its connections to end, since these would not.
  app.addHook('preClose', async () => {
    clearInterval(beat);
    deaf();
    for (const stream of streams) stream.end();
    await Promise.resolve();
  });

  app.get('/changes', { compress: false }, async (_request, reply) => {
    if (streams.size >= MOST_STREAMS) throw tooMany();
    await Promise.resolve();
    void reply.header('content-type', 'text/event-stream; charset=utf-8');
    reply.hijack();
    const headers = Object.entries(reply.getHeaders()).map(([name, value]) => [name, String(value)]);
    reply.raw.writeHead(200, Object.fromEntries(headers) as Record<string, string>);
    reply.raw.write('retry: 2000\n\n');
    streams.add(reply.raw);
    reply.raw.once('close', () => streams.delete(reply.raw));
  });
}

const tooMany = (): Problem =>
  new Problem({
    code: 'too-many-requests',
    status: 429,
    title: 'Too many windows.',
    detail: `${MOST_STREAMS} windows listen for changes already.`,
    todo: 'Close some; the others go on.',
  });
