/** The reports of an example that are kept as golden files: what `check`, `check --json` and `states` print. */
import type { Engine } from './engine.ts';
import type { Host } from './host.ts';
import { main } from './main.ts';

const COMMANDS: readonly (readonly [ending: string, argv: readonly string[]])[] = [
  ['check.txt', ['check', '--width', '80']],
  ['check.json', ['check', '--json']],
  ['states.txt', ['states', '--width', '80']],
];

/** File names in `examples/golden/` with their text. `path` is the example as a person would type it from the project's root. */
export async function goldenReports(
  path: string,
  bytes: Uint8Array,
  engine: Engine,
): Promise<Readonly<Record<string, string>>> {
  const name = path.replace(/^.*\//, '').replace(/\.ya?ml$/, '');
  const remembered = new Map<string, ReturnType<Engine['open']>>();
  const once: Engine = {
    ...engine,
    open(text, options) {
      const known = remembered.get(path);
      const session = known ?? engine.open(text, options);
      remembered.set(path, session);
      return session;
    },
  };
  const reports: Record<string, string> = {};
  for (const [ending, [command = '', ...options]] of COMMANDS) {
    let text = '';
    const host: Host = { ...QUIET, read: () => Promise.resolve(bytes), out: (more) => void (text += more) };
    // oxlint-disable-next-line no-await-in-loop -- they share one session
    await main([command, path, ...options], { host, engine: once });
    reports[`${name}.${ending}`] = text;
  }
  return reports;
}

const QUIET: Host = {
  out: () => undefined,
  err: () => undefined,
  env: {},
  outIsTerminal: false,
  errIsTerminal: false,
  canAsk: false,
  columns: null,
  read: () => Promise.resolve(new Uint8Array()),
  write: () => Promise.resolve(false),
  ask: () => Promise.resolve(null),
  show: () => undefined,
  close: () => undefined,
};
