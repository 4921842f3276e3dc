/** The slip of a vehicle state: everything the survey may hold of it. */
import type { ReactElement } from 'react';
import type { StateHead } from '../../engine/survey.ts';
import { StateHands } from '../../marks/StateHands.tsx';
import { useStore } from '../../store/store.ts';
import { words } from '../../words.ts';
import { at, surveyStore } from './survey-store.ts';
import { ValueCell } from './ValueCell.tsx';

const FIELDS: readonly (readonly [readonly string[], string, string])[] = [
  [['posts', 'min'], 'Posts, least', '13.6 V'],
  [['posts', 'typical'], 'typical', '13.9 V'],
  [['posts', 'max'], 'most', '14.4 V'],
  [['output'], 'Supply gives', '95 A'],
  [['load'], 'Vehicle takes', '28 A'],
  [['lasts'], 'Lasts', '20 min'],
];

export function StateSlip({ state }: { readonly state: StateHead | null }): ReactElement | null {
  const notation = useStore(surveyStore, (all) => all.notation);
  if (state === null) return null;
  return (
    <div className="state-slip">
      <div className="state-slip-head">
        <StateHands state={state.id} size={22} />
        <b>{state.label}</b>
      </div>
      {FIELDS.map(([field, name, example]) => {
        const path = ['survey', state.id, ...field];
        return (
          <div key={field.join('.')} className="slip-value">
            <span className="small quiet">{name}</span>
            <ValueCell
              path={path}
              value={at(notation, path)}
              measured
              label={`${name}, ${state.label}`}
              example={example}
              ask={words.survey.read}
            />
          </div>
        );
      })}
    </div>
  );
}
