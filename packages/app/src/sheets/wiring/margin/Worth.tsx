/** Three facts worth getting: what, how it is had, which findings it could change; pressed, its field opens. */
import { basisText, factText, sentence, type Fact } from '@loomwright/engine';
import { useEffect, useState, type ReactElement } from 'react';
import { atRest } from '../../../engine/at-rest.ts';
import { isInSteps, NewestDesk } from '../../../engine/newest.ts';
import { GiveValue } from '../../../findings/GiveValue.tsx';
import { useJudgedNow, useText } from '../../../hooks.ts';
import { VerdictMark } from '../../../marks/VerdictMark.tsx';
import { words } from '../../../words.ts';
import { own } from '../words.ts';
import type { Numbered } from './numbered.ts';

const MOST = 3;

/** Ranking takes long, so it has a desk of its own: nothing else waits for it. */
const ranking = new NewestDesk();
/** It begins once nothing was changed for this long, ms. */
const CALM = 500;

export function Worth({ list }: { readonly list: readonly Numbered[] }): ReactElement {
  const facts = useFacts();
  return (
    <section className="margin-pad worth">
      <h2>{words.worth.title}</h2>
      {facts === null && <p className="small quiet">{own.worthAsking}</p>}
      {facts?.length === 0 && <p className="small quiet">{own.worthNone}</p>}
      <ul className="rows">
        {facts?.slice(0, MOST).map((fact) => (
          <Row key={fact.basis.path} fact={fact} list={list} />
        ))}
      </ul>
    </section>
  );
}

/** Ranked once the findings of the present text are there; null meanwhile. */
function useFacts(): readonly Fact[] | null {
  const text = useText();
  const fresh = useJudgedNow();
  const [facts, setFacts] = useState<readonly Fact[] | null>(null);
  useEffect(() => {
    let stale = false;
    if (!fresh || text === null) return undefined;
    const begin = (): void =>
      void ranking
        .ask(text, async (desk) => await desk.facts(text), isInSteps(text))
        .then((found) => {
          if (stale || found === null) return;
          setFacts(found);
          off();
        });
    const off = atRest({ begin, leave: () => ranking.newest(null), calm: CALM });
    return () => {
      stale = true;
      off();
    };
  }, [text, fresh]);
  return facts;
}

function Row({ fact, list }: { readonly fact: Fact; readonly list: readonly Numbered[] }): ReactElement {
  const [open, setOpen] = useState(false);
  const closes = list.filter(({ finding }) => fact.closes.includes(finding.id));
  return (
    <li>
      <button type="button" className="row worth-row" aria-expanded={open} onClick={() => setOpen(!open)}>
        <span className="strong">{sentence(basisText(fact.basis))}</span>
        <span className="worth-marks">
          {closes.slice(0, 3).map(({ finding, number }) => (
            <VerdictMark
              key={finding.id}
              verdict={finding.verdict}
              number={number ?? undefined}
              label={`could change ${finding.title}`}
            />
          ))}
        </span>
        <span className="how small quiet">{factText(fact).how}</span>
      </button>
      {open && <GiveValue basis={fact.basis} done={() => setOpen(false)} />}
    </li>
  );
}
