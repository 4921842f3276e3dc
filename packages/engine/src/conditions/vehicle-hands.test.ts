import { describe, expect, it } from 'vitest';
import { STATE_IDS, type StateId } from '../contracts/index.ts';
import { handChoices, handsOfState, stateOfHands, turned } from './vehicle-hands.ts';

const all = new Set<StateId>(STATE_IDS);
const combustion = new Set<StateId>(
  STATE_IDS.filter((id) => !['ready', 'plugged-in', 'overrun', 'automatic-stop'].includes(id)),
);

describe('hands of a vehicle', () => {
  it('every state comes back from its own hands', () => {
    for (const state of STATE_IDS) expect(stateOfHands(handsOfState(state), all)).toEqual({ state });
  });

  it('no two states share their hands', () => {
    const seen = new Set(STATE_IDS.map((state) => JSON.stringify(handsOfState(state))));
    expect(seen.size).toBe(STATE_IDS.length);
  });

  it('says which combination is no state', () => {
    const ready = { ...handsOfState('parked'), drive: 'ready' as const };
    expect(stateOfHands(ready, all)).toEqual({ state: null, says: 'drive ready with the key off' });
    const idle = turned(handsOfState('parked'), 'engine', 'idling', combustion);
    expect(stateOfHands(idle, combustion)).toEqual({ state: null, says: 'engine idling with the key off' });
    const late = turned(handsOfState('idling'), 'key', 'crank', combustion);
    expect(stateOfHands(late, combustion)).toEqual({ state: null, says: 'cranking with the engine idling' });
  });

  it('is turned as a vehicle is: crank, fire, drive, off, asleep', () => {
    let hands = handsOfState('parked');
    const walk = (hand: Parameters<typeof turned>[1], to: string): StateId | null => {
      hands = turned(hands, hand, to, combustion);
      return stateOfHands(hands, combustion).state;
    };
    expect(walk('key', 'on')).toBe('ignition-on');
    expect(walk('key', 'crank')).toBe('cranking');
    expect(walk('engine', 'idling')).toBe('idling');
    expect(hands.key).toBe('on');
    expect(walk('engine', 'driving')).toBe('driving');
    expect(walk('key', 'off')).toBe('after-run');
    expect(walk('vehicle', 'asleep')).toBe('parked');
  });

  it('offers only the hands that the vehicle has', () => {
    expect(handChoices(combustion).map((choice) => choice.hand)).toEqual(['key', 'engine', 'vehicle']);
    expect(handChoices(new Set<StateId>(['parked', 'stored']))).toEqual([
      { hand: 'key', positions: ['off', 'on'] },
    ]);
  });
});
