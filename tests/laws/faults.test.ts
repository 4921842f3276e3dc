/** Faults found by straight lines, on made-up circuits: where they are answered, they are what the circuit itself says. */
import { describe, expect, it } from 'vitest';
import { planCircuit } from '../../packages/engine/src/network/index.ts';
import { FaultFlows, straightNetOf } from '../../packages/engine/src/operate/fault-flow.ts';
import { drawCircuit, type Circuit, type Element } from '../oracles/generate.ts';
import { Random } from '../oracles/random.ts';

const CIRCUITS = 60;
const FAULTS = 40;

/** Converters off and no constant powers, as in a fault; often a second regulator beside the first, or one behind a thin wire. */
function straight(circuit: Circuit, random: Random): readonly Element[] {
  const list = circuit.elements.map((e): Element => {
    if (e.type === 'converter') return { ...e, on: false };
    return e.type === 'power' ? { ...e, watts: 0 } : e;
  });
  const hold = list.find((e) => e.type === 'hold');
  if (hold === undefined) return list;
  const twin = { ...hold, volts: random.pick([hold.volts, hold.volts, hold.volts - 0.4, hold.volts + 0.3]) };
  return random.chance(0.6) ? [...list, twin] : list;
}

describe('faults by straight lines', () => {
  it('are those of the circuit with the fault in it', () => {
    let answered = 0;
    let left = 0;
    for (let seed = 1; seed <= CIRCUITS; seed += 1) {
      const random = new Random(7_000 + seed);
      const circuit = drawCircuit(seed, {
        nodes: random.whole(26, 60),
        open: 0.15,
        piecewise: random.chance(0.5),
        converters: random.whole(1, 2),
        load: 0.6,
      });
      const elements = straight(circuit, random);
      const plan = planCircuit(circuit.nodeCount, circuit.reference, elements);
      const flows = FaultFlows.of(straightNetOf(plan, elements), elements, plan.solve(elements));
      if (flows === null) continue;
      for (let n = 0; n < FAULTS; n += 1) {
        const [a, b] = [random.whole(0, circuit.nodeCount - 1), random.whole(0, circuit.nodeCount - 1)];
        if (a === b) continue;
        const ohms = random.scale(1e-5, 10);
        const found = flows.flow(a, b, ohms);
        if (found === null) {
          left += 1;
          continue;
        }
        answered += 1;
        const faulted: Element[] = [...elements, { type: 'resistor', a, b, ohms }];
        const point = planCircuit(circuit.nodeCount, circuit.reference, faulted).solve(faulted);
        if (!point.settled) continue;
        const where = `circuit ${seed}, ${ohms} ohm between ${a} and ${b}`;
        const close = 2e-8 * (1 + Math.abs(point.current(elements.length)));
        expect(Math.abs(found.fault - point.current(elements.length)), where).toBeLessThan(close);
        elements.forEach((e, i) => {
          // Which of two regulators that hold the very same sends how much is not determined.
          if (e.type !== 'hold')
            expect(Math.abs(found.current(i) - point.current(i)), `${where}, element ${i}`).toBeLessThan(
              close,
            );
        });
      }
    }
    console.log(`faults by lines: ${answered} compared, ${left} left to the circuit`);
    expect(answered).toBeGreaterThan(left);
  });
});
