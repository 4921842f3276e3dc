/** Files that are whole and on the disk when a promise is kept. */
import { randomUUID } from 'node:crypto';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';

/** Makes the names in a folder durable. Systems that cannot open a folder (Windows) keep them by themselves. */
export async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** Makes a folder that only its owner may enter, with those above it, durably. */
export async function makeFolder(folder: string): Promise<void> {
  const first = await mkdir(folder, { recursive: true, mode: 0o700 });
  if (first === undefined) return;
  for (let at = folder; at.length >= first.length; at = dirname(at)) await syncFolder(dirname(at));
}

/**
 * Writes a file that is there whole or not at all, also after a power cut: written beside its place, synced, renamed, and the
 * folder synced.
 */
export async function writeWhole(path: string, bytes: Uint8Array): Promise<void> {
  const folder = dirname(path);
  await makeFolder(folder);
  const draft = join(folder, `.writing-${randomUUID()}`);
  try {
    const handle = await open(draft, 'wx', 0o600);
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(draft, path);
  } catch (error) {
    await rm(draft, { force: true });
    throw error;
  }
  await syncFolder(folder);
}
