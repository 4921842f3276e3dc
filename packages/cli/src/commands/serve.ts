/** `serve`: the app and its store, for the browsers of this machine. */
import { UsageError, type Arguments } from '../args.ts';
import type { Command } from './command.ts';
import { DATA, folderFor, server, told } from './told.ts';

export const serve: Command = {
  help: {
    name: 'serve',
    operands: '',
    summary: 'opens the app for the browsers of this machine, and keeps your builds',
    teaches: [
      'Only this machine can reach it, there is no sign-in, and nothing is sent anywhere. Keep to one port: what a browser holds until it can be saved is shown only under the port it was made with.',
    ],
    options: [
      DATA,
      { name: 'port', value: 'N', help: 'port to listen on (default: 4817)' },
      { name: 'open', help: 'open the app in your browser, where there is a display' },
    ],
    examples: [
      ['loomwright serve', 'then open the address it prints'],
      ['loomwright serve --data ~/builds', 'with the builds in a folder of your own'],
    ],
  },
  async run(args, { host }) {
    const { startServer } = await server();
    try {
      const running = await startServer({
        folder: await folderFor(args, host),
        ...portFor(args),
        log: (error) => host.err(`loomwright: ${error instanceof Error ? error.message : String(error)}\n`),
      });
      host.out(
        `Loomwright is open at ${running.url}\nYour builds are kept in ${running.folder}\nStop it with Ctrl+C.\n`,
      );
      if (args.flag('open')) host.show(running.url);
      await asked();
      await running.stop();
      host.out('Stopped. Everything is saved.\n');
      return 0;
    } catch (error) {
      return told(error, host);
    }
  },
};

function portFor(args: Arguments): { readonly port?: number } {
  const text = args.value('port');
  if (text === null) return {};
  const port = Number(text);
  if (!/^\d{1,5}$/.test(text) || port > 65_535)
    throw new UsageError(`--port ${text}: write a whole number, 0 to 65535 (0: any free one).`);
  return { port };
}

/** Until somebody asks this process to end; asked twice, it ends at once. */
async function asked(): Promise<void> {
  await new Promise<void>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const)
      process.once(signal, () => {
        process.once(signal, () => process.exit(1));
        resolve();
      });
  });
}
