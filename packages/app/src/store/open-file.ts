/** A build from a file: opened when it reads, else said line by line, and what was open stays open. */
import { reader } from '../build-store.ts';
import type { Diagnostic } from '../engine/plain.ts';
import { askForFile } from './files.ts';
import { openNew } from './keeping.ts';
import { viewStore } from '../view-store.ts';
import { Store } from './store.ts';

export interface BadFile {
  readonly name: string;
  readonly diagnostics: readonly Diagnostic[];
}

/** The last file that was not opened. */
export const badFileStore = new Store<{ readonly bad: BadFile | null }>({ bad: null });

/** Largest file that is read at all, bytes; the reader refuses more. */
const MOST = 1024 * 1024;

/** Asks for a file and opens it; true when a build is open now. */
export async function openBuildFile(): Promise<boolean> {
  const file = await askForFile('.yaml,.yml,.json,text/*');
  return file === null ? false : await openFile(file);
}

export async function openFile(file: File): Promise<boolean> {
  badFileStore.set({ bad: null });
  if (file.size > MOST) return refuse(file.name, [tooLarge]);
  const opened = await reader.ask.open(await file.text(), null, file.name);
  const errors = opened.diagnostics.filter((each) => each.severity === 'error');
  if (opened.build === null) return refuse(file.name, errors);
  await openNew(opened.text, true);
  return true;
}

function refuse(name: string, diagnostics: readonly Diagnostic[]): false {
  badFileStore.set({ bad: { name, diagnostics } });
  viewStore.set({ margin: 'builds', marginUp: true, blockUp: false });
  return false;
}

const tooLarge: Diagnostic = {
  severity: 'error',
  line: 1,
  column: 1,
  found: '',
  expected: 'at most 1 MiB',
  message: 'It is larger than 1 MiB; a build is far smaller.',
  path: [],
};
