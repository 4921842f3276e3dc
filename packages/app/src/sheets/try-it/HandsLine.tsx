/** The hands, large enough to be turned: key, engine or drive, switches, isolators, breakers; and the time. */
import { positionWords, stateWords, type HandName } from '@loomwright/engine';
import type { ReactElement, ReactNode } from 'react';
import { HandMark, type HandMarkName } from '../../marks/HandMark.tsx';
import { useStore } from '../../store/store.ts';
import { handName, markOf } from '../wiring/StateView.tsx';
import { isClosed, setContact, setRate, tryStore, turn, type Rate } from './try-store.ts';
import { own } from './words.ts';

const RATES: readonly Rate[] = ['hold', 'x1', 'x60'];
/** Contacts that stand in the line; fuses are pulled on trial. */
const MOST = 4;

export function HandsLine({ phone }: { readonly phone: boolean }): ReactElement {
  const vehicle = useStore(tryStore, (now) => now.vehicle);
  const hands = useStore(tryStore, (now) => now.hands);
  const rate = useStore(tryStore, (now) => now.rate);
  const contactsNow = useStore(tryStore, (now) => now.contacts);
  const opened = useStore(tryStore, (now) => now.opened);
  const state = useStore(tryStore, (now) => now.state);
  const none = useStore(tryStore, (now) => now.none);
  const cameFrom = useStore(tryStore, (now) => now.cameFrom);
  const clock = useStore(tryStore, (now) => clockWords(now.clock));
  if (vehicle === null) return <p className="quiet">{own.loading}</p>;
  const contacts = vehicle.contacts
    .filter((each) => each.type !== 'fuse')
    .toSorted((a, b) => Number(b.owner) - Number(a.owner))
    .slice(0, MOST);
  return (
    <div className="hands-line" role="group" aria-label={own.hands}>
      <div className="hands-state" aria-live="polite">
        <span className="caption">{own.state}</span>
        <b>{state === null ? own.noState(none) : stateWords(state)}</b>
        {!phone && state !== null && cameFrom !== null && (
          <span className="small quiet">{own.came(stateWords(cameFrom))}</span>
        )}
      </div>
      <div className="hands-turn">
        {vehicle.hands
          .filter(({ hand }) => hand !== 'vehicle' || hands.key === 'off')
          .map(({ hand, positions }) => (
            <Turnable key={hand} mark={markOf(hand, hands[hand])} caption={handName(hand)}>
              {positions.map((position) => (
                <Position
                  key={position}
                  name={positionWords(position)}
                  on={hands[hand] === position}
                  press={() => turn(hand, position)}
                />
              ))}
            </Turnable>
          ))}
        {contacts.map(({ part, name, type }) => {
          const closed = isClosed({ contacts: contactsNow, opened }, part);
          const isSwitch = type === 'switch';
          const mark = isSwitch
            ? closed
              ? 'switch-on'
              : 'switch-off'
            : closed
              ? 'contact-closed'
              : 'contact-open';
          const [offWord, onWord] = isSwitch
            ? [own.off, own.on]
            : [type === 'breaker' ? own.tripped : own.open, own.closed];
          return (
            <Turnable key={part} mark={mark} caption={name}>
              <Position name={offWord} on={!closed} press={() => setContact(part, false)} />
              <Position name={onWord} on={closed} press={() => setContact(part, true)} />
            </Turnable>
          );
        })}
      </div>
      <Turnable mark="time" caption={`${own.time} ${clock}`}>
        {RATES.map((each) => (
          <Position key={each} name={own.rates[each]} on={rate === each} press={() => setRate(each)} />
        ))}
      </Turnable>
    </div>
  );
}

interface TurnableProps {
  readonly mark: HandMarkName;
  readonly caption: string;
  readonly children: ReactNode;
}

function Turnable({ mark, caption, children }: TurnableProps): ReactElement {
  return (
    <div className="turnable" role="group" aria-label={caption}>
      <HandMark name={mark} size={36} />
      <div>
        <span className="caption">{caption}</span>
        <div className="segments">{children}</div>
      </div>
    </div>
  );
}

interface PositionProps {
  readonly name: string;
  readonly on: boolean;
  readonly press: () => void;
}

const Position = ({ name, on, press }: PositionProps): ReactElement => (
  <button type="button" aria-pressed={on} onClick={press}>
    {name}
  </button>
);

const two = (n: number): string => String(n).padStart(2, '0');

/** `00:53`, `2:05:10`. */
export function clockWords(ms: number): string {
  const seconds = Math.floor(ms / 1000);
  const hours = Math.floor(seconds / 3600);
  const rest = `${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
  return hours === 0 ? rest : `${hours}:${rest}`;
}

/** The next position of a hand, for its key. */
export function stepHand(hand: HandName, by: number): void {
  const { vehicle, hands } = tryStore.get();
  const positions = vehicle?.hands.find((each) => each.hand === hand)?.positions;
  if (positions === undefined) return;
  const at = positions.indexOf(hands[hand]);
  const next = positions[(at + by + positions.length) % positions.length];
  if (next !== undefined) turn(hand, next);
}

/** Moves the first contact of a type. */
export function flip(types: readonly string[]): void {
  const now = tryStore.get();
  const contact = now.vehicle?.contacts
    .toSorted((a, b) => Number(b.owner) - Number(a.owner))
    .find((each) => types.includes(each.type));
  if (contact !== undefined) setContact(contact.part, !isClosed(now, contact.part));
}
