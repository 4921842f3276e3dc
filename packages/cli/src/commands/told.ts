/** What the commands that work on the store share: the data folder, and problems told in words. */
import { homedir } from 'node:os';
import type { Problem } from '@loomwright/server';
import type { Arguments, OptionHelp } from '../args.ts';
import type { Host } from '../host.ts';
import { BAD_INPUT } from './command.ts';

/** The server is loaded only by the commands that need it: judging a build stays quick to start. */
export const server = async () => await import('@loomwright/server');

export const DATA: OptionHelp = {
  name: 'data',
  value: 'DIR',
  help: "folder that holds your builds (default: LOOMWRIGHT_DATA, else this system's place for a program's data)",
};

export async function folderFor(args: Arguments, { env }: Host): Promise<string> {
  const { dataFolder } = await server();
  return dataFolder(args.value('data'), { env, platform: process.platform, home: homedir() });
}

/** Prints what went wrong and what to do, and gives the exit code; throws on what is no problem in words. */
export function told(error: unknown, host: Host): number {
  const words = (error as Partial<Problem> | null)?.words;
  if (words === undefined) throw error;
  host.err(`loomwright: ${words.title} ${words.detail}\n${words.todo}\n`);
  return BAD_INPUT;
}
