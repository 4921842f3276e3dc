/** The devices of a circuit, and those of them that each loop has to ask. */
import type { PortDevice } from './device.ts';

type List = readonly PortDevice<never>[];

export interface DeviceSet {
  readonly all: List;
  /** Those that have inner moves. */
  readonly moving: List;
  /** Those that may add unknown currents, each with its row. */
  readonly rowed: List;
  /** Those that come from no load by tangents, and have outer moves. */
  readonly powered: List;
}

export function deviceSet(all: List): DeviceSet {
  return {
    all,
    moving: all.filter((device) => device.moves),
    rowed: all.filter((device) => device.hasRows),
    powered: all.filter((device) => device.hasPower),
  };
}
