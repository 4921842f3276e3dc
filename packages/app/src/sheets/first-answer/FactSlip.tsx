/** The choices of the fact in hand, each with what it would do to the answer. */
import { useEffect, useState, type FormEvent, type ReactElement } from 'react';
import { Problem } from '../../marks/Problem.tsx';
import { useStore } from '../../store/store.ts';
import { showSheet } from '../../view-store.ts';
import { words } from '../../words.ts';
import { effectWords } from './effect.ts';
import { isChosen, type Choice, type Fact } from './facts.ts';
import { answersKey, firstStore, giveFacts, tryChoices, withAnswers } from './first-store.ts';

interface Props {
  readonly fact: Fact;
  readonly goOn: () => void;
  readonly letGo: () => void;
}

export function FactSlip({ fact, goOn, letGo }: Props): ReactElement {
  const { answers, view, trials, standing } = useStore(firstStore, (state) => state);
  const settled = view !== null && answersKey(view.answers) === answersKey(answers);
  useEffect(() => {
    if (settled) void tryChoices(fact);
    // oxlint-disable-next-line react/exhaustive-deps -- a fact is made anew with the answers; its id is what counts
  }, [settled, fact.id, answers]);

  const choose = async (choice: Choice, last: boolean): Promise<void> => {
    const problem = await giveFacts(choice.gives, `${fact.name}: ${choice.label}.`);
    if (problem === '' && last) goOn();
  };
  const effectOf = (choice: Choice): string => {
    if (fact.many || standing === 'other' || view === null) return '';
    const then = trials.get(answersKey(withAnswers(answers, choice.gives(answers))));
    return then === undefined ? words.first.trying : effectWords(view.rows, then);
  };
  return (
    <div className="fact-slip">
      <div className="fact-slip-head">
        <h2>
          <b>{fact.name}</b> <span>{fact.more}</span>
        </h2>
        <button type="button" className="button plain" onClick={letGo}>
          {fact.many ? words.first.thatIsAll : words.close}
        </button>
      </div>
      <div className="fact-slip-body">
        {standing === 'other' && <AsDrawn />}
        {(standing === 'other' ? [] : fact.groups).map((group) => (
          <div
            key={`${group.caption}${group.last}`}
            className={group.last ? 'choices' : 'choices ticks'}
            role="group"
            aria-label={group.caption === '' ? fact.name : group.caption}
          >
            {group.caption !== '' && <p className="fine quiet">{group.caption}</p>}
            <div className="choice-row">
              {group.choices.map((choice) => (
                <button
                  key={choice.label}
                  type="button"
                  className="choice inset"
                  aria-pressed={isChosen(fact, choice, answers)}
                  onClick={() => void choose(choice, group.last)}
                >
                  <span className="strong">{choice.label}</span>
                  <span className="small effect">{group.last ? effectOf(choice) : ''}</span>
                </button>
              ))}
            </div>
          </div>
        ))}
        {standing !== 'other' && fact.typed !== null && <Typed fact={fact} goOn={goOn} />}
      </div>
    </div>
  );
}

/** A drawn build is changed where it was drawn. */
function AsDrawn(): ReactElement {
  return (
    <div className="typed">
      <p>{words.first.asDrawn}</p>
      <button type="button" className="button" onClick={() => showSheet('wiring')}>
        {words.first.toDrawing}
      </button>
    </div>
  );
}

function Typed({ fact, goOn }: { readonly fact: Fact; readonly goOn: () => void }): ReactElement | null {
  const [text, setText] = useState('');
  const [problem, setProblem] = useState('');
  const { typed } = fact;
  if (typed === null) return null;
  const keep = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (text.trim() === '') return;
    const found = await giveFacts({ [typed.name]: text.trim() }, `${fact.name}: ${text.trim()}.`);
    setProblem(found);
    if (found === '') goOn();
  };
  return (
    <form className="typed" onSubmit={(event) => void keep(event)}>
      <label className="field">
        <span className="label">
          {typed.label}, such as {typed.example}
        </span>
        <input
          value={text}
          onChange={(event) => setText(event.target.value)}
          aria-invalid={problem !== ''}
          autoComplete="off"
          enterKeyHint="done"
        />
      </label>
      <button type="submit" className="button">
        {words.keep}
      </button>
      <Problem says={problem} />
    </form>
  );
}
