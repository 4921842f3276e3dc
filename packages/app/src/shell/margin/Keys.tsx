/** The map of the keys. */
import type { ReactElement } from 'react';
import { useView } from '../../hooks.ts';
import { sheets } from '../../sheets/registry.ts';
import { keepView } from '../../view-store.ts';
import { words } from '../../words.ts';

const ROWS: readonly (readonly [string, string])[] = [
  ['/', 'find'],
  ['f', 'findings'],
  ['t', 'table instead of picture'],
  ['Ctrl Z', 'take back'],
  ['Ctrl Shift Z', 'do again'],
  ['Ctrl S', 'keep a named revision'],
  ['Esc', 'let go'],
  ['?', 'this map'],
];

export function Keys(): ReactElement {
  const on = useView((view) => view.keys);
  const all = [...sheets.map((sheet) => [String(sheet.digit), sheet.name] as const), ...ROWS];
  return (
    <section className="margin-pad">
      <table className="table">
        <tbody>
          {all.map(([key, does]) => (
            <tr key={key}>
              <th scope="row">
                <kbd className="key">{key}</kbd>
              </th>
              <td>{does}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p style={{ marginTop: 16 }}>
        <button type="button" className="button" aria-pressed={on} onClick={() => keepView({ keys: !on })}>
          {on ? words.keys.on : words.keys.off}
        </button>
      </p>
    </section>
  );
}
