/** Puts an example on the desk; it is not kept until it is changed. */
import { addressOf, type Example } from './examples.ts';
import { openNew } from './keeping.ts';

const texts = import.meta.glob<string>('../../../../examples/*.yaml', { query: '?raw', import: 'default' });

export async function openExample({ name }: Example): Promise<void> {
  const text = await texts[`../../../../examples/${name}.yaml`]?.();
  if (text !== undefined) await openNew(text, false, addressOf(name));
}
