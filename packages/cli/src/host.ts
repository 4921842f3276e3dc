/** What the command line needs of the machine it runs on; replaced by a fake in tests. */
import { spawn } from 'node:child_process';
import { readFile, stat, writeFile } from 'node:fs/promises';
import { createInterface, type Interface } from 'node:readline';

export interface Host {
  out(text: string): void;
  err(text: string): void;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Whether standard output, standard error and both ends of a dialogue are terminals. */
  readonly outIsTerminal: boolean;
  readonly errIsTerminal: boolean;
  readonly canAsk: boolean;
  /** Columns of the terminal; null when it is none. */
  readonly columns: number | null;
  read(path: string): Promise<Uint8Array>;
  /** Writes a new file; false when there is one already. */
  write(path: string, text: string): Promise<boolean>;
  /** Asks one question; null when the person ended the dialogue. */
  ask(question: string): Promise<string | null>;
  /** Opens an address in the person's browser where there is a display; whether that worked is not waited for. */
  show(address: string): void;
  /** Ends the dialogue, so that the process can end. */
  close(): void;
}

/** The largest file that is looked at. */
const MOST_BYTES = 16 * 1024 * 1024;

/** The real machine. */
export function nodeHost(): Host {
  const dialogue = new Dialogue();
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    env: process.env,
    outIsTerminal: process.stdout.isTTY,
    errIsTerminal: process.stderr.isTTY,
    canAsk: process.stdin.isTTY && process.stdout.isTTY,
    columns: process.stdout.isTTY ? process.stdout.columns : null,
    read: readWhole,
    write: writeNew,
    ask: (question) => dialogue.ask(question),
    show: (address) => showInBrowser(address),
    close: () => dialogue.close(),
  };
}

async function readWhole(path: string): Promise<Uint8Array> {
  if (path === '-') return await standardInput();
  const info = await stat(path);
  if (info.isFile() && info.size > MOST_BYTES)
    throw Object.assign(new Error('too large'), { code: 'ETOOLARGE' });
  return await readFile(path);
}

async function standardInput(): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  for await (const chunk of process.stdin) {
    chunks.push(chunk as Uint8Array);
    size += (chunk as Uint8Array).length;
    if (size > MOST_BYTES) throw Object.assign(new Error('too large'), { code: 'ETOOLARGE' });
  }
  return Buffer.concat(chunks);
}

async function writeNew(path: string, text: string): Promise<boolean> {
  try {
    await writeFile(path, text, { flag: 'wx' });
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw error;
  }
}

/** The system's own way to open an address; null: nobody looks at a screen here. */
function opener({
  env,
  platform,
}: Pick<NodeJS.Process, 'env' | 'platform'>): readonly [string, ...string[]] | null {
  const has = (name: string): boolean => (env[name] ?? '') !== '';
  if (has('SSH_CONNECTION') || has('CI')) return null;
  if (platform === 'darwin') return ['open'];
  if (platform === 'win32') return ['cmd', '/c', 'start', ''];
  return has('DISPLAY') || has('WAYLAND_DISPLAY') ? ['xdg-open'] : null;
}

function showInBrowser(address: string): void {
  const way = opener(process);
  if (way === null) return;
  const [program, ...args] = way;
  const child = spawn(program, [...args, address], { detached: true, stdio: 'ignore' });
  // The address stands on the terminal: a machine without such a program lacks nothing.
  child.on('error', () => undefined);
  child.unref();
}

/** One reader for all questions: what is typed or pasted ahead belongs to the next one. */
class Dialogue {
  #lines: AsyncIterator<string> | null = null;
  #reader: Interface | null = null;

  async ask(question: string): Promise<string | null> {
    if (this.#lines === null) {
      this.#reader = createInterface({ input: process.stdin, output: process.stdout });
      this.#lines = this.#reader[Symbol.asyncIterator]();
    }
    this.#reader?.setPrompt(question);
    this.#reader?.prompt();
    const next = await this.#lines.next();
    return next.done === true ? null : next.value;
  }

  close(): void {
    this.#reader?.close();
  }
}

/** The system's code of an error (`ENOENT`), or an empty text. */
export function codeOf(error: unknown): string {
  return typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'that is a directory, not a build file',
  EACCES: 'it may not be read (permissions)',
  EPERM: 'it may not be read (permissions)',
  ENOTDIR: 'part of the path is a file, not a directory',
  ELOOP: 'the link points to itself',
  ENAMETOOLONG: 'the name is too long',
  ETOOLARGE: 'it is larger than 16 MiB, and a build file is never over 1 MiB',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk may not be written',
};

/** Why a file could not be read or written, in words. */
export function reasonOf(error: unknown): string {
  const code = codeOf(error);
  return REASONS[code] ?? (code === '' ? 'it could not be read' : `it could not be read (${code})`);
}
