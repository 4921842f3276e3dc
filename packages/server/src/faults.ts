/** Faults of the disk and of SQLite, in plain words. */
import { Problem } from './problem.ts';

const KEEP = 'Nothing that was saved before is lost. Keep this change where it is; it can be saved again.';

type Words = Omit<ConstructorParameters<typeof Problem>[0], 'detail'> & { readonly detail: string };

const full: Words = {
  code: 'disk-full',
  status: 507,
  title: 'Not saved. Disk full.',
  detail: 'The disk that holds the data folder has no room left.',
  todo: `Make room on the disk. ${KEEP}`,
};
const readOnly: Words = {
  code: 'read-only',
  status: 503,
  title: 'Not saved. The data folder may not be written.',
  detail: 'The folder or the disk is read-only, or belongs to somebody else.',
  todo: `Give yourself the right to write there, or start with another folder by --data. ${KEEP}`,
};
const refused: Words = {
  code: 'disk-fault',
  status: 503,
  title: 'Not saved. The disk refused the write.',
  detail: 'A quota or a size limit was reached, or the disk is failing.',
  todo: `Look at the disk and make a backup elsewhere. ${KEEP}`,
};
const busy: Words = {
  code: 'busy',
  status: 503,
  title: 'Not saved. Another program holds the store.',
  detail: 'It held the store for more than five seconds.',
  todo: `Close the other program and try again. ${KEEP}`,
};
const damaged: Words = {
  code: 'store-damaged',
  status: 503,
  title: 'The store is damaged.',
  detail: 'The file store.sqlite in the data folder cannot be read as it should.',
  todo: 'Copy the whole data folder before anything else, then restore the newest backup.',
};
const folder: Words = {
  code: 'folder-refused',
  status: 503,
  title: 'The data folder cannot be used.',
  detail: 'It cannot be opened or made.',
  todo: 'Name a folder of your own with --data.',
};

/** By SQLite's primary result code (the low byte of the extended one). Source: sqlite.org/rescode.html */
const BY_SQLITE: ReadonlyMap<number, Words> = new Map([
  [3, readOnly],
  [5, busy],
  [6, busy],
  [8, readOnly],
  [10, refused],
  [11, damaged],
  [13, full],
  [14, folder],
  [22, refused],
  [23, readOnly],
  [26, damaged],
]);

const BY_SYSTEM: Readonly<Record<string, Words>> = {
  ENOSPC: full,
  EDQUOT: full,
  EROFS: readOnly,
  EACCES: readOnly,
  EPERM: readOnly,
  EFBIG: refused,
  EIO: refused,
  ENOTDIR: folder,
  EEXIST: folder,
  ELOOP: folder,
  ENAMETOOLONG: folder,
};

/** The problem behind an error of the disk or of SQLite; null when it is none of these. */
export function faultOf(error: unknown, where?: string): Problem | null {
  if (error instanceof Problem) return error;
  const words = wordsOf(error);
  if (words === null) return null;
  return new Problem(
    where === undefined ? words : { ...words, detail: `${where}: ${lower(words.detail)}` },
    error,
  );
}

function wordsOf(error: unknown): Words | null {
  if (typeof error !== 'object' || error === null) return null;
  const { errcode, code } = error as { readonly errcode?: unknown; readonly code?: unknown };
  if (typeof errcode === 'number') return BY_SQLITE.get(errcode & 0xff) ?? null;
  return typeof code === 'string' && Object.hasOwn(BY_SYSTEM, code) ? (BY_SYSTEM[code] ?? null) : null;
}

const lower = (text: string): string => text.slice(0, 1).toLowerCase() + text.slice(1);
