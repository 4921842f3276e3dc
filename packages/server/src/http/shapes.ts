/** What the routes answer with. */
import { z } from 'zod';
import { SHELF_KINDS } from '../store/shelf.ts';

export const buildHead = z.object({
  id: z.string(),
  name: z.string().nullable(),
  title: z.string(),
  head: z.number(),
  faults: z.number(),
  draft: z.boolean(),
  created: z.string(),
  saved: z.string(),
  who: z.string(),
  why: z.string(),
  archived: z.string().nullable(),
  copiedFrom: z.object({ id: z.string(), revision: z.number() }).nullable(),
});

export const revisionHead = z.object({
  number: z.number(),
  title: z.string(),
  faults: z.number(),
  who: z.string(),
  why: z.string(),
  saved: z.string(),
  saveId: z.string(),
  sha256: z.string(),
});

export const revision = revisionHead.extend({ text: z.string() });

/** `replayed`: an earlier try with the same save id had saved it. */
export const saved = z.object({ build: buildHead, revision: revisionHead, replayed: z.boolean() });

export const diagnostic = z.object({
  severity: z.enum(['error', 'warning', 'info']),
  line: z.number(),
  column: z.number(),
  message: z.string(),
});

export const imported = saved.extend({ diagnostics: z.array(diagnostic) });

export const event = z.object({
  at: z.string(),
  who: z.string(),
  why: z.string(),
  what: z.string(),
  detail: z.string(),
});

export const photo = z.object({
  sha256: z.string(),
  type: z.string(),
  bytes: z.number(),
  width: z.number(),
  height: z.number(),
});

export const photoUse = photo.extend({
  id: z.string(),
  on: z.union([z.object({ place: z.string() }), z.object({ part: z.string() })]),
  caption: z.string(),
  who: z.string(),
  added: z.string(),
  removed: z.string().nullable(),
});

export const shelfItem = z.object({
  id: z.string(),
  kind: z.enum(SHELF_KINDS),
  name: z.string(),
  head: z.number(),
  data: z.unknown(),
  created: z.string(),
  saved: z.string(),
  who: z.string(),
  why: z.string(),
  archived: z.string().nullable(),
});

export const shelfRevision = z.object({
  number: z.number(),
  name: z.string(),
  data: z.unknown(),
  who: z.string(),
  why: z.string(),
  saved: z.string(),
  saveId: z.string(),
});

export const shelfSaved = z.object({ item: shelfItem, replayed: z.boolean() });

const fates = z.object({
  added: z.number(),
  extended: z.number(),
  present: z.number(),
  keptBeside: z.number(),
});

export const taken = z.object({
  builds: fates,
  items: fates,
  photos: z.object({ added: z.number(), present: z.number() }),
});
