/** The command line `loomwright`. */
import { documentSchema, openSession } from '@loomwright/engine';
import type { Engine } from './engine.ts';
import { nodeHost, type Host } from './host.ts';
import { main } from './main.ts';

export { main } from './main.ts';
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
  return await main(argv, { host, engine });
}
