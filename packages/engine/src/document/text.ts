/** Bytes to text, and offsets to lines. */

/** Documents above this size are refused before parsing, bytes of UTF-8. */
export const MOST_BYTES = 1_048_576;

export type Decoded =
  | { readonly ok: true; readonly text: string }
  /** `at` counts bytes (of a string: UTF-16 units) from 1. */
  | { readonly ok: false; readonly at: number };

const CHUNK = 8192;

/** Strict UTF-8 (RFC 3629): no overlong forms, no surrogates, nothing above U+10FFFF. A byte-order mark stays in the text. */
export function decodeUtf8(bytes: Uint8Array): Decoded {
  const parts: string[] = [];
  let units: number[] = [];
  let i = 0;
  while (i < bytes.length) {
    const code = codePointAt(bytes, i);
    if (code === undefined) return { ok: false, at: i + 1 };
    if (code >= 0x10000) units.push(0xd800 + ((code - 0x10000) >> 10), 0xdc00 + ((code - 0x10000) & 0x3ff));
    else units.push(code);
    i += lengthOf(code);
    if (units.length >= CHUNK) {
      parts.push(String.fromCharCode(...units));
      units = [];
    }
  }
  parts.push(String.fromCharCode(...units));
  return { ok: true, text: parts.join('') };
}

function codePointAt(bytes: Uint8Array, at: number): number | undefined {
  const first = bytes[at] ?? 0;
  if (first < 0x80) return first;
  const count = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : 2;
  if (first < 0xc2 || first > 0xf4) return undefined;
  let code = first & (0xff >> (count + 1));
  for (let k = 1; k < count; k++) {
    const next = bytes[at + k];
    if (next === undefined || (next & 0xc0) !== 0x80) return undefined;
    code = (code << 6) | (next & 0x3f);
  }
  const valid = code <= 0x10ffff && lengthOf(code) === count && !(code >= 0xd800 && code <= 0xdfff);
  return valid ? code : undefined;
}

/** Bytes that a code point takes in UTF-8. */
function lengthOf(code: number): number {
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x10000 ? 3 : 4;
}

/** Size in UTF-8, or where a half of a pair stands alone (which no UTF-8 can hold), counted from 1. */
export function utf8Size(text: string): { readonly bytes: number; readonly loneAt: number | undefined } {
  let bytes = 0;
  for (let i = 0; i < text.length; i++) {
    const code = text.codePointAt(i) ?? 0;
    if (code >= 0xd800 && code <= 0xdfff) return { bytes, loneAt: i + 1 };
    bytes += lengthOf(code);
    if (code >= 0x10000) i++;
  }
  return { bytes, loneAt: undefined };
}

/** Lines of a text, to turn offsets into lines and columns (both from 1). */
export class Lines {
  readonly text: string;
  readonly #starts: number[] = [0];

  constructor(text: string) {
    this.text = text;
    for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) this.#starts.push(i + 1);
  }

  get count(): number {
    return this.#starts.length;
  }

  position(offset: number): { readonly line: number; readonly column: number } {
    const at = Math.min(Math.max(offset, 0), this.text.length);
    let low = 0;
    let high = this.#starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.#starts[middle] ?? 0) <= at) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: at - (this.#starts[low] ?? 0) + 1 };
  }

  /** Offset of the first character of the line in which `offset` lies. */
  lineStart(offset: number): number {
    return this.#starts[this.position(offset).line - 1] ?? 0;
  }

  /** Offset of the line's end, before its line break (CR LF or LF). */
  lineEnd(offset: number): number {
    const feed = this.text.indexOf('\n', offset);
    if (feed < 0) return this.text.length;
    return feed > 0 && this.text[feed - 1] === '\r' && feed - 1 >= offset ? feed - 1 : feed;
  }
}
