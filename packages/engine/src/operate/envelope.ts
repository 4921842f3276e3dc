/** Between which volts the posts of a build stand in a state. */
import type { Build, StateFacts } from '../contracts/index.ts';
import { envelopeOf, nominalVehicle, type Envelope } from '../conditions/index.ts';
import type { Values } from '../devices/values.ts';
import { airAt } from '../wiring/index.ts';
import type { PlacedParts } from './placed.ts';

/** Of the supply as it is placed, in the air of its place; null: nothing holds the posts. `variable`: its set point is moved by the vehicle. */
export function envelopeIn(
  state: StateFacts,
  build: Build,
  placed: PlacedParts,
  values: Values,
  variable: boolean,
): Envelope | null {
  const supplies = [...placed.parts.values()].filter((p) => p.ability.generates?.role === 'vehicle-supply');
  const at = supplies[0]?.at ?? null;
  return envelopeOf(
    state,
    supplies.flatMap((p) => p.ability.generates ?? []),
    values,
    {
      nominal: nominalVehicle(build),
      variable,
      unknownSupply: placed.vehicle.supply === 'unknown',
      hottestAir: airAt(build, values, at, 'hottest').sourced.value,
      coldestAir: airAt(build, values, at, 'coldest').sourced.value,
    },
  );
}
