/** What an archive says, proved as a whole: builds with all their revisions, items, photos. */
import type { z } from 'zod';
import { depthOf, MOST_DEPTH } from '../http/depth.ts';
import { sniffPhoto } from '../photos/sniff.ts';
import type { Photo } from '../store/photo-uses.ts';
import { Problem } from '../problem.ts';
import type { Archive } from './inspect.ts';
import {
  buildShape,
  HEAD_NAME,
  headShape,
  itemShape,
  NAMES,
  revisionName,
  type ArchivedBuild,
  type ArchivedItem,
} from './layout.ts';
import { refused } from './refused.ts';
import { quote } from './tar.ts';

/** Levels that an archive puts around what came over HTTP. */
const WRAPPING = 8;

export interface Contents {
  readonly builds: readonly ArchivedBuild[];
  readonly items: readonly ArchivedItem[];
  readonly photos: readonly (Photo & { readonly name: string })[];
}

/** Reads and proves all that an archive says; texts and pictures stay in it. */
export async function contentsOf(archive: Archive): Promise<Contents> {
  const head = await readJson(archive, HEAD_NAME, headShape);
  const builds: ArchivedBuild[] = [];
  const items: ArchivedItem[] = [];
  const photos: (Photo & { name: string })[] = [];
  const claimed = new Set<string>();
  for (const name of archive.names) {
    if (NAMES.build.test(name)) builds.push(await readBuild(archive, name, claimed));
    else if (NAMES.item.test(name)) items.push(await readItem(archive, name));
    else if (NAMES.photo.test(name)) photos.push(await readPhoto(archive, name));
  }
  const loose = archive.names.find((name) => NAMES.revision.test(name) && !claimed.has(name));
  if (loose !== undefined) throw refused(`${quote(loose)} in it belongs to no build`);
  if (builds.length !== head.builds || items.length !== head.items || photos.length !== head.photos)
    throw refused('it holds other numbers of builds, items or photos than it says');
  return { builds, items, photos };
}

async function readBuild(archive: Archive, name: string, claimed: Set<string>): Promise<ArchivedBuild> {
  const build = await readJson(archive, name, buildShape);
  if (NAMES.build.exec(name)?.[1] !== build.id) throw refused(`${quote(name)} in it is about another build`);
  for (const [index, revision] of build.revisions.entries()) {
    const text = revisionName(build.id, revision.number);
    if (revision.number !== index + 1) throw refused(`${quote(name)} in it has a gap between its revisions`);
    if (archive.sha256(text) !== revision.sha256)
      throw refused(`${quote(text)} is missing from it, or is another`);
    claimed.add(text);
  }
  return build;
}

async function readItem(archive: Archive, name: string): Promise<ArchivedItem> {
  const item = await readJson(archive, name, itemShape);
  if (NAMES.item.exec(name)?.[1] !== item.id) throw refused(`${quote(name)} in it is about another item`);
  if (item.revisions.some(({ number }, index) => number !== index + 1))
    throw refused(`${quote(name)} in it has a gap between its revisions`);
  return item;
}

async function readPhoto(archive: Archive, name: string): Promise<Photo & { name: string }> {
  const photo = sniffed(await archive.read(name), name);
  if (NAMES.photo.exec(name)?.[1] !== photo.sha256)
    throw refused(`${quote(name)} in it is another photo than its name says`);
  return { ...photo, name };
}

function sniffed(bytes: Buffer, name: string): Photo {
  try {
    return sniffPhoto(bytes);
  } catch (error) {
    if (error instanceof Problem) throw refused(`${quote(name)} in it is no photo`, error);
    throw error;
  }
}

async function readJson<T>(archive: Archive, name: string, shape: z.ZodType<T>): Promise<T> {
  const bytes = await archive.read(name);
  if (depthOf(bytes) > MOST_DEPTH + WRAPPING) throw refused(`${quote(name)} in it is nested too deeply`);
  const parsed = shape.safeParse(parse(bytes, name));
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  throw refused(
    `${quote(name)} in it is not as it should be: ${issue?.path.join('.') ?? ''} ${issue?.message ?? ''}`.trim(),
  );
}

function parse(bytes: Buffer, name: string): unknown {
  try {
    return JSON.parse(bytes.toString('utf8'));
  } catch (error) {
    throw refused(`${quote(name)} in it is no JSON`, error);
  }
}
