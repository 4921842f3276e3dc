/** The best three facts to get next: what, how it is had, what it could change. */
import { basisText, factText, sentence, type Fact } from '@loomwright/engine';
import { useState, type ReactElement } from 'react';
import { GiveValue } from '../../findings/GiveValue.tsx';
import { useJudged } from '../../hooks.ts';
import { useStore } from '../../store/store.ts';
import { words } from '../../words.ts';
import type { FactId } from './facts.ts';
import { firstStore } from './first-store.ts';
import { missingFacts } from './missing.ts';

const MOST = 3;

export function WorthGetting({ take }: { readonly take: (id: FactId) => void }): ReactElement {
  const { answers, facts, view, standing } = useStore(firstStore, (state) => state);
  const missing = standing === 'other' ? [] : missingFacts(answers).slice(0, MOST);
  const ranked = (facts ?? []).slice(0, MOST - missing.length);
  const none = view !== null && missing.length === 0 && facts !== null && facts.length === 0;
  return (
    <section className="margin-pad worth">
      <h2>{words.worth.title}</h2>
      <ul className="rows">
        {missing.map(({ fact, what, how, changes }) => (
          <li key={what}>
            <button type="button" className="row worth-row" onClick={() => take(fact)}>
              <span className="strong">{what}</span>
              <span className="small changes">{changes}</span>
              <span className="how quiet">{how}</span>
            </button>
          </li>
        ))}
        {ranked.map((fact) => (
          <Ranked key={fact.basis.path} fact={fact} />
        ))}
      </ul>
      {facts === null && missing.length < MOST && <p className="small quiet">{words.worth.ranking}</p>}
      {none && <p className="small quiet">{words.worth.none}</p>}
    </section>
  );
}

function Ranked({ fact }: { readonly fact: Fact }): ReactElement {
  const [open, setOpen] = useState(false);
  const { judged } = useJudged();
  const titles = fact.closes.map((id) => judged?.findings.find((finding) => finding.id === id)?.title ?? id);
  return (
    <li>
      <button type="button" className="row worth-row" aria-expanded={open} onClick={() => setOpen(!open)}>
        <span className="strong">{sentence(basisText(fact.basis))}</span>
        <span className="small changes" />
        <span className="how quiet">
          {factText(fact).how}
          {titles.length > 0 &&
            `; could settle: ${[...new Set(titles)].slice(0, 2).join(', ').toLowerCase()}`}
        </span>
      </button>
      {open && <GiveValue basis={fact.basis} done={() => setOpen(false)} />}
    </li>
  );
}
