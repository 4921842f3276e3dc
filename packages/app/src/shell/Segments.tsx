/** A choice of few, side by side: the chosen one on ink. */
import type { ReactElement } from 'react';

interface Props {
  readonly label: string;
  readonly value: string;
  readonly options: readonly (readonly [string, string])[];
  readonly choose: (value: string) => void;
  /** The label is only read out. */
  readonly silent?: boolean;
}

export function Segments({ label, value, options, choose, silent = false }: Props): ReactElement {
  return (
    <div>
      {!silent && <p className="small quiet">{label}</p>}
      <div className="segments" role="group" aria-label={label}>
        {options.map(([id, name]) => (
          <button key={id} type="button" aria-pressed={id === value} onClick={() => choose(id)}>
            {name}
          </button>
        ))}
      </div>
    </div>
  );
}
