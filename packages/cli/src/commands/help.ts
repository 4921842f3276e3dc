/** Help that teaches: what a command does, in what order to use them, and an example of each. */
import { COMMON, type CommandHelp } from '../args.ts';
import { Page } from '../print/page.ts';
import { columnsOf } from '../print/wrap.ts';
import type { Paper } from './command.ts';

/** The overview. */
export function overviewText(commands: readonly CommandHelp[], paper: Paper): string {
  const page = new Page(paper.width, paper.style);
  page.text(
    'loomwright computes, judges and explains the charging of a second battery in a vehicle: cable, protection, what switches it on, how the negative returns, and what the meter will read.',
  );
  page.heading('Commands');
  const usages = commands.map((command) => usage(command));
  table(
    page,
    usages.map((text, index) => [text, commands[index]?.summary ?? '']),
  );
  page.heading('From nothing to a checked build');
  table(page, [
    ['loomwright first', 'six facts, each may be "don\'t know"'],
    ['loomwright first --save van.yaml', 'the same, kept as a build to sharpen'],
    ['loomwright check van.yaml', 'what is wrong, what is open'],
    ['loomwright explain van.yaml ID', 'why, and what would cure it'],
    ['loomwright facts van.yaml', 'what to read or measure next'],
    ['loomwright states van.yaml', 'what the meter will read'],
  ]);
  page.blank();
  page.text('More on each: loomwright COMMAND --help');
  return page.toString();
}

/** Help of one command. */
export function commandText(command: CommandHelp, paper: Paper): string {
  const page = new Page(paper.width, paper.style);
  page.text(
    `loomwright ${usage(command)}${command.options.length > 0 ? ' [options]' : ''}`,
    0,
    2,
    paper.style.bold,
  );
  page.text(`${command.summary}.`);
  for (const paragraph of command.teaches) page.blank().text(paragraph);
  page.heading('Options');
  table(
    page,
    [...command.options, ...COMMON].map((option) => [
      `--${option.name}${option.value === undefined ? '' : ` ${option.value}`}`,
      option.help,
    ]),
  );
  page.heading(command.examples.length === 1 ? 'Example' : 'Examples');
  table(page, command.examples);
  return page.toString();
}

function usage(command: CommandHelp): string {
  return command.operands === '' ? command.name : `${command.name} ${command.operands}`;
}

/** Two columns where there is room, else one under the other. */
function table(page: Page, rows: readonly (readonly [string, string])[]): void {
  const room = Math.max(...rows.map(([first]) => columnsOf(first))) + 2;
  for (const [first, second] of rows) {
    if (room + 24 <= page.width) page.beside(first, second, room, 2);
    else page.text(first, 2, 2).text(second, 4);
  }
}
