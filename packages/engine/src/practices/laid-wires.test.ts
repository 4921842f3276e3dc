import { describe, expect, it } from 'vitest';
import type { Ampacity, Insulation, Practice } from '../contracts/index.ts';
import { steadyTemperature } from '../devices/heat.ts';
import { makeValues, NOMINAL } from '../devices/values.ts';
import { europe, northAmerica } from './index.ts';
import { ampacityOf, ampsAt, layWires } from '../wiring/index.ts';
import { given, place, route, smallBuild, wire } from '../wiring/testing/small-build.ts';

interface Case {
  readonly size: string;
  readonly insulation?: Insulation;
  readonly hottest?: number;
  readonly engineSpace?: boolean;
  readonly in?: 'free' | 'conduit' | 'loom' | 'bundle' | 'spaced';
  readonly wall?: number;
  readonly material?: 'copper' | 'cca';
}

function laid(c: Case) {
  const over = { hottest: given(c.hottest ?? 30), engineSpace: c.engineSpace ?? false };
  const build = smallBuild({
    places: [place('a', over), place('b', { hottest: given(20) })],
    routes: [
      route('a', 'b', 2, {
        in: c.in ?? 'conduit',
        ...(c.wall === undefined ? {} : { insulatedWall: given(c.wall) }),
      }),
    ],
    at: { p: 'a', q: 'b' },
    wires: [
      wire('w', 'p.1', 'q.1', c.size, {
        insulation: c.insulation ?? 'pvc-105',
        material: c.material ?? 'copper',
      }),
    ],
  });
  const found = layWires(build, makeValues(NOMINAL)).get('w');
  if (found === undefined) throw new Error('no wire');
  return found;
}

const asked = (c: Case, practice: Practice, count = 1): readonly Ampacity[] =>
  ampacityOf(laid(c), [count], practice, makeValues(NOMINAL));
const amps = (c: Case, practice: Practice, count = 1): number | null =>
  asked(c, practice, count)[0]?.amps ?? null;

