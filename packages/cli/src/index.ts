/** The command line `loomwright`. */
import { documentSchema, openSession } from '@loomwright/engine';
import type { Engine } from './engine.ts';
import { nodeHost, type Host } from './host.ts';
import { main } from './main.ts';

export { main } from './main.ts';
export { goldenReports } from './golden.ts';
export { reportSchemaText } from './json/schema.ts';
export type { Host } from './host.ts';

/** The engine as it is. */
export const engine: Engine = { open: openSession, documentSchema };

/** Runs the command line of this process; the exit code. */
export async function run(
  argv: readonly string[] = process.argv.slice(2),
  host: Host = nodeHost(),
): Promise<number> {
  // A reader that went away (`| head`) is no fault of ours.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
  try {
    return await main(argv, { host, engine });
  } catch (error) {
    return defect(error, host);
  } finally {
    host.close();
  }
}

const DEFECT = 3;

/** Something that no input should be able to cause: said in one line, with its trace only where it is asked for. */
function defect(error: unknown, host: Host): number {
  const message = error instanceof Error ? error.message : String(error);
  host.err(`loomwright: a defect of the program, not of your build: ${message}\n`);
  host.err('Please report it with the build file. LOOMWRIGHT_DEBUG=1 shows where it happened.\n');
  if ((host.env['LOOMWRIGHT_DEBUG'] ?? '') !== '' && error instanceof Error)
    host.err(`${error.stack ?? ''}\n`);
  return DEFECT;
}
