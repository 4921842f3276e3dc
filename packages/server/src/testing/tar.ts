/** Archives for tests: made and taken apart by plain arithmetic. */
import { paddingOf, tarEnd, tarHead } from '../archive/tar.ts';
import { sha256Of } from '../photos/files.ts';
import { buildText, nextSaveId, pngOf, type Answer, type Ask } from './store.ts';

const TAR = { 'content-type': 'application/x-tar' };
export const send = (ask: Ask, bytes: Buffer): Promise<Answer> => ask('POST', '/api/archive', bytes, TAR);

/** A store with two builds of several revisions, a copy, an item and a photo. */
export async function filled(ask: Ask): Promise<string> {
  const { id } = (
    await ask('POST', '/api/builds', { saveId: nextSaveId(), id: 'build-one', text: buildText('Ünö\r\n') })
  ).json.build;
  for (const base of [1, 2])
    await ask('POST', `/api/builds/${id}/revisions`, {
      saveId: nextSaveId(),
      base,
      text: buildText(`R${base}`),
      who: 'Bo',
    });
  await ask('PATCH', `/api/builds/${id}`, { name: 'Blue', who: 'Di' });
  const screen = { nodes: ['b', 'a'], sides: {} };
  await ask('PUT', `/api/builds/${id}/drawing-order`, { order: { version: 1, views: { all: { screen } } } });
  const { sha256 } = (await ask('POST', '/api/photos', pngOf(1), { 'content-type': 'image/png' })).json.photo;
  await ask('POST', `/api/builds/${id}/photos`, { saveId: nextSaveId(), sha256, on: { place: 'bonnet' } });
  await ask('POST', `/api/builds/${id}/copy`, { saveId: nextSaveId(), id: 'build-two', photos: true });
  await ask('PATCH', '/api/builds/build-two', { archived: true });
  const item = {
    saveId: nextSaveId(),
    id: 'item-one',
    kind: 'part',
    name: 'Fuse',
    data: { a: [1, { b: 'ü' }] },
  };
  await ask('POST', '/api/shelf', item);
  await ask('POST', '/api/shelf/item-one/revisions', {
    ...item,
    id: undefined,
    kind: undefined,
    saveId: nextSaveId(),
    base: 1,
    data: { c: 2 },
  });
  return id;
}

export type Files = Map<string, Buffer>;

/** Names and contents, read with plain arithmetic. */
export function filesOf(tar: Buffer): Files {
  const files: Files = new Map();
  for (let at = 0; tar[at] !== 0;) {
    const name = tar.toString('latin1', at, tar.indexOf(0, at));
    const size = Number.parseInt(tar.toString('latin1', at + 124, at + 135), 8);
    files.set(name, tar.subarray(at + 512, at + 512 + size));
    at += 512 + size + paddingOf(size);
  }
  return files;
}

export function entry(
  name: string,
  content: Buffer | string,
  change: (head: Buffer) => void = () => undefined,
): Buffer {
  const bytes = Buffer.from(content as string);
  const head = tarHead({ name, size: bytes.length }, 0);
  change(head);
  head.fill(' ', 148, 156);
  const sum = head.reduce((total, byte) => total + byte, 0);
  head.write(`${sum.toString(8).padStart(6, '0')}\0 `, 148, 'latin1');
  return Buffer.concat([head, bytes, Buffer.alloc(paddingOf(bytes.length))]);
}

/** Packs files again, with sums that are right. */
export function packed(files: Files, more: Buffer[] = []): Buffer {
  const sums = [...files]
    .filter(([name]) => name !== 'SHA256SUMS')
    .map(([name, content]) => `${sha256Of(content)}  ${name}\n`);
  const all = [...files]
    .filter(([name]) => name !== 'SHA256SUMS')
    .map(([name, content]) => entry(name, content));
  return Buffer.concat([...all, ...more, entry('SHA256SUMS', sums.join('')), tarEnd()]);
}