describe('ampacity by 33 CFR 183.425', () => {
  it('of 10 AWG, 105 °C, in an engine space of 50 °C is 51 A (60 x 0.85)', () => {
    expect(amps({ size: '10 AWG', hottest: 50, engineSpace: true }, northAmerica)).toBeCloseTo(51, 9);
  });

  it.each([
    // UL 1426 cable table of a cable maker, 105 °C: size, conductors, engine space, A.
    ['16 AWG', 1, false, 25],
    ['4/0 AWG', 2, false, 445],
    ['18 AWG', 3, false, 14],
    ['4 AWG', 3, false, 112],
    ['2/0 AWG', 5, false, 198],
    ['12 AWG', 7, false, 22.5],
    ['1 AWG', 24, false, 122.5],
    ['14 AWG', 2, true, 29.8],
    ['6 AWG', 2, true, 102],
    ['4/0 AWG', 1, true, 378.3],
    ['8 AWG', 3, true, 47.6],
    ['1/0 AWG', 3, true, 169.6],
    ['10 AWG', 4, true, 30.6],
    ['6 AWG', 6, true, 61.2],
    ['2/0 AWG', 10, true, 140.3],
  ] as const)(
    '%s with %d conductors together, engine space %s: %d A',
    (size, count, engineSpace, printed) => {
      const hottest = engineSpace ? 50 : 30;
      expect(
        Math.abs((amps({ size, hottest, engineSpace }, northAmerica, count) ?? 0) - printed),
      ).toBeLessThan(0.06);
    },
  );

  it('in an engine space hotter than 50 °C takes the smaller of both factors, never both', () => {
    const found = asked({ size: '8 AWG', hottest: 80, engineSpace: true }, northAmerica)[0];
    expect(found?.amps).toBeCloseTo(80 * Math.sqrt(25 / 75), 9);
    expect(found?.factors.map((f) => f.label)).toEqual(['air of 80 °C']);
  });

  it('takes metric copper by the next smaller row', () => {
    // 25 mm² -> 4 AWG (21.2 mm²): 160 A; 16 mm² -> 6 AWG: 120 A; 50 mm² -> 1 AWG: 245 A.
    expect(amps({ size: '25 mm2' }, northAmerica)).toBe(160);
    expect(amps({ size: '16 mm2' }, northAmerica)).toBe(120);
    expect(amps({ size: '50 mm2' }, northAmerica)).toBe(245);
    // 4 SAE has less copper than 4 AWG: the 6 AWG row.
    expect(amps({ size: '4 SAE' }, northAmerica)).toBe(120);
  });

  it('takes the next lower column of insulation, with its own rating for the air', () => {
    // 70 °C reads the 60 °C column: 4 AWG 105 A; air of 50 °C: sqrt(20/40).
    expect(amps({ size: '4 AWG', insulation: 'pvc-70', hottest: 50 }, northAmerica)).toBeCloseTo(
      105 * Math.sqrt(0.5),
      9,
    );
  });

  it('is none where the air is as hot as the insulation may be', () => {
    const found = asked({ size: '4 AWG', insulation: 'pvc-70', hottest: 70 }, northAmerica)[0];
    expect(found?.amps).toBeNull();
    expect(found?.reason).toMatch(/as hot as the insulation/);
  });

  it('below the smallest size is 5 A per mm², a band of common practice', () => {
    const found = asked({ size: '0.75 mm2' }, northAmerica)[0];
    expect(found?.amps).toBeCloseTo(3.75, 9);
    expect(found?.base?.sourced).toMatchObject({ prov: 'practice', band: [2.25, 4.5] });
    const slack = ampacityOf(
      laid({ size: '0.75 mm2' }),
      [1],
      northAmerica,
      makeValues({ ...NOMINAL, push: 'slack' }),
    );
    expect(slack[0]?.amps).toBeCloseTo(2.25, 9);
  });

  it('of copper-clad aluminium is not known', () => {
    expect(amps({ size: '25 mm2', material: 'cca' }, northAmerica)).toBeNull();
  });

  it('above the largest size is not known', () => {
    expect(amps({ size: '120 mm2' }, northAmerica)).toBeNull();
  });

  it('in wall insulation falls to 0.89, 0.55 and half', () => {
    expect(amps({ size: '4 AWG', wall: 0.05 }, northAmerica)).toBeCloseTo(160 * 0.89, 9);
    expect(amps({ size: '4 AWG', wall: 0.4 }, northAmerica)).toBeCloseTo(160 * 0.55, 9);
    expect(amps({ size: '4 AWG', wall: 2 }, northAmerica)).toBeCloseTo(80, 9);
  });
});

