/** Fields that come from outside: their form and their limits. */
import { z } from 'zod';
import { MOST_TEXT } from '../document.ts';

// Half of a surrogate pair, or NUL: SQLite would not give them back as they were.
// eslint-disable-next-line no-control-regex
const UNSAFE = /\u0000|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/;

/** Text of a person, kept and given back exactly; at most so many UTF-16 units. */
export const plain = (most: number) =>
  z
    .string()
    .max(most, `is longer than ${most} characters`)
    .refine((text) => !UNSAFE.test(text), 'holds a character that is damaged or NUL');

export const id = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{7,63}$/, 'is no id: 8 to 64 small letters, digits and hyphens');
export const saveId = z
  .string()
  .regex(/^[A-Za-z0-9_-]{8,64}$/, 'is no save id: 8 to 64 letters, digits, hyphens and underscores');
export const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'is no SHA-256: 64 digits 0 to 9, a to f');
export const who = plain(80);
export const why = plain(1000);
export const name = plain(200).refine((text) => text.trim() !== '', 'is empty');
/** A moment in UTC. */
export const instant = z.iso.datetime();
export const revisionNumber = z.number().int().min(1).max(999_999_999);

/** The order of a drawing, as the app keeps it; its views are looked into by the one who draws. */
export const drawingOrder = z.strictObject({
  version: z.literal(1),
  views: z.record(plain(20), z.unknown()),
});

/** Text of a build document. */
export const buildText = plain(MOST_TEXT)
  .min(1, 'is empty')
  .refine((text) => Buffer.byteLength(text) <= MOST_TEXT, 'has more than 1 MiB; a build is far smaller');
