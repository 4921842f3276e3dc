/** The six facts, two a row. */
import type { Answers } from '@loomwright/engine';
import type { ReactElement } from 'react';
import { knownOf, valueOf, type Fact, type FactId } from './facts.ts';

export interface FactsShown {
  readonly facts: readonly Fact[];
  readonly answers: Answers;
  readonly advised: string | null;
  readonly inHand: FactId | null;
  readonly take: (id: FactId) => void;
  /** The build did not begin with six facts: what they do not say is as drawn. */
  readonly drawn: boolean;
}

export function FactCells(shown: FactsShown): ReactElement {
  return (
    <div className="fact-cells" role="group" aria-label="Six facts">
      {shown.facts.map((fact) => (
        <FactButton key={fact.id} fact={fact} {...shown} />
      ))}
    </div>
  );
}

/** A fact with its value: solid line given, dotted not known, on the marker when in hand. */
export function FactButton({
  fact,
  answers,
  advised,
  inHand,
  take,
  drawn,
}: FactsShown & { readonly fact: Fact }): ReactElement {
  const known = knownOf(fact, answers);
  return (
    <button
      type="button"
      className="fact inset"
      aria-expanded={inHand === fact.id}
      onClick={() => take(fact.id)}
    >
      <span className="caption">{fact.name}</span>
      <span className={drawn ? 'value' : known === 'given' ? 'value given' : 'value assumed'}>
        {valueOf(fact, answers, advised, drawn)}
      </span>
    </button>
  );
}
