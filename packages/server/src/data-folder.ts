/** Where a person's builds are kept. */
import { isAbsolute, join, resolve } from 'node:path';

export interface Surroundings {
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly platform: NodeJS.Platform;
  /** The person's home folder. */
  readonly home: string;
}

/**
 * The data folder: what was asked for, else `LOOMWRIGHT_DATA`, else the platform's place for a program's data: below
 * `XDG_DATA_HOME` (XDG Base Directory Specification: an absolute path, by default ~/.local/share), on macOS in
 * ~/Library/Application Support, on Windows below `LOCALAPPDATA`. Always absolute.
 */
export function dataFolder(asked: string | null, { env, platform, home }: Surroundings): string {
  const wanted = asked ?? env['LOOMWRIGHT_DATA'];
  if (wanted !== undefined && wanted !== '') return resolve(wanted);
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Loomwright');
  if (platform === 'win32')
    return join(absolute(env['LOCALAPPDATA']) ?? join(home, 'AppData', 'Local'), 'Loomwright');
  return join(absolute(env['XDG_DATA_HOME']) ?? join(home, '.local', 'share'), 'loomwright');
}

const absolute = (path: string | undefined): string | undefined =>
  path !== undefined && isAbsolute(path) ? path : undefined;
