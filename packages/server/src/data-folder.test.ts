import { describe, expect, it } from 'vitest';
import { dataFolder } from './data-folder.ts';

const linux = (env: Record<string, string>) => ({ env, platform: 'linux' as const, home: '/home/ada' });

describe('the data folder', () => {
  it('is what was asked for, then LOOMWRIGHT_DATA, then the platform’s own place', () => {
    expect(dataFolder('/x', linux({ LOOMWRIGHT_DATA: '/y' }))).toBe('/x');
    expect(dataFolder(null, linux({ LOOMWRIGHT_DATA: '/y', XDG_DATA_HOME: '/z' }))).toBe('/y');
    expect(dataFolder(null, linux({ XDG_DATA_HOME: '/z' }))).toBe('/z/loomwright');
    expect(dataFolder(null, linux({}))).toBe('/home/ada/.local/share/loomwright');
    // The XDG Base Directory Specification: a path that is not absolute is to be ignored.
    expect(dataFolder(null, linux({ XDG_DATA_HOME: 'z' }))).toBe('/home/ada/.local/share/loomwright');
    expect(dataFolder(null, { ...linux({}), platform: 'darwin' })).toBe(
      '/home/ada/Library/Application Support/Loomwright',
    );
    expect(dataFolder(null, { ...linux({ LOCALAPPDATA: '/l' }), platform: 'win32' })).toBe('/l/Loomwright');
  });
});
