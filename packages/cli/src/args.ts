/** Arguments of a command: options with their help, read by the standard library. */
import { parseArgs } from 'node:util';

export interface OptionHelp {
  readonly name: string;
  /** Absent: a switch without a value. */
  readonly value?: string;
  readonly help: string;
}

export interface CommandHelp {
  readonly name: string;
  /** "FILE", "FILE FINDING", "" */
  readonly operands: string;
  readonly summary: string;
  readonly teaches: readonly string[];
  readonly options: readonly OptionHelp[];
  readonly examples: readonly (readonly [command: string, tells: string])[];
}

export interface Arguments {
  readonly operands: readonly string[];
  flag(name: string): boolean;
  value(name: string): string | null;
}

/** A mistake on the command line, in words. */
export class UsageError extends Error {}

/** Reads the arguments of a command; throws a UsageError that names what is wrong. */
export function readArguments(command: CommandHelp, argv: readonly string[]): Arguments {
  const options = Object.fromEntries(
    [...command.options, ...COMMON].map((option) => [
      option.name,
      { type: option.value === undefined ? ('boolean' as const) : ('string' as const) },
    ]),
  );
  const parsed = parse(command, argv, options);
  const wanted = command.operands === '' ? [] : command.operands.split(' ');
  if (parsed.values['help'] !== true) countOperands(command, wanted, parsed.positionals);
  return {
    operands: parsed.positionals,
    flag: (name) => parsed.values[name] === true,
    value: (name) => {
      const value = parsed.values[name];
      return typeof value === 'string' ? value : null;
    },
  };
}

type Options = Record<string, { type: 'boolean' | 'string' }>;

function parse(
  command: CommandHelp,
  argv: readonly string[],
  options: Options,
): { values: Record<string, unknown>; positionals: string[] } {
  try {
    const { values, positionals } = parseArgs({
      args: [...argv],
      options: { ...options, help: { type: 'boolean', short: 'h' } },
      allowPositionals: true,
      strict: true,
    });
    return { values, positionals };
  } catch (error) {
    throw new UsageError(explain(command, argv, error));
  }
}

function explain(command: CommandHelp, argv: readonly string[], error: unknown): string {
  const known = [...command.options, ...COMMON];
  for (const arg of argv.filter((each) => each.startsWith('-') && each !== '-')) {
    const name = arg.replace(/^--?/, '').split('=')[0] ?? '';
    const option = known.find((each) => each.name === name);
    if (option === undefined && arg !== '-h') return unknownOption(command, arg, known);
    if (option?.value !== undefined && !arg.includes('='))
      return `--${name} needs a value: --${name} ${option.value}`;
    if (option !== undefined && option.value === undefined && arg.includes('='))
      return `--${name} takes no value.`;
  }
  return error instanceof Error ? error.message : 'the arguments could not be read';
}

function unknownOption(command: CommandHelp, arg: string, known: readonly OptionHelp[]): string {
  const list = known.map((option) => `--${option.name}`).join(', ');
  return `"${arg}" is no option of ${command.name}. It has ${list}.`;
}

function countOperands(command: CommandHelp, wanted: readonly string[], found: readonly string[]): void {
  if (found.length < wanted.length) {
    const missing = wanted.slice(found.length).join(' ');
    throw new UsageError(`${missing} is missing: loomwright ${command.name} ${command.operands}`);
  }
  if (found.length > wanted.length) {
    const extra = found.slice(wanted.length).join(' ');
    throw new UsageError(`"${extra}" is too much: loomwright ${command.name} ${command.operands}`.trimEnd());
  }
}

/** Options that every command has. */
export const COMMON: readonly OptionHelp[] = [{ name: 'help', help: 'this text' }];

export const WIDTH: OptionHelp = {
  name: 'width',
  value: 'N',
  help: "columns to write in (default: the terminal's, else 80)",
};

/** A width that was asked for, in columns. */
export function askedWidth(args: Arguments): number | null {
  const text = args.value('width');
  if (text === null) return null;
  const width = Number(text);
  if (!Number.isInteger(width) || width < 30 || width > 1000)
    throw new UsageError(`--width ${text}: write a whole number of columns, 30 to 1000.`);
  return width;
}
