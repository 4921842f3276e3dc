/** How deeply a JSON text is nested, counted before it is parsed. */

/** Deepest nesting that is taken, of arrays and objects. */
export const MOST_DEPTH = 40;

/** Deepest nesting of brackets outside strings; one pass, no recursion. Of a text that is no JSON: some number. */
export function depthOf(bytes: Uint8Array): number {
  let depth = 0;
  let most = 0;
  let inString = false;
  for (let at = 0; at < bytes.length; at += 1) {
    const byte = bytes[at];
    if (inString) {
      if (byte === 0x5c) at += 1;
      else if (byte === 0x22) inString = false;
    } else if (byte === 0x22) inString = true;
    else if (byte === 0x5b || byte === 0x7b) {
      depth += 1;
      if (depth > most) most = depth;
    } else if (byte === 0x5d || byte === 0x7d) depth -= 1;
  }
  return most;
}
