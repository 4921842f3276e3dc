/** What a command is, and how a build file is opened for one. */
import type { Build, Diagnostic, Session } from '@loomwright/engine';
import { askedWidth, type Arguments, type CommandHelp } from '../args.ts';
import type { Engine } from '../engine.ts';
import { reasonOf, type Host } from '../host.ts';
import { Page } from '../print/page.ts';
import { PLAIN, styleFor, widthFor, type Style } from '../print/style.ts';

export interface Context {
  readonly host: Host;
  readonly engine: Engine;
}

export interface Command {
  readonly help: CommandHelp;
  /** The exit code: 0 no danger, no fault, nothing open in a danger family; 1 otherwise; 2 bad input. */
  run(args: Arguments, context: Context): Promise<number>;
}

export const BAD_INPUT = 2;

export interface Paper {
  readonly width: number;
  readonly style: Style;
}

/** Width and style for what a command prints. */
export function paperFor(host: Host, args: Arguments): Paper {
  return { width: widthFor(host, askedWidth(args)), style: styleFor(host) };
}

export interface Opened {
  readonly session: Session;
  readonly build: Build;
}

/** Opens a build file; on a fault everything that is wrong is printed, and the result is null. */
export async function openFile(path: string, { host, engine }: Context): Promise<Opened | null> {
  const bytes = await readFile(path, host);
  if (bytes === null) return null;
  const session = engine.open(bytes, { file: path });
  if (session.diagnostics.length > 0) printDiagnostics(path, session.diagnostics, host);
  if (session.build === null || session.diagnostics.some((each) => each.severity === 'error')) return null;
  return { session, build: session.build };
}

async function readFile(path: string, host: Host): Promise<Uint8Array | null> {
  try {
    return await host.read(path);
  } catch (error) {
    host.err(`loomwright: ${path} was not opened: ${reasonOf(error)}.\n`);
    return null;
  }
}

const KINDS: Readonly<Record<Diagnostic['severity'], string>> = {
  error: '',
  warning: 'warning: ',
  info: 'note: ',
};

function printDiagnostics(path: string, diagnostics: readonly Diagnostic[], host: Host): void {
  const errors = diagnostics.filter((each) => each.severity === 'error').length;
  const page = new Page(
    widthFor({ columns: host.errIsTerminal ? host.columns : null, env: host.env }, null),
    PLAIN,
  );
  for (const each of diagnostics) {
    const kind = KINDS[each.severity];
    page.text(`${path}:${each.line}:${each.column}: ${kind}${each.message}`, 0, 2);
  }
  if (errors > 0)
    page.text(
      `${path} was not judged: ${errors === 1 ? '1 thing' : `${errors} things`} to put right first.`,
      0,
      2,
    );
  host.err(page.toString());
}
