/** Find by name: places, parts, wires, findings. */
import { useState, type ReactElement } from 'react';
import { useBuild, useJudged } from '../../hooks.ts';
import { pick } from '../../view-store.ts';
import { words } from '../../words.ts';

interface Hit {
  readonly id: string;
  readonly what: string;
  readonly more: string;
}

export function Find(): ReactElement {
  const [sought, setSought] = useState('');
  const hits = useHits().filter(({ id, what, more }) =>
    `${id} ${what} ${more}`.toLowerCase().includes(sought.trim().toLowerCase()),
  );
  return (
    <section className="margin-pad">
      <label className="field">
        <span className="label">Part, wire, place or finding</span>
        {/* oxlint-disable-next-line jsx-a11y/no-autofocus -- it was called for */}
        <input autoFocus type="search" value={sought} onChange={(event) => setSought(event.target.value)} />
      </label>
      {sought !== '' && hits.length === 0 && <p style={{ marginTop: 12 }}>{words.notFound(sought)}</p>}
      <ul className="rows" style={{ marginTop: 12 }}>
        {hits.slice(0, 60).map(({ id, what, more }) => (
          <li key={`${what}${id}`}>
            <button
              type="button"
              className="row"
              style={{ minHeight: 44, width: '100%' }}
              onClick={() => pick(id)}
            >
              <b>{id}</b> <span className="quiet">{what}</span> <span className="small quiet">{more}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

function useHits(): readonly Hit[] {
  const build = useBuild();
  const { judged } = useJudged();
  if (build === null) return [];
  return [
    ...[...build.parts.values()].map((part) => ({ id: part.id, what: part.kind, more: part.at ?? '' })),
    ...[...build.wires.values()].map((wire) => ({
      id: wire.id,
      what: 'wire',
      more: `${wire.from} to ${wire.to}`,
    })),
    ...[...build.places.values()].map((place) => ({ id: place.id, what: 'place', more: place.label ?? '' })),
    ...(judged?.findings ?? []).map((each) => ({ id: each.id, what: each.verdict, more: each.title })),
  ];
}
