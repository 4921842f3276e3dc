import { describe, expect, it } from 'vitest';
import {
  checkAlone,
  compareDense,
  compareSpice,
  compareTransients,
  counts,
  type Comparison,
} from './compare.ts';
import { Spice } from './spice.ts';

const LONG = 1_800_000;
const wanted = counts(process.env);

/** States the number of discarded draws and checks that they are few. */
function check(name: string, count: number, result: Comparison): void {
  console.log(
    `${name}: ${result.compared} compared, ${result.discarded} discarded, ${result.several} with several solutions, worst ${result.worst.toExponential(1)}`,
  );
  expect(result.faults).toEqual([]);
  expect(result.compared).toBe(count);
  expect(result.discarded).toBeLessThanOrEqual(0.2 * (result.compared + result.discarded));
}

describe('operating points against ngspice', () => {
  const spice = new Spice();

  it(
    'ordinary circuits agree within 1e-6 V',
    async () => {
      check('ngspice', wanted.points, await compareSpice(spice, wanted.points, wanted.seed, false));
    },
    LONG,
  );

  it(
    'circuits with curves, input limits and low-input rules agree within 1e-6 V',
    async () => {
      check(
        'ngspice, piecewise',
        wanted.piecewise,
        await compareSpice(spice, wanted.piecewise, wanted.seed, true),
      );
    },
    LONG,
  );

  it(
    'hunting agrees in period and mean current within 2 %',
    async () => {
      check(
        'ngspice in time',
        wanted.transients,
        await compareTransients(spice, wanted.transients, wanted.seed),
      );
    },
    LONG,
  );

  it('reports a run that does not converge instead of the vectors of the run before', async () => {
    const good = ['divider', 'V1 a 0 10', 'R1 a b 1', 'R2 b 0 1', '.op', '.end', ''].join('\n');
    expect((await spice.run(good))?.get('v(b)')?.[0]).toBeCloseTo(5, 9);
    const impossible = ['two sources', 'V1 a 0 10', 'V2 a 0 5', 'R2 a 0 1', '.op', '.end', ''].join('\n');
    expect(await spice.run(impossible)).toBeNull();
  });
});

describe('operating points against dense elimination and brute force', () => {
  it(
    'agree within 1e-8 V, also where inputs collapse or several solutions exist',
    async () => {
      check('dense', wanted.dense, await compareDense(wanted.dense, wanted.seed));
    },
    LONG,
  );
});

describe('operating points by themselves', () => {
  it(
    'balance and obey every law of their elements; at most 1 in 2,000 does not settle, and says so',
    () => {
      const result = checkAlone(wanted.alone, wanted.seed);
      check('alone', wanted.alone, result);
      expect(result.discarded).toBeLessThanOrEqual(Math.floor(wanted.alone / 2000));
    },
    LONG,
  );
});
