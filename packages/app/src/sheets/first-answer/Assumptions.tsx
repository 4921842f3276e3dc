/** What the answer rests on and nobody gave: name, value, band. Press one to give it: it leaves the list. */
import { basisAmount, printBand, printValue, sentence, type Basis } from '@loomwright/engine';
import { useMemo, useState, type ReactElement } from 'react';
import { GiveValue } from '../../findings/GiveValue.tsx';
import { useJudged } from '../../hooks.ts';
import { words } from '../../words.ts';

/** Checks that decide the six rows, in their order. */
const DECIDING = ['hunting', 'rating-window', 'surplus', 'conductor', 'rating'];

export function Assumptions({ folded }: { readonly folded: boolean }): ReactElement | null {
  const [shown, setShown] = useState(!folded);
  const [all, setAll] = useState(false);
  const groups = useAssumed();
  if (groups.length === 0) return null;
  const title = words.restsOn(groups.length);
  const listed = all ? groups : groups.slice(0, 14);
  return (
    <section className="margin-pad assumptions">
      <h2>
        {folded ? (
          <button type="button" className="row fold" aria-expanded={shown} onClick={() => setShown(!shown)}>
            {title}
          </button>
        ) : (
          title
        )}
      </h2>
      {shown && (
        <>
          <ul className="rows">
            {listed.map((group) => (
              <Assumed key={group.label} group={group} />
            ))}
          </ul>
          {groups.length > listed.length && (
            <button type="button" className="button" onClick={() => setAll(true)}>
              {words.showAll(groups.length)}
            </button>
          )}
          <p className="small quiet">{words.bandsNote}</p>
        </>
      )}
    </section>
  );
}

interface Group {
  readonly label: string;
  readonly bases: readonly Basis[];
}

/** Assumed values that are alike stand in one line: every joint of every wire is one assumption. */
function useAssumed(): readonly Group[] {
  const { judged } = useJudged();
  return useMemo(() => {
    if (judged === null) return [];
    const deciding = judged.findings
      .filter((finding) => DECIDING.includes(finding.check))
      .flatMap((finding) => finding.restsOn);
    const first = new Set(deciding.filter((basis) => basis.assumed).map((basis) => basis.path));
    const sorted = [
      ...judged.assumed.filter((basis) => first.has(basis.path)),
      ...judged.assumed.filter((basis) => !first.has(basis.path)),
    ];
    const groups = new Map<string, Basis[]>();
    for (const basis of sorted) {
      const joint = /^wires\..*\.joints\./.test(basis.path);
      const key = joint ? `each joint of a wire ${basisAmount(basis)}` : basis.path;
      const group = groups.get(key);
      if (group === undefined) groups.set(key, [basis]);
      else group.push(basis);
    }
    return [...groups.values()].map((bases) => ({ label: labelOf(bases), bases }));
  }, [judged]);
}

const labelOf = ([first, ...more]: readonly Basis[]): string =>
  first === undefined
    ? ''
    : more.length === 0
      ? sentence(first.label)
      : `Joint of a wire, ${more.length + 1} places`;

function Assumed({ group }: { readonly group: Group }): ReactElement | null {
  const [open, setOpen] = useState(false);
  const [basis] = group.bases;
  if (basis === undefined) return null;
  const { value, unit, band } = basis.sourced;
  const amount =
    Number.isFinite(value) && (unit !== '' || band !== undefined) ? printValue(value, unit, true) : '';
  return (
    <li>
      <button type="button" className="row assumed-row" aria-expanded={open} onClick={() => setOpen(!open)}>
        <span>{group.label}</span>
        {amount !== '' && <span className="number assumed">{amount}</span>}
        <span className="number small quiet">
          {band === undefined || band[0] === band[1] ? '' : printBand(band[0], band[1], unit, true)}
        </span>
      </button>
      {open && <GiveValue basis={basis} done={() => setOpen(false)} />}
    </li>
  );
}
