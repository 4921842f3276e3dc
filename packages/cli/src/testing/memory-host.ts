/** A machine of memory, for tests. */
import type { Host } from '../host.ts';

export interface Memory {
  readonly host: Host;
  readonly out: () => string;
  readonly err: () => string;
  readonly files: Map<string, string | Uint8Array>;
}

export interface MemoryOptions {
  readonly files?: Readonly<Record<string, string | Uint8Array>>;
  /** Columns of a terminal; absent: no terminal. */
  readonly columns?: number;
  readonly env?: Readonly<Record<string, string>>;
  /** Answers of a person, in order; absent: nobody is there. */
  readonly answers?: readonly string[];
}

const failing = (code: string) => Object.assign(new Error(code), { code });

/** A host that keeps everything in memory; directories are names that end with a slash. */
export function memoryHost(options: MemoryOptions = {}): Memory {
  const files = new Map(Object.entries(options.files ?? {}));
  const terminal = options.columns !== undefined;
  const answers = [...(options.answers ?? [])];
  let [out, err] = ['', ''];
  const host: Host = {
    out: (text) => void (out += text),
    err: (text) => void (err += text),
    env: options.env ?? {},
    outIsTerminal: terminal,
    errIsTerminal: terminal,
    canAsk: options.answers !== undefined,
    columns: options.columns ?? null,
    read: (path) => {
      const found = files.get(path);
      if (found === undefined) return Promise.reject(failing(files.has(`${path}/`) ? 'EISDIR' : 'ENOENT'));
      return Promise.resolve(typeof found === 'string' ? new TextEncoder().encode(found) : found);
    },
    write: (path, text) => {
      if (files.has(path)) return Promise.resolve(false);
      if (path.startsWith('/nowhere')) return Promise.reject(failing('EACCES'));
      files.set(path, text);
      return Promise.resolve(true);
    },
    ask: () => Promise.resolve(answers.shift() ?? null),
    show: () => undefined,
    close: () => undefined,
  };
  return { host, out: () => out, err: () => err, files };
}
