/** The shelf: the workshop's own parts, surveyed vehicles, stock and confirmed tables, for re-use. */
import { useEffect, useState, type ReactElement } from 'react';
import { useBuild, usePicked } from '../../hooks.ts';
import { api, type ShelfItem } from '../../store/api.ts';
import { listsStore } from '../../store/changes.ts';
import { putOnShelf, takeFromShelf, toPut, type ToPut } from '../../store/shelf.ts';
import { useStore } from '../../store/store.ts';
import { words } from '../../words.ts';

export function Shelf(): ReactElement {
  const [items, setItems] = useState<readonly ShelfItem[]>([]);
  const [puts, setPuts] = useState<readonly ToPut[]>([]);
  const [trouble, setTrouble] = useState('');
  const changes = useStore(listsStore, (state) => state.changes);
  const build = useBuild();
  const picked = usePicked();
  useEffect(() => {
    void api
      .shelf()
      .then(setItems)
      .catch((error: unknown) => setTrouble((error as Error).message));
  }, [changes]);
  useEffect(() => {
    void toPut(picked).then(setPuts);
  }, [build, picked]);
  const doing = async (deed: () => Promise<unknown>): Promise<void> => {
    try {
      const refused = await deed();
      setTrouble(
        typeof refused === 'string'
          ? refused
          : Array.isArray(refused)
            ? refused.map((each: { message: string }) => each.message).join(' ')
            : '',
      );
    } catch (error) {
      setTrouble((error as Error).message);
    }
  };
  return (
    <section className="margin-pad stack">
      <h3>{words.shelf.title}</h3>
      {trouble !== '' && <p role="alert">{trouble}</p>}
      {items.length === 0 && <p className="small quiet">{words.shelf.empty}</p>}
      <ul className="rows">
        {items.map((item) => (
          <li key={item.id} className="list-line">
            <div>
              <b>{item.name}</b>
              <div className="small quiet">{words.shelf.kinds[item.kind] ?? item.kind}</div>
            </div>
            <span className="line">
              <button
                type="button"
                className="button"
                onClick={() => void doing(async () => await takeFromShelf(item))}
              >
                {words.shelf.use}
                <span className="unseen"> {item.name}</span>
              </button>
              <button
                type="button"
                className="button"
                onClick={() => void doing(async () => void (await api.offShelf(item.id)))}
              >
                {words.shelf.off}
                <span className="unseen"> {item.name}</span>
              </button>
            </span>
          </li>
        ))}
      </ul>
      {puts.length > 0 && (
        <>
          <p className="small quiet">{words.shelf.put}</p>
          <p className="line">
            {puts.map((each) => (
              <button
                key={`${each.kind}${each.name}`}
                type="button"
                className="button"
                onClick={() => void doing(async () => await putOnShelf(each))}
              >
                {words.shelf.putKind[each.kind]}
                {each.kind === 'part' || each.kind === 'table' ? `: ${each.name}` : ''}
              </button>
            ))}
          </p>
        </>
      )}
    </section>
  );
}