describe('ampacity by IEC 60364-5-52', () => {
  it.each([
    // Cells as printed in machine makers' instruction books (three loaded conductors).
    ['16 mm2', 'pvc-70', 'conduit', 30, 62],
    ['16 mm2', 'pvc-70', 'loom', 40, 54],
    ['25 mm2', 'pvc-70', 'bundle', 45, 63],
    ['50 mm2', 'pvc-70', 'conduit', 55, 72],
    ['10 mm2', 'pvc-70', 'free', 40, 50],
    ['16 mm2', 'pvc-70', 'spaced', 30, 76],
    ['25 mm2', 'pvc-70', 'free', 30, 110],
    ['35 mm2', 'xlpe-90', 'free', 50, 139],
    ['120 mm2', 'xlpe-90', 'spaced', 55, 291],
  ] as const)('%s %s %s at %d °C is %d A', (size, insulation, how, hottest, printed) => {
    expect(amps({ size, insulation, in: how, hottest }, europe)).toBe(printed);
  });

  it('takes the next hotter column of air', () => {
    expect(amps({ size: '16 mm2', insulation: 'pvc-70', hottest: 41 }, europe)).toBe(49);
  });

  it('beyond 55 °C goes on by the square-root rule with the rating of the wire', () => {
    // 25 mm² B2, 70 °C column, 55 °C air: 49 A; pvc-105 in 80 °C: x sqrt(25/50).
    const c: Case = { size: '25 mm2', hottest: 80, engineSpace: true };
    expect(amps(c, europe)).toBeCloseTo(49 * Math.sqrt(0.5), 9);
  });

  it('in an engine space counts at least 50 °C', () => {
    expect(amps({ size: '25 mm2', insulation: 'pvc-70', hottest: 40, engineSpace: true }, europe)).toBe(57);
  });

  it('is followed by the table from memory', () => {
    const [iec, iso] = asked({ size: '25 mm2' }, europe);
    expect(iec?.amps).toBe(80);
    expect(iso?.amps).toBe(170);
    expect(iec?.base?.sourced.prov).toBe('seen');
    expect(iso?.base?.sourced.prov).toBe('memory');
    expect(iso?.base?.path).toBe('table:ampacity/iso-13297');
  });

  it('counts as confirmed where the build confirms the table', () => {
    const values = makeValues(NOMINAL, new Set(['table:ampacity/iso-13297']));
    expect(ampacityOf(laid({ size: '25 mm2' }), [1], europe, values)[1]?.base?.sourced.prov).toBe(
      'confirmed',
    );
  });
});

describe('the worst stretch', () => {
  it('governs', () => {
    const build = smallBuild({
      places: [
        place('a', { hottest: given(80) }),
        place('b', { hottest: given(30) }),
        place('c', { hottest: given(30) }),
      ],
      routes: [route('a', 'b', 1, { in: 'free' }), route('b', 'c', 2, { in: 'conduit' })],
      at: { p: 'a', q: 'c' },
      wires: [wire('w', 'p.1', 'q.1', '4 AWG', { insulation: 'pvc-105' })],
    });
    const w = layWires(build, makeValues(NOMINAL)).get('w');
    if (w === undefined) throw new Error('no wire');
    const hot = ampacityOf(w, [1, 4], northAmerica, makeValues(NOMINAL))[0];
    expect(hot?.amps).toBeCloseTo(160 * Math.sqrt(25 / 75), 9);
    const bundled = ampacityOf(w, [1, 7], northAmerica, makeValues(NOMINAL))[0];
    expect(bundled?.amps).toBeCloseTo(80, 9);
    expect(bundled?.bundled).toBe(7);
  });
});

describe('for predicting a temperature', () => {
  it('more than the table may be carried in cool air', () => {
    const amps = ampsAt(laid({ size: '8 AWG' }), 20, [1], northAmerica, makeValues(NOMINAL));
    expect(amps).toBeCloseTo(80 * Math.sqrt(85 / 75), 9);
  });

  it('an engine space in cool air is only air', () => {
    const w = laid({ size: '8 AWG', hottest: 80, engineSpace: true });
    const at = (air: number) => ampsAt(w, air, [1], northAmerica, makeValues(NOMINAL));
    expect(at(20)).toBeCloseTo(80 * Math.sqrt(85 / 75), 9);
    expect(at(50)).toBeCloseTo(68, 9);
    expect(at(80)).toBeCloseTo(80 * Math.sqrt(25 / 75), 9);
  });

  it('8 AWG at 100 A in an engine space of 50 °C reaches 169 °C', () => {
    const w = laid({ size: '8 AWG', hottest: 50, engineSpace: true });
    const amps = ampsAt(w, 50, [1], northAmerica, makeValues(NOMINAL));
    expect(steadyTemperature(50, w.rating, 100, amps)?.celsius).toBeCloseTo(168.9, 1);
  });

  it('below 30 °C works with the tables of Europe too', () => {
    const wire = laid({ size: '16 mm2', insulation: 'pvc-70' });
    const amps = ampsAt(wire, 0, [1], europe, makeValues(NOMINAL));
    expect(amps).toBeCloseTo(62 * Math.sqrt(70 / 40), 9);
  });
});
