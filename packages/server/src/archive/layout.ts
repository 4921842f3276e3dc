/**
 * What stands in an archive, in this order. It is a plain ustar file; every text is UTF-8.
 *
 *     loomwright-archive.json            {"format":1,"made":TIME,"builds":N,"items":N,"photos":N,"missing":N}
 *     builds/ID/000001.yaml ...          the texts of the revisions, byte for byte as saved
 *     builds/ID/build.json               everything else about the build: name, revisions, events, photos, order
 *     shelf/ID.json                      an item of the shelf with all its revisions
 *     photos/SHA256.jpg                  photos, named by the SHA-256 of their bytes
 *     SHA256SUMS                         of everything above, as `sha256sum -c` reads it; last
 */
import { z } from 'zod';
import { SHELF_KINDS } from '../store/shelf.ts';
import { drawingOrder, id, instant, name, plain, sha256, who, why } from '../http/fields.ts';

export const HEAD_NAME = 'loomwright-archive.json';
export const SUMS_NAME = 'SHA256SUMS';

export const headShape = z.strictObject({
  format: z.literal(1),
  made: instant,
  builds: z.number().int().min(0),
  items: z.number().int().min(0),
  photos: z.number().int().min(0),
  /** Photos whose files were gone or damaged when the archive was made. */
  missing: z.number().int().min(0),
});

const revisionShape = z.strictObject({
  number: z.number().int().min(1),
  sha256,
  title: plain(400),
  faults: z.number().int().min(0),
  who,
  why,
  saved: instant,
  saveId: z.string().max(200),
});

export const buildShape = z.strictObject({
  id,
  name: name.nullable(),
  created: instant,
  archived: instant.nullable(),
  copiedFrom: z.strictObject({ id, revision: z.number().int().min(1) }).nullable(),
  revisions: z.array(revisionShape).min(1),
  events: z.array(z.strictObject({ at: instant, who, why, what: plain(40), detail: plain(1000) })),
  photos: z.array(
    z.strictObject({
      id,
      sha256,
      on: z.union([z.strictObject({ place: plain(100) }), z.strictObject({ part: plain(100) })]),
      caption: plain(1000),
      who,
      added: instant,
      removed: instant.nullable(),
      saveId: z.string().max(200),
    }),
  ),
  /** How its drawing is ordered; null: none was kept. */
  drawing: drawingOrder.nullable().default(null),
});
export type ArchivedBuild = z.infer<typeof buildShape>;

export const itemShape = z.strictObject({
  id,
  kind: z.enum(SHELF_KINDS),
  created: instant,
  archived: instant.nullable(),
  revisions: z
    .array(
      z.strictObject({
        number: z.number().int().min(1),
        name,
        data: z.unknown(),
        who,
        why,
        saved: instant,
        saveId: z.string().max(200),
      }),
    )
    .min(1),
});
export type ArchivedItem = z.infer<typeof itemShape>;

const ID = '[a-z0-9][a-z0-9-]{7,63}';

/** The names that an archive may hold, and nothing else: no dots but these, no way up or out. */
export const NAMES = {
  head: /^loomwright-archive\.json$/,
  sums: /^SHA256SUMS$/,
  revision: new RegExp(`^builds/(${ID})/([0-9]{6,9})\\.yaml$`),
  build: new RegExp(`^builds/(${ID})/build\\.json$`),
  item: new RegExp(`^shelf/(${ID})\\.json$`),
  photo: /^photos\/([0-9a-f]{64})\.(?:jpg|png|webp)$/,
} as const;

export const revisionName = (buildId: string, number: number): string =>
  `builds/${buildId}/${String(number).padStart(6, '0')}.yaml`;
