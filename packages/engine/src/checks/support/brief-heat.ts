/** Brief states: the heat that they leave in each wire, by I²t against what it withstands. */
import type { Id, Operation, Solved } from '../../contracts/index.ts';
import { heatFraction } from '../../devices/index.ts';
import { briefOf } from './loading.ts';
import { perOperation } from './memo.ts';
import { clearlyLess } from './worst.ts';

export interface Brief {
  /** Share of what the wire withstands. */
  readonly heat: number;
  readonly amps: number;
  readonly seconds: number;
  readonly solved: Solved;
}

/** Where a wire gets hottest in a state under a minute; null: there is none. */
export const worstBrief = (op: Operation, wire: Id): Brief | null => briefsOf(op).get(wire) ?? null;

const briefsOf: (op: Operation) => ReadonlyMap<Id, Brief> = perOperation((op) => {
  const wires = [...op.wires.values()];
  const worst = new Map<Id, Brief>();
  for (const solved of briefOf(op)) {
    const seconds = op.stateFacts(solved.condition.state)?.lasts.sourced.value ?? 0;
    const currents = solved.rmsAmps;
    wires.forEach((wire, i) => {
      const amps = Math.abs(currents[i] ?? 0);
      const heat = heatFraction(amps * amps * seconds, wire.k.sourced.value, wire.areaMm2 ?? 0);
      const known = worst.get(wire.id);
      if (known === undefined || clearlyLess(known.heat, heat))
        worst.set(wire.id, { heat, amps, seconds, solved });
    });
  }
  return worst;
});
