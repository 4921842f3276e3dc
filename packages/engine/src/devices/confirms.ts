/** Which tables and figures a confirmation names: people write the name of a table in more than one way. */

/** Letters and digits only, in small letters; `table:` before and `.csv` behind say nothing. */
const bare = (text: string): string =>
  text
    .toLowerCase()
    .replace(/^(?:table|figure):/, '')
    .replace(/\.csv$/, '')
    .replaceAll(/[^\p{L}\p{N}]/gu, '');

/**
 * True where the name is that of the path (`table:ampacity/iso-13297`, `ampacity/iso-13297`, `ampacity-iso13297.csv`), of its
 * source alone (`ISO 13297`: all that is taken from it), or what reports call the figure (`opening times of blade-c fuses`).
 */
export function confirms(name: string, path: string, label: string): boolean {
  const wanted = bare(name);
  if (wanted === '') return false;
  const rest = path.replace(/^table:/, '').split('/');
  return rest.some((_, i) => bare(rest.slice(i).join('/')) === wanted) || bare(label) === wanted;
}
