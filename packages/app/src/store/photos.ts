/** Photos of a build: their bytes once, and what each shows. */
import { ask } from './api.ts';
import { freshId } from './fresh-id.ts';

export interface Photo {
  readonly id: string;
  readonly sha256: string;
  readonly width: number;
  readonly height: number;
  readonly on: { readonly place: string } | { readonly part: string };
  readonly caption: string;
}

const at = (id: string): string => `/builds/${encodeURIComponent(id)}/photos`;

export const photoAddress = ({ sha256 }: Photo): string => `/api/photos/${sha256}`;

export async function listPhotos(id: string): Promise<readonly Photo[]> {
  return (await ask<{ photos: readonly Photo[] }>('GET', at(id))).photos;
}

/** `on`: `place:bonnet` or `part:charger`. The store looks at the bytes itself and refuses what is no photo. */
export async function addPhoto(
  id: string,
  file: File,
  on: string,
  caption: string,
  who: string,
): Promise<void> {
  const { photo } = await ask<{ photo: { sha256: string } }>(
    'POST',
    '/photos',
    file,
    file.type === '' ? 'application/octet-stream' : file.type,
  );
  const [kind = 'place', ...name] = on.split(':');
  const shows = kind === 'part' ? { part: name.join(':') } : { place: name.join(':') };
  await ask('POST', at(id), { saveId: freshId(), sha256: photo.sha256, on: shows, caption, who });
}

export async function removePhoto(id: string, use: string): Promise<void> {
  await ask('PATCH', `${at(id)}/${use}`, { removed: true });
}
