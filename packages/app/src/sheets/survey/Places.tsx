/** Places nose to tail, and the measured ways between them. */
import { useState, type FormEvent, type ReactElement } from 'react';
import { edit } from '../../build-store.ts';
import { useBuild } from '../../hooks.ts';
import { Problem } from '../../marks/Problem.tsx';
import { InMargin } from '../../shell/places.tsx';
import { useStore } from '../../store/store.ts';
import { pick } from '../../view-store.ts';
import { words } from '../../words.ts';
import { idOf } from './AddPoint.tsx';
import { PlacesOutline } from './PlacesOutline.tsx';
import { at, isYes, keysAt, surveyStore } from './survey-store.ts';
import { ValueCell } from './ValueCell.tsx';

const FLAGS: readonly (readonly [string, string])[] = [
  ['engine-space', 'engine space'],
  ['enclosed', 'enclosed'],
  ['wet', 'wet'],
  ['gas-or-fuel', 'gas or fuel'],
  ['living', 'living space'],
  ['crash-zone', 'crash zone'],
];

export function Places(): ReactElement {
  const notation = useStore(surveyStore, (state) => state.notation);
  const places = keysAt(notation, ['places']);
  const routes = at(notation, ['routes']);
  const count = Array.isArray(routes) ? routes.length : 0;
  return (
    <>
      <h1 className="lead">{words.survey.placesTitle}</h1>
      <p className="quiet">{words.survey.placesLead}</p>
      <PlacesOutline />
      <div className="survey-scroll">
        <table className="table places-table">
          <thead>
            <tr>
              <th scope="col">Place</th>
              <th scope="col">Called</th>
              <th scope="col">From the nose</th>
              <th scope="col">Level</th>
              <th scope="col">Hottest</th>
              <th scope="col">Coldest</th>
              <th scope="col">It is</th>
            </tr>
          </thead>
          <tbody>
            {places.map((id) => (
              <PlaceRow key={id} id={id} />
            ))}
          </tbody>
        </table>
      </div>
      <AddPlace />
      <h2 className="lead ways-title">{words.survey.ways}</h2>
      <div className="survey-scroll">
        <table className="table places-table">
          <thead>
            <tr>
              <th scope="col">From</th>
              <th scope="col">To</th>
              <th scope="col">Length</th>
              <th scope="col">In</th>
              <th scope="col">In wall insulation</th>
              <th scope="col" aria-label="Take away" />
            </tr>
          </thead>
          <tbody>
            {Array.from({ length: count }, (_, index) => (
              // oxlint-disable-next-line react/no-array-index-key -- ways have no names
              <RouteRow key={index} index={index} />
            ))}
          </tbody>
        </table>
      </div>
      <AddRoute />
      <InMargin>
        <section className="margin-pad stack">
          <h2>{words.survey.placesWhy}</h2>
          <p>{words.survey.placesWhySays}</p>
        </section>
      </InMargin>
    </>
  );
}

function PlaceRow({ id }: { readonly id: string }): ReactElement {
  const notation = useStore(surveyStore, (state) => state.notation);
  const cell = (field: string, name: string, example: string): ReactElement => (
    <ValueCell
      path={['places', id, field]}
      value={at(notation, ['places', id, field])}
      label={`${name}, ${id}`}
      example={example}
      ask="give"
    />
  );
  return (
    <tr>
      <th scope="row">
        <button type="button" className="inset place-name" onClick={() => pick(id)}>
          {id}
        </button>
      </th>
      <td data-label="Called">{cell('label', 'Called', 'Load bulkhead')}</td>
      <td data-label="From the nose">{cell('station', 'From the nose', '2.1 m')}</td>
      <td data-label="Level">{cell('level', 'Level', 'floor')}</td>
      <td data-label="Hottest">{cell('hottest', 'Hottest', '45 °C')}</td>
      <td data-label="Coldest">{cell('coldest', 'Coldest', '5 °C')}</td>
      <td data-label="It is">
        <Flags id={id} />
      </td>
    </tr>
  );
}

