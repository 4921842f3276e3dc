/** Gives a value that was assumed: typed where it stands in the document, or confirmed where it is a figure of a table. */
import { basisOrigin, type Basis, type Change } from '@loomwright/engine';
import { useState, type FormEvent, type ReactElement } from 'react';
import { buildStore, edit, foresee } from '../build-store.ts';
import { useBuild, useView } from '../hooks.ts';
import { Problem } from '../marks/Problem.tsx';
import { keepView } from '../view-store.ts';
import { words } from '../words.ts';

interface Props {
  readonly basis: Basis;
  readonly done: () => void;
}

const SECTIONS = [
  'parts',
  'wires',
  'places',
  'survey',
  'climate',
  'settings',
  'vehicle',
  'practice',
  'systems',
];

export function GiveValue({ basis, done }: Props): ReactElement {
  const section = basis.path.split('.')[0] ?? '';
  if (/^(table|default):/.test(basis.path)) return <Confirm basis={basis} done={done} />;
  if (!SECTIONS.includes(section)) return <p className="give small quiet">{basis.how}</p>;
  return <Type basis={basis} done={done} />;
}

function Type({ basis, done }: Props): ReactElement {
  const [text, setText] = useState('');
  const [problem, setProblem] = useState('');
  const path = pathOf(basis.path);
  const missing = path === null;
  const keep = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (path === null || text.trim() === '') return;
    const refused = await edit([{ set: path, to: text.trim() }], `${basis.label}: ${text.trim()}.`);
    setProblem(refused.map((each) => each.message).join(' '));
    if (refused.length === 0) done();
  };
  if (missing) return <p className="give small">{words.give.noPart(basis.how)}</p>;
  return (
    <form className="give" onSubmit={(event) => void keep(event)}>
      <p className="small quiet">
        {basis.how}. {basisOrigin(basis)}.
      </p>
      <div className="give-line">
        <label className="field">
          <span className="label">{words.give.label(basis.sourced.unit)}</span>
          <input
            value={text}
            onChange={(event) => {
              setText(event.target.value);
              if (path !== null) void foresee([{ set: path, to: event.target.value.trim() }]);
            }}
            aria-invalid={problem !== ''}
            autoComplete="off"
            enterKeyHint="done"
          />
        </label>
        <button type="submit" className="button">
          {words.keep}
        </button>
      </div>
      <Problem says={problem} />
    </form>
  );
}

/** Where the value stands in the document; null when it is of a part that the build does not have. */
function pathOf(dotted: string): readonly string[] | null {
  const path = dotted.split('.');
  const { build } = buildStore.get();
  const [section, id = ''] = path;
  if (section === 'parts' && build?.parts.has(id) !== true) return null;
  if (section === 'wires' && build?.wires.has(id) !== true) return null;
  return path;
}

function Confirm({ basis, done }: Props): ReactElement {
  const build = useBuild();
  const who = useView((view) => view.who);
  const [edition, setEdition] = useState('');
  const [problem, setProblem] = useState('');
  const keep = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (who.trim() === '') {
      setProblem(words.give.whoNeeded);
      return;
    }
    const entry = {
      table: basis.path,
      ...(edition.trim() === '' ? {} : { edition: edition.trim() }),
      by: who.trim(),
      date: today(),
    };
    const count = build?.confirmed.length ?? 0;
    const change: Change =
      count === 0 ? { set: ['confirmed'], to: [entry] } : { add: ['confirmed', count], value: entry };
    const refused = await edit([change], `${basis.label}: confirmed.`);
    setProblem(refused.map((each) => each.message).join(' '));
    if (refused.length === 0) done();
  };
  return (
    <form className="give" onSubmit={(event) => void keep(event)}>
      <p className="small quiet">
        {basis.how}. {basisOrigin(basis)}.
      </p>
      <label className="field">
        <span className="label">{words.give.edition}</span>
        <input value={edition} onChange={(event) => setEdition(event.target.value)} autoComplete="off" />
      </label>
      <div className="give-line">
        <label className="field">
          <span className="label">{words.who}</span>
          <input
            value={who}
            onChange={(event) => keepView({ who: event.target.value })}
            autoComplete="name"
          />
        </label>
        <button type="submit" className="button">
          {words.give.confirm}
        </button>
      </div>
      <Problem says={problem} />
    </form>
  );
}

/** The date of this device, as documents write it. */
export function today(): string {
  const now = new Date();
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

const two = (part: number): string => String(part).padStart(2, '0');
