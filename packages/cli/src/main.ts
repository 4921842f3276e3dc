/** The command line: finds the command, gives help, and turns mistakes into words. */
import { nearest } from '@loomwright/engine';
import { readArguments, UsageError } from './args.ts';
import { backup } from './commands/backup.ts';
import { check } from './commands/check.ts';
import { BAD_INPUT, type Command, type Context } from './commands/command.ts';
import { draw } from './commands/draw.ts';
import { explain } from './commands/explain.ts';
import { facts } from './commands/facts.ts';
import { first } from './commands/first.ts';
import { commandText, overviewText } from './commands/help.ts';
import { restore } from './commands/restore.ts';
import { schema } from './commands/schema.ts';
import { serve } from './commands/serve.ts';
import { states } from './commands/states.ts';
import { styleFor, widthFor } from './print/style.ts';

/** All commands, in the order in which they are used. */
export const commands: readonly Command[] = [
  first,
  check,
  explain,
  facts,
  states,
  draw,
  schema,
  serve,
  backup,
  restore,
];

const HELP = new Set(['--help', '-h', 'help']);

/** Runs the command line. Gives the exit code; never throws for anything that a person can do. */
export async function main(argv: readonly string[], context: Context): Promise<number> {
  const { host } = context;
  const paper = { width: widthFor(host, null), style: styleFor(host) };
  const [name, ...rest] = argv;
  if (name === undefined || HELP.has(name)) {
    const wanted = commands.find((command) => command.help.name === rest[0]);
    host.out(
      wanted === undefined
        ? overviewText(
            commands.map((command) => command.help),
            paper,
          )
        : commandText(wanted.help, paper),
    );
    return name === undefined ? BAD_INPUT : 0;
  }
  const command = commands.find((each) => each.help.name === name);
  if (command === undefined) return unknownCommand(name, context);
  try {
    const args = readArguments(command.help, rest);
    if (args.flag('help')) {
      host.out(commandText(command.help, paper));
      return 0;
    }
    return await command.run(args, context);
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    host.err(`loomwright: ${error.message}\nMore: loomwright ${name} --help\n`);
    return BAD_INPUT;
  }
}

function unknownCommand(name: string, { host }: Context): number {
  const names = commands.map((command) => command.help.name);
  const near = nearest(name, names);
  const file = /\.(ya?ml|json)$/i.test(name);
  const hint = file
    ? `To judge a build: loomwright check ${name}`
    : near === undefined || near === null
      ? `The commands are ${names.join(', ')}.`
      : `Near it: ${near}.`;
  host.err(`loomwright: "${name}" is no command. ${hint}\n`);
  return BAD_INPUT;
}