function Flags({ id }: { readonly id: string }): ReactElement {
  const notation = useStore(surveyStore, (state) => state.notation);
  const [all, setAll] = useState(false);
  const on = FLAGS.filter(([field]) => isYes(at(notation, ['places', id, field])));
  return (
    <span className="flags">
      {(all ? FLAGS : on).map(([field, name]) => {
        const is = isYes(at(notation, ['places', id, field]));
        return (
          <button
            key={field}
            type="button"
            className="flag inset"
            aria-pressed={is}
            onClick={() =>
              void edit([{ set: ['places', id, field], to: !is }], `${id}: ${is ? 'not ' : ''}${name}.`)
            }
          >
            {name}
          </button>
        );
      })}
      <button type="button" className="flag more inset" aria-expanded={all} onClick={() => setAll(!all)}>
        {all ? words.survey.fewer : on.length === 0 ? words.survey.sayWhat : words.survey.more}
        <span className="unseen"> {id}</span>
      </button>
    </span>
  );
}

function RouteRow({ index }: { readonly index: number }): ReactElement {
  const notation = useStore(surveyStore, (state) => state.notation);
  const cell = (field: string, name: string, example: string): ReactElement => (
    <ValueCell
      path={['routes', index, field]}
      value={at(notation, ['routes', index, field])}
      label={`${name}, way ${index + 1}`}
      example={example}
      ask="give"
    />
  );
  const take = async (): Promise<void> => {
    await edit([{ remove: ['routes', index] }], words.survey.wayGone);
  };
  return (
    <tr>
      <td data-label="From">{cell('from', 'From', 'bonnet')}</td>
      <td data-label="To">{cell('to', 'To', 'bulkhead')}</td>
      <td data-label="Length">{cell('length', 'Length', '2.4 m')}</td>
      <td data-label="In">{cell('in', 'In', 'conduit')}</td>
      <td data-label="In wall insulation">{cell('insulated-wall', 'In wall insulation', '0 m')}</td>
      <td>
        <button type="button" className="button" onClick={() => void take()}>
          {words.survey.takeAway}
          <span className="unseen"> way {index + 1}</span>
        </button>
      </td>
    </tr>
  );
}

function AddPlace(): ReactElement {
  const [name, setName] = useState('');
  const [problem, setProblem] = useState('');
  const keep = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const id = idOf(name);
    if (id === '') return;
    const refused = await edit([{ add: ['places', id], value: { label: name.trim() } }], `${id} is a place.`);
    setProblem(refused.map((each) => each.message).join(' '));
    if (refused.length === 0) setName('');
  };
  return (
    <form className="add-line" onSubmit={(event) => void keep(event)}>
      <label className="field">
        <span className="label">{words.survey.newPlace}</span>
        <input value={name} onChange={(event) => setName(event.target.value)} autoComplete="off" />
      </label>
      <button type="submit" className="button">
        {words.survey.add}
      </button>
      <Problem says={problem} />
    </form>
  );
}

function AddRoute(): ReactElement {
  const build = useBuild();
  const places = [...(build?.places.values() ?? [])];
  const [from, setFrom] = useState('');
  const [to, setTo] = useState('');
  const [length, setLength] = useState('');
  const [problem, setProblem] = useState('');
  const keep = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const [first, second] = [from === '' ? places[0]?.id : from, to === '' ? places[1]?.id : to];
    if (first === undefined || second === undefined) return;
    const route = {
      from: first,
      to: second,
      length: length.trim() === '' ? 'unknown' : length.trim(),
      in: 'loom',
    };
    const count = build?.routes.length ?? 0;
    const refused = await edit(
      [count === 0 ? { set: ['routes'], to: [route] } : { add: ['routes', count], value: route }],
      words.survey.wayNew(first, second),
    );
    setProblem(refused.map((each) => each.message).join(' '));
    if (refused.length === 0) setLength('');
  };
  const choices = (
    label: string,
    value: string,
    set: (id: string) => void,
    otherwise: number,
  ): ReactElement => (
    <label className="field">
      <span className="label">{label}</span>
      <select
        value={value === '' ? (places[otherwise]?.id ?? '') : value}
        onChange={(event) => set(event.target.value)}
      >
        {places.map((place) => (
          <option key={place.id} value={place.id}>
            {place.label ?? place.id}
          </option>
        ))}
      </select>
    </label>
  );
  return (
    <form className="add-line" onSubmit={(event) => void keep(event)}>
      {choices(words.survey.wayFrom, from, setFrom, 0)}
      {choices(words.survey.wayTo, to, setTo, 1)}
      <label className="field">
        <span className="label">{words.survey.wayLength}</span>
        <input value={length} onChange={(event) => setLength(event.target.value)} autoComplete="off" />
      </label>
      <button type="submit" className="button">
        {words.survey.add}
      </button>
      <Problem says={problem} />
    </form>
  );
}
