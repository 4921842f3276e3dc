/** The two hands by which a vehicle state is known at a glance. */
import type { StateId } from '@loomwright/engine';
import type { ReactElement } from 'react';
import { HandMark, type HandMarkName } from './HandMark.tsx';

const HANDS: Readonly<Record<StateId, readonly [HandMarkName, HandMarkName]>> = {
  parked: ['key-off', 'vehicle-asleep'],
  woken: ['key-off', 'vehicle-awake'],
  'after-run': ['key-off', 'vehicle-falling-asleep'],
  'ignition-on': ['key-on', 'engine-stopped'],
  cranking: ['key-crank', 'engine-stopped'],
  idling: ['key-on', 'engine-idling'],
  driving: ['key-on', 'engine-driving'],
  overrun: ['key-on', 'engine-overrun'],
  'automatic-stop': ['key-on', 'engine-paused'],
  ready: ['key-on', 'drive-ready'],
  'plugged-in': ['key-off', 'lead-in'],
  stored: ['key-off', 'contact-open'],
};

export function StateHands({
  state,
  size = 24,
}: {
  readonly state: StateId;
  readonly size?: number;
}): ReactElement {
  const [first, second] = HANDS[state];
  return (
    <span className="state-hands" aria-hidden="true">
      <HandMark name={first} size={size} />
      <HandMark name={second} size={size} />
    </span>
  );
}
