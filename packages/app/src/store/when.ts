/** A moment as this device writes it, to the minute. */
const FORM = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' });

export function when(instant: string): string {
  const time = new Date(instant);
  return Number.isNaN(time.getTime()) ? instant : FORM.format(time);
}
