/** The state on view: its name first, then how the hands stand. Here they are only shown; they are turned on Try it. */
import { handsOfState, positionWords, stateWords, type HandName, type StateId } from '@loomwright/engine';
import { useEffect, type ReactElement } from 'react';
import type { LiveVehicle, StateLook } from '../../engine/live-desk.ts';
import { HandMark, type HandMarkName } from '../../marks/HandMark.tsx';
import { sheetKeys } from '../../shell/keys.ts';
import { viewStore } from '../../view-store.ts';
import { own } from './words.ts';

interface Props {
  readonly vehicle: LiveVehicle;
  readonly state: StateId;
  readonly looks: readonly StateLook[];
  readonly look: number;
  readonly chooseLook: (index: number) => void;
  readonly phone: boolean;
}

const show = (state: StateId): void => viewStore.set({ vehicleState: state });

export function StateView({ vehicle, state, looks, look, chooseLook, phone }: Props): ReactElement {
  const { states } = vehicle;
  const step = (by: number): void => {
    const at = states.findIndex((each) => each.id === viewStore.get().vehicleState || each.id === state);
    const next = states[(at + by + states.length) % states.length];
    if (next !== undefined) show(next.id);
  };
  useEffect(() => sheetKeys({ ',': () => step(-1), '.': () => step(1) }));
  return (
    <>
      <div className="state-name">
        <button type="button" className="button plain" aria-label={own.before} onClick={() => step(-1)}>
          <Arrow back />
        </button>
        <label>
          <span className="caption">{own.state}</span>
          <select value={state} onChange={(event) => show(event.target.value as StateId)}>
            {states.map(({ id, label }) => (
              <option key={id} value={id}>
                {label}
              </option>
            ))}
          </select>
        </label>
        <button type="button" className="button plain" aria-label={own.after} onClick={() => step(1)}>
          <Arrow />
        </button>
      </div>
      {looks.length > 1 && (
        <div className="segments" role="group" aria-label={own.state}>
          {looks.map(({ cameFrom }, i) => (
            // oxlint-disable-next-line react/no-array-index-key -- ways have no other name
            <button key={i} type="button" aria-pressed={i === look} onClick={() => chooseLook(i)}>
              {own.came(stateWords(cameFrom.at(-1) ?? ''))}
            </button>
          ))}
        </div>
      )}
      {!phone && <Hands vehicle={vehicle} state={state} />}
    </>
  );
}

export function Arrow({ back = false }: { readonly back?: boolean }): ReactElement {
  return (
    <svg width="14" height="20" viewBox="0 0 14 20" aria-hidden="true">
      <path d={back ? 'M11 3 4 10l7 7' : 'm3 3 7 7-7 7'} fill="none" stroke="currentColor" strokeWidth="3" />
    </svg>
  );
}

const NAMES: Readonly<Record<HandName, string>> = {
  key: 'Key',
  engine: 'Engine',
  drive: 'Drive',
  vehicle: 'Vehicle',
  lead: 'Charging lead',
};

export const handName = (hand: HandName): string => NAMES[hand];

export const markOf = (hand: HandName, position: string): HandMarkName =>
  `${hand}-${position}` as HandMarkName;

/** At most this many contacts have room in the line. */
const CONTACTS = 3;

function Hands({ vehicle, state }: { readonly vehicle: LiveVehicle; readonly state: StateId }): ReactElement {
  const hands = handsOfState(state);
  const shown = vehicle.hands.filter(({ hand }) => (hand === 'vehicle' ? hands.key === 'off' : true));
  const stored = state === 'stored';
  const contacts = vehicle.contacts
    .filter(
      (each) => each.type === 'switch' || each.type === 'isolator' || (each.type === 'breaker' && each.owner),
    )
    .toSorted((a, b) => Number(b.owner) - Number(a.owner))
    .slice(0, CONTACTS);
  return (
    <>
      {shown.map(({ hand }) => (
        <Hand
          key={hand}
          mark={markOf(hand, hands[hand])}
          caption={handName(hand)}
          value={positionWords(hands[hand])}
        />
      ))}
      {contacts.map(({ part, type, name, closed, storedOpen }) => {
        const now = closed && !(stored && storedOpen);
        const mark =
          type === 'switch' ? (now ? 'switch-on' : 'switch-off') : now ? 'contact-closed' : 'contact-open';
        const value = type === 'switch' ? (now ? 'on' : 'off') : now ? 'closed' : 'open';
        return <Hand key={part} mark={mark} caption={name} value={value} />;
      })}
    </>
  );
}

function Hand({
  mark,
  caption,
  value,
}: {
  readonly mark: HandMarkName;
  readonly caption: string;
  readonly value: string;
}): ReactElement {
  return (
    <div className="hand">
      <HandMark name={mark} />
      <div className="words">
        <span className="caption">{caption}</span>
        <span className="value">{value}</span>
      </div>
    </div>
  );
}
