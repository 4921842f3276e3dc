/** Photos on places and parts: taken here, kept on the disk beside the builds. */
import { useEffect, useState, type FormEvent, type ReactElement } from 'react';
import { useBuild, useView } from '../../hooks.ts';
import { Problem } from '../../marks/Problem.tsx';
import { VerdictMark } from '../../marks/VerdictMark.tsx';
import { hasServer } from '../../store/api.ts';
import { listsStore } from '../../store/changes.ts';
import { keepingStore } from '../../store/keeping.ts';
import { addPhoto, listPhotos, photoAddress, removePhoto, type Photo } from '../../store/photos.ts';
import { useStore } from '../../store/store.ts';
import { words } from '../../words.ts';

export function Photos(): ReactElement {
  const id = useStore(keepingStore, (state) => state.id);
  const base = useStore(keepingStore, (state) => state.base);
  const changes = useStore(listsStore, (state) => state.changes);
  const [photos, setPhotos] = useState<readonly Photo[]>([]);
  const [trouble, setTrouble] = useState('');
  const [round, setRound] = useState(0);
  const kept = id !== null && base > 0;
  useEffect(() => {
    if (!kept) return;
    void listPhotos(id)
      .then(setPhotos)
      .catch((error: unknown) => setTrouble((error as Error).message));
  }, [kept, id, changes, round]);
  const remove = async (photo: Photo): Promise<void> => {
    if (id === null) return;
    await removePhoto(id, photo.id).catch((error: unknown) => setTrouble((error as Error).message));
    setRound(round + 1);
  };
  return (
    <>
      <h1 className="lead">{words.photos.title}</h1>
      {!hasServer || !kept ? (
        <p className="quiet">{words.photos.notKept}</p>
      ) : (
        <AddPhoto id={id} added={() => setRound(round + 1)} />
      )}
      {trouble !== '' && (
        <p className="mark-line" role="alert">
          <VerdictMark verdict="fault" small /> {trouble}
        </p>
      )}
      <ul className="photos">
        {photos.map((photo) => (
          <li key={photo.id}>
            <figure>
              <img
                src={photoAddress(photo)}
                alt={photo.caption === '' ? words.photos.of(photo) : photo.caption}
                width={photo.width}
                height={photo.height}
                loading="lazy"
              />
              <figcaption>
                <b>{words.photos.of(photo)}</b> {photo.caption}
              </figcaption>
            </figure>
            <button type="button" className="button" onClick={() => void remove(photo)}>
              {words.survey.takeAway}
              <span className="unseen"> {words.photos.of(photo)}</span>
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

function AddPhoto({ id, added }: { readonly id: string; readonly added: () => void }): ReactElement {
  const build = useBuild();
  const who = useView((view) => view.who);
  const [on, setOn] = useState('');
  const [caption, setCaption] = useState('');
  const [file, setFile] = useState<File | null>(null);
  const [trouble, setTrouble] = useState('');
  const places = [...(build?.places.values() ?? [])].map(
    (place) => [`place:${place.id}`, place.label ?? place.id] as const,
  );
  const parts = [...(build?.parts.values() ?? [])].map((part) => [`part:${part.id}`, part.id] as const);
  const keep = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const chosen = on === '' ? places[0]?.[0] : on;
    if (file === null || chosen === undefined) return;
    try {
      await addPhoto(id, file, chosen, caption.trim(), who);
      setCaption('');
      setTrouble('');
      added();
    } catch (error) {
      setTrouble((error as Error).message);
    }
  };
  return (
    <form className="add-line" onSubmit={(event) => void keep(event)}>
      <label className="field">
        <span className="label">{words.photos.file}</span>
        <input
          type="file"
          accept="image/jpeg,image/png,image/webp"
          capture="environment"
          onChange={(event) => setFile(event.target.files?.[0] ?? null)}
        />
      </label>
      <label className="field">
        <span className="label">{words.photos.shows}</span>
        <select
          value={on === '' ? (places[0]?.[0] ?? '') : on}
          onChange={(event) => setOn(event.target.value)}
        >
          {[...places, ...parts].map(([key, name]) => (
            <option key={key} value={key}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <label className="field">
        <span className="label">{words.photos.caption}</span>
        <input
          value={caption}
          maxLength={200}
          onChange={(event) => setCaption(event.target.value)}
          autoComplete="off"
        />
      </label>
      <button type="submit" className="button" aria-disabled={file === null}>
        {words.survey.add}
      </button>
      <Problem says={trouble} />
    </form>
  );
}
