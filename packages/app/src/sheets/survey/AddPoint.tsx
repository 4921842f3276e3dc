/** A further candidate: its name and where it is; everything else is read afterwards. */
import { useState, type FormEvent, type ReactElement } from 'react';
import { edit } from '../../build-store.ts';
import { useBuild } from '../../hooks.ts';
import { Problem } from '../../marks/Problem.tsx';
import { pick } from '../../view-store.ts';
import { words } from '../../words.ts';

export function AddPoint({ done }: { readonly done: () => void }): ReactElement {
  const build = useBuild();
  const places = [...(build?.places.values() ?? [])];
  const [name, setName] = useState('');
  const [place, setPlace] = useState(places[0]?.id ?? '');
  const [limit, setLimit] = useState('');
  const [problem, setProblem] = useState('');
  const keep = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const id = idOf(name);
    if (id === '') return;
    const value = {
      kind: 'supply-point',
      ...(place === '' ? {} : { at: place }),
      ...(id === name.trim() ? {} : { terminal: name.trim() }),
      live: [],
      dead: [],
      measured: false,
      ...(limit.trim() === '' ? {} : { limit: limit.trim() }),
    };
    const refused = await edit([{ add: ['parts', id], value }], `${id} is a candidate.`);
    setProblem(refused.map((each) => each.message).join(' '));
    if (refused.length > 0) return;
    pick(id);
    done();
  };
  return (
    <form className="add-point" onSubmit={(event) => void keep(event)}>
      <label className="field">
        <span className="label">{words.survey.pointName}</span>
        {/* oxlint-disable-next-line jsx-a11y/no-autofocus -- it was called for */}
        <input autoFocus value={name} onChange={(event) => setName(event.target.value)} autoComplete="off" />
      </label>
      <label className="field">
        <span className="label">{words.survey.pointPlace}</span>
        <select value={place} onChange={(event) => setPlace(event.target.value)}>
          {places.map((each) => (
            <option key={each.id} value={each.id}>
              {each.label ?? each.id}
            </option>
          ))}
          <option value="">{words.dontKnow}</option>
        </select>
      </label>
      <label className="field">
        <span className="label">{words.survey.pointLimit}</span>
        <input value={limit} onChange={(event) => setLimit(event.target.value)} autoComplete="off" />
      </label>
      <button type="submit" className="button solid">
        {words.survey.add}
      </button>
      <button type="button" className="button" onClick={done}>
        {words.close}
      </button>
      <Problem says={problem} />
    </form>
  );
}

/** A name as documents have it: small letters, digits, hyphens. */
export function idOf(name: string): string {
  return name
    .trim()
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .replace(/^(?=\d)/, 'p');
}
