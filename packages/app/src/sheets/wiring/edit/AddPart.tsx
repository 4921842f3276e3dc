/** Adds a part where it stands: what it is, by name, and its place. */
import type { KindEntry } from '@loomwright/engine';
import { useEffect, useState, type FormEvent, type ReactElement } from 'react';
import { edit, reader } from '../../../build-store.ts';
import { useBuild, usePicked } from '../../../hooks.ts';
import { Problem } from '../../../marks/Problem.tsx';
import { pick } from '../../../view-store.ts';
import { own } from '../words.ts';
import { freeName } from './names.ts';

let known: readonly KindEntry[] = [];
let asked: Promise<readonly KindEntry[]> | null = null;

/** Asked for before the form opens: what is typed into its list picks from what stands in it. */
export async function warmKinds(): Promise<readonly KindEntry[]> {
  asked ??= reader.ask.kinds();
  try {
    known = await asked;
  } catch {
    asked = null;
  }
  return known;
}

function useKinds(): readonly KindEntry[] {
  const [kinds, setKinds] = useState(known);
  useEffect(() => {
    if (known.length > 0) return;
    void warmKinds().then(setKinds);
  }, []);
  return kinds;
}

interface Props {
  /** Gives the new part's name; null when nothing was added. */
  readonly done: (added: string | null) => void;
}

export function AddPart({ done }: Props): ReactElement {
  const build = useBuild();
  const kinds = useKinds();
  const picked = usePicked();
  const near =
    build?.parts.get(picked ?? '')?.at ?? (build?.places.has(picked ?? '') === true ? picked : null);
  const [kind, setKind] = useState('fuse');
  const [place, setPlace] = useState(near ?? [...(build?.places.keys() ?? [])][0] ?? '');
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState('');
  if (build === null) return <p />;
  const name = typed ?? freeName(kind, build.parts);
  const add = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (build.parts.has(name)) {
      setProblem(own.add.taken(name));
      return;
    }
    const value = { kind, ...(place === '' ? {} : { at: place }) };
    const refused = await edit([{ add: ['parts', name], value }], own.add.says(name));
    setProblem(refused.map((each) => each.message).join(' '));
    if (refused.length > 0) return;
    pick(name);
    done(name);
  };
  return (
    <form className="slip-form" onSubmit={(event) => void add(event)}>
      <label className="field">
        <span className="label">{own.add.kind}</span>
        {/* oxlint-disable-next-line jsx-a11y/no-autofocus -- it was called for */}
        <select autoFocus value={kind} onChange={(event) => setKind(event.target.value)}>
          {kinds
            .toSorted((a, b) => (a.title < b.title ? -1 : 1))
            .map(({ name: id, title }) => (
              <option key={id} value={id}>
                {title}
              </option>
            ))}
        </select>
      </label>
      <label className="field">
        <span className="label">{own.add.place}</span>
        <select value={place} onChange={(event) => setPlace(event.target.value)}>
          {[...build.places.values()].map(({ id, label }) => (
            <option key={id} value={id}>
              {label ?? id}
            </option>
          ))}
        </select>
      </label>
      <label className="field">
        <span className="label">{own.add.name}</span>
        <input
          value={name}
          onChange={(event) => setTyped(event.target.value)}
          aria-invalid={problem !== ''}
          autoComplete="off"
        />
      </label>
      <button type="submit" className="button solid">
        {own.add.add}
      </button>
      <button type="button" className="button" onClick={() => done(null)}>
        {own.slip.cancel}
      </button>
      <Problem says={problem} />
    </form>
  );
}
