/** A word on long work, only where a person is watching a terminal. */
import type { Host } from '../host.ts';

const CLEAR = '\r\u001B[K';

/**
 * Runs work that may take seconds. On a terminal a line says what is being done and goes away afterwards; elsewhere nothing is
 * written. The work is synchronous, so the line cannot count; it is there so that nobody thinks that nothing happens.
 */
export function withProgress<T>(host: Host, what: string, work: () => T): T {
  if (!host.errIsTerminal || host.env['TERM'] === 'dumb') return work();
  host.err(`${what} ...`);
  try {
    return work();
  } finally {
    host.err(CLEAR);
  }
}
