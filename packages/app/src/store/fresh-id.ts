/** A new id: 32 hexadecimal digits by chance. A page opened from a file may lack the browser's own maker of ids. */
export function freshId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
