/** The conductor schedule: one row for each wire, with why it has its size. Pressing a row picks the wire up. */
import type { ScheduleRow } from '@loomwright/engine';
import { useEffect, useState, type ReactElement } from 'react';
import { judge } from '../../../build-store.ts';
import { useBuild, useJudgedNow, usePicked, useText } from '../../../hooks.ts';
import { pick } from '../../../view-store.ts';
import { lengthBeside, sizeBeside } from '../other-units.ts';
import { own } from '../words.ts';

export function Schedule(): ReactElement {
  const fresh = useJudgedNow();
  const rows = useSchedule();
  const picked = usePicked();
  const units = useBuild()?.units ?? 'metric';
  if (rows === null) return <p className="quiet">{own.schedule.asking}</p>;
  return (
    <table className="table schedule">
      <caption className="lead">
        {own.schedule.title}
        {!fresh && <span className="small quiet beside">{own.again}</span>}
      </caption>
      <thead>
        <tr>
          {own.schedule.heads.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.wire} className={picked === row.wire ? 'picked' : ''}>
            <th scope="row">
              <button
                type="button"
                className="button plain number-button"
                aria-pressed={picked === row.wire}
                onClick={() => pick(row.wire)}
              >
                {row.number}
                <span className="unseen"> {row.wire}</span>
              </button>
            </th>
            <td>{row.from}</td>
            <td>{row.to}</td>
            <td className="nowrap">
              <span className={row.sizeDerived ? '' : 'given'}>{row.size}</span>
              <Beside says={sizeBeside(row.size, units)} />
            </td>
            <td>{row.colour}</td>
            <td className="number">
              <span className={row.lengthDerived ? '' : 'given'}>{row.length}</span>
              <Beside says={lengthBeside(row.length, units)} />
            </td>
            <td className="nowrap">
              <span className={row.insulationAssumed ? 'assumed' : 'given'}>{row.insulation}</span>
            </td>
            <td className="number">{row.most}</td>
            <td className="number">{row.may}</td>
            <td className="nowrap">{row.protectedAt}</td>
            <td>{row.finding === null ? row.why : <Why row={row} id={row.finding} />}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** In the units that were chosen, where it is written in others. */
const Beside = ({ says }: { readonly says: string }): ReactElement | null =>
  says === '' ? null : <span className="small quiet beside">{says}</span>;

/** Opens the working of the finding behind it. */
function Why({ row, id }: { readonly row: ScheduleRow; readonly id: string }): ReactElement {
  return (
    <button type="button" className="why-button" onClick={() => pick(id)}>
      {row.why}
    </button>
  );
}

/** null: not judged yet. The last schedule stands while a newer one is made. */
function useSchedule(): readonly ScheduleRow[] | null {
  const text = useText();
  const fresh = useJudgedNow();
  const [rows, setRows] = useState<readonly ScheduleRow[] | null>(null);
  useEffect(() => {
    let stale = false;
    if (!fresh || text === null) return undefined;
    void judge
      .ask(text, async (desk) => await desk.schedule(text))
      .then((found) => {
        if (!stale && found !== null) setRows(found);
      });
    return () => {
      stale = true;
    };
  }, [text, fresh]);
  return rows;
}
