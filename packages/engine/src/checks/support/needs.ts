/** What a verdict on a loop and its charger cannot do without. */
import type { Need, Operation } from '../../contracts/index.ts';
import type { Charger } from './charger.ts';
import { distinctNeeds, need, partNeed } from './figures-needed.ts';
import type { Hop } from './net.ts';
import { wiresOf } from './feed.ts';

/** Sizes and lengths of a way that nobody gave. */
export function wayNeeds(op: Operation, hops: readonly Hop[]): readonly Need[] {
  const unknown = wiresOf(hops).flatMap((id) => {
    const wire = op.wires.get(id);
    return wire === undefined || wire.ohms20 !== null ? [] : [wire];
  });
  return distinctNeeds(
    unknown.flatMap((wire) => [
      ...(wire.areaMm2 === null
        ? [
            need(
              `wires.${wire.id}.size`,
              `size of ${wire.id}`,
              'without it the wire has no resistance',
              'read it on the cable',
            ),
          ]
        : []),
      ...(wire.length === null
        ? [
            need(
              `wires.${wire.id}.length`,
              `length of ${wire.id}`,
              'without it the wire has no resistance',
              'lay a string along the way and measure it',
              'tape',
            ),
          ]
        : []),
    ]),
  );
}

/** Rated current and enable mode, where nobody gave them. */
export function chargerNeeds(c: Charger): readonly Need[] {
  return [
    ...(c.does.current === null ? [partNeed(c.part.id, 'current', 'its power follows from it')] : []),
    ...modeNeeds(c),
    ...roleNeeds(c),
  ];
}

/** Whether the vehicle's battery feeds it, where nobody said which battery that is. */
export const roleNeeds = (c: Charger): readonly Need[] => {
  const battery = c.feed?.part;
  return battery?.ability.stores?.role === null
    ? [partNeed(battery.id, 'role', 'whether the engine charges it follows from what battery it is')]
    : [];
};

/** What switches it on, where nobody said. */
export const modeNeeds = (c: Charger): readonly Need[] =>
  c.does.mode === null
    ? [partNeed(c.part.id, 'enable', 'its thresholds follow from what switches it on')]
    : [];
