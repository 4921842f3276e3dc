import { describe, expect, it } from 'vitest';
import type { Assumption, Build, LaidWire } from '../contracts/index.ts';
import { makeValues, NOMINAL } from '../devices/values.ts';
import { airAt } from './ambient.ts';
import { layWires } from './lay.ts';
import { given, place, route, smallBuild, wire, type Small } from './testing/small-build.ts';

const push = (over: Partial<Assumption>): Assumption => ({ ...NOMINAL, ...over });

function lay(build: Build, id: string, assumption = NOMINAL): LaidWire {
  const laid = layWires(build, makeValues(assumption)).get(id);
  if (laid === undefined) throw new Error(`no wire ${id}`);
  return laid;
}

const metres = (laid: LaidWire): number | undefined => laid.length?.sourced.value;

/** Bonnet, footwell, bulkhead, locker, in a line with a dearer way round. */
const van: Small = {
  places: [
    place('bonnet', { engineSpace: true, hottest: given(80) }),
    place('footwell'),
    place('bulkhead', { hottest: given(45), coldest: given(-3) }),
    place('locker', { hottest: given(50) }),
    place('roof'),
  ],
  routes: [
    route('bonnet', 'bulkhead', 1.5),
    route('footwell', 'bulkhead', 1.1, { in: 'conduit' }),
    route('bulkhead', 'locker', 2.1, { in: 'conduit', insulatedWall: given(0.4) }),
    route('bulkhead', 'roof', 3),
    route('roof', 'locker', 0.5, { in: 'spaced' }),
  ],
  at: {
    battery: 'bonnet',
    fuse: 'bonnet',
    isolator: 'bulkhead',
    charger: 'locker',
    lamp: 'roof',
    desk: 'footwell',
  },
};

const withWire = (w: ReturnType<typeof wire>, over: Partial<Build> = {}): Build =>
  smallBuild({ ...van, wires: [w], over });

const ohms = (size: string, over: Parameters<typeof wire>[4] = {}): number | undefined =>
  lay(smallBuild({ wires: [wire('w', 'p.1', 'q.1', size, { length: given(10), ...over })] }), 'w').ohms20
    ?.sourced.value;

/** Two ways of one length, over a hot and over a cool place. */
const tie = (hot: string, cool: string): Build =>
  smallBuild({
    places: [place('a'), place('z'), place(hot, { hottest: given(70) }), place(cool, { hottest: given(30) })],
    routes: [route('a', hot, 1), route('a', cool, 1), route(hot, 'z', 1), route(cool, 'z', 1)],
    at: { p: 'a', q: 'z' },
    wires: [wire('w', 'p.1', 'q.1', '6 mm2')],
  });

describe('the way of a wire', () => {
  it('is the shortest along the routes, with 0.15 m at each end', () => {
    const laid = lay(withWire(wire('feed', 'fuse.load', 'charger.in+', '25 mm2')), 'feed');
    expect(laid.places).toEqual(['bonnet', 'bulkhead', 'locker']);
    expect(metres(laid)).toBeCloseTo(1.5 + 2.1 + 0.3, 12);
    expect(laid.lengthFrom).toBe('routes');
    expect(laid.segments.map((s) => [s.route, s.in, s.length])).toEqual([
      [0, 'free', 1.5],
      [2, 'conduit', 2.1],
    ]);
  });

  it('goes through the places of via, joined to its ends, in either direction of writing', () => {
    const round = wire('feed', 'fuse.load', 'charger.in+', '25 mm2', { via: ['bulkhead', 'roof'] });
    const back = wire('feed', 'fuse.load', 'charger.in+', '25 mm2', { via: ['roof', 'bulkhead'] });
    const laid = lay(withWire(round), 'feed');
    expect(laid.places).toEqual(['bonnet', 'bulkhead', 'roof', 'locker']);
    expect(metres(laid)).toBeCloseTo(1.5 + 3 + 0.5 + 0.3, 12);
    expect(lay(withWire(back), 'feed').places).toEqual(laid.places);
  });

  it('takes the route between two places that follow each other in via, even when another way is shorter', () => {
    const build = smallBuild({
      places: [place('a'), place('b'), place('c')],
      routes: [route('a', 'b', 5), route('a', 'c', 1), route('c', 'b', 1)],
      at: { p: 'a', q: 'b' },
      wires: [wire('w', 'p.1', 'q.1', '6 mm2', { via: ['a', 'b'] }), wire('v', 'p.1', 'q.1', '6 mm2')],
    });
    expect(metres(lay(build, 'w'))).toBeCloseTo(5.3, 12);
    expect(metres(lay(build, 'v'))).toBeCloseTo(2.3, 12);
  });

  it('of two ways of one length is the hotter, whatever the places are called', () => {
    expect(lay(tie('m', 'n'), 'w').places[1]).toBe('m');
    expect(lay(tie('n', 'm'), 'w').places[1]).toBe('n');
  });

  it('with a typed length keeps its segments, and the length has no allowance', () => {
    const typed = wire('feed', 'fuse.load', 'charger.in+', '25 mm2', {
      length: given(6),
      via: ['bonnet', 'bulkhead', 'locker'],
    });
    const laid = lay(withWire(typed), 'feed');
    expect(metres(laid)).toBe(6);
    expect(laid.lengthFrom).toBe('typed');
    expect(laid.segments).toHaveLength(2);
    expect(laid.segments[1]?.insulatedWall).toBe(0.4);
  });

  it('with only a length is alone: free up to 0.3 m, else in a loom, at the hotter of its ends', () => {
    const short = wire('w', 'battery.+', 'isolator.in', '25 mm2', { length: given(0.3) });
    const long = wire('w', 'battery.+', 'isolator.in', '25 mm2', { length: given(0.31) });
    expect(lay(withWire(short), 'w').segments).toMatchObject([
      { route: null, in: 'free', engineSpace: true, length: 0.3 },
    ]);
    const laid = lay(withWire(long), 'w');
    expect(laid.segments[0]?.in).toBe('loom');
    expect(laid.segments[0]?.hottest.sourced.value).toBe(80);
  });

  it('between two parts of one place is the allowance at both ends', () => {
    const laid = lay(withWire(wire('w', 'battery.+', 'fuse.line', '25 mm2')), 'w');
    expect(metres(laid)).toBeCloseTo(0.3, 12);
    expect(laid.segments).toMatchObject([{ route: null, in: 'free' }]);
  });

  it('has no length where no way leads, or where a route on it has none', () => {
    const lost = smallBuild({
      places: [place('a'), place('b'), place('c')],
      routes: [route('a', 'b', null)],
      at: { p: 'a', q: 'b', r: 'c' },
      wires: [wire('w', 'p.1', 'r.1', '6 mm2'), wire('v', 'p.1', 'q.1', '6 mm2')],
    });
    expect(lay(lost, 'w')).toMatchObject({ length: null, ohms20: null, places: ['a', 'c'] });
    expect(lay(lost, 'v')).toMatchObject({ length: null, ohms20: null, places: ['a', 'b'] });
    expect(lay(lost, 'v').segments[0]?.route).toBe(0);
  });

  it('avoids a route of unknown length where another way leads', () => {
    const build = smallBuild({
      places: [place('a'), place('b'), place('c')],
      routes: [route('a', 'b', null), route('a', 'c', 4), route('c', 'b', 4)],
      at: { p: 'a', q: 'b' },
      wires: [wire('w', 'p.1', 'q.1', '6 mm2')],
    });
    expect(metres(lay(build, 'w'))).toBeCloseTo(8.3, 12);
  });

  it('does not fail on parts without a place', () => {
    const build = smallBuild({ wires: [wire('w', 'p.1', 'q.1', '6 mm2', { length: given(2) })] });
    const laid = lay(build, 'w');
    expect(laid.places).toEqual([]);
    expect(laid.hottest.sourced.value).toBe(45);
  });
});

describe('bands of a length', () => {
  const banded = smallBuild({
    ...van,
    routes: [route('bonnet', 'bulkhead', null, { length: given(1.5, [1.2, 1.8]) })],
    wires: [wire('w', 'fuse.load', 'isolator.in', '25 mm2')],
  });

  it('are pushed with those of the routes and of the allowance', () => {
    expect(metres(lay(banded, 'w', push({ push: 'slack' })))).toBeCloseTo(1.8 + 0.4, 12);
    expect(metres(lay(banded, 'w', push({ push: 'stiff' })))).toBeCloseTo(1.2 + 0.2, 12);
    const [least, greatest] = lay(banded, 'w').length?.sourced.band ?? [];
    expect(least).toBeCloseTo(1.4, 12);
    expect(greatest).toBeCloseTo(2.2, 12);
  });

  it('end when the length of the wire counts as given', () => {
    const pinned = lay(banded, 'w', push({ push: 'slack', pinned: new Set(['wires.w.length']) }));
    expect(metres(pinned)).toBeCloseTo(1.8, 12);
    expect(pinned.length?.assumed).toBe(false);
    expect(pinned.length?.sourced.band).toBeUndefined();
  });

  it('can be pushed one by one', () => {
    const only = push({ push: 'slack', only: 'settings.allowance' });
    expect(metres(lay(banded, 'w', only))).toBeCloseTo(1.5 + 0.4, 12);
  });

  it('move no wire to another way and lay none into a loom', () => {
    const short = smallBuild({
      at: { p: 'a', q: 'a' },
      wires: [wire('w', 'p.1', 'q.1', '6 mm2', { length: given(0.3, [0.2, 0.4]) })],
    });
    expect(lay(short, 'w', push({ push: 'slack' })).segments[0]?.in).toBe('free');
  });

  it('without a band in the document the allowance given is exact', () => {
    const given1 = smallBuild({
      ...van,
      wires: [wire('w', 'fuse.load', 'isolator.in', '25 mm2')],
      over: {
        settings: { resistanceAt: 'predicted', faultContact: null, meter: null, allowance: given(0.1) },
      },
    });
    expect(metres(lay(given1, 'w', push({ push: 'slack' })))).toBeCloseTo(1.7, 12);
  });
});

describe('resistance', () => {
  it('of 10 m is that of the published tables', () => {
    // IEC 60228 class 5: 25 mm² 0.780 Ω/km, 6 mm² 3.30 Ω/km.
    expect(ohms('25 mm2')).toBeCloseTo(0.0078, 9);
    expect(ohms('6 mm2')).toBeCloseTo(0.033, 9);
    // NEC chapter 9 table 8 at 75 °C referred to 20 °C: 4 AWG 0.8309 Ω/km.
    expect(ohms('4 AWG')).toBeCloseTo(0.008309, 9);
    // ISO 19642-3: 1.5 mm² 12.7 Ω/km.
    expect(ohms('1.5 mm2', { strand: 'iso-6722' })).toBeCloseTo(0.127, 9);
  });

  it('of SAE sizes goes by their own copper, above AWG of the same number', () => {
    expect(ohms('4 SAE') ?? 0).toBeCloseTo((1.7241e-8 * 1.02 * 10) / 18.931e-6, 9);
    expect(ohms('4 SAE') ?? 0).toBeGreaterThan(ohms('4 AWG') ?? 0);
  });

  it('of copper-clad aluminium is 1.6 times that of copper, and its k is that of aluminium', () => {
    expect(ohms('25 mm2', { material: 'cca' })).toBeCloseTo(0.01248, 9);
    const clad = lay(smallBuild({ wires: [wire('w', 'p.1', 'q.1', '25 mm2', { material: 'cca' })] }), 'w');
    expect(clad.copper).toBe(false);
    expect(clad.k.sourced.prov).toBe('memory');
    // BS 7671 table 43.1: aluminium with PVC of 70 °C, k = 76.
    expect(Math.abs(clad.k.sourced.value - 76)).toBeLessThan(0.5);
  });

  it('is not known without a size', () => {
    const build = smallBuild({
      wires: [wire('w', 'p.1', 'q.1', '6 mm2', { length: given(1), size: 'unknown' })],
    });
    expect(lay(build, 'w')).toMatchObject({ areaMm2: null, ohms20: null, sizeText: 'unknown' });
  });

  it('of a joint is 0.05 mΩ, half to twice, unless given', () => {
    const build = smallBuild({
      wires: [wire('w', 'p.1', 'q.1', '6 mm2', { length: given(1), joints: { to: given(0.002) } })],
    });
    expect(lay(build, 'w').joints.map((j) => j.sourced.value)).toEqual([0.05e-3, 0.002]);
    expect(lay(build, 'w', push({ push: 'slack' })).joints.map((j) => j.sourced.value)).toEqual([
      0.1e-3, 0.002,
    ]);
    expect(lay(build, 'w').joints[0].path).toBe('wires.w.joints.from');
  });
});

describe('insulation', () => {
  it('is pvc-70 where none is given, and says so', () => {
    const build = smallBuild({ wires: [wire('w', 'p.1', 'q.1', '6 mm2', { length: given(1) })] });
    expect(lay(build, 'w')).toMatchObject({
      insulation: 'pvc-70',
      insulationAssumed: true,
      rating: 70,
      finalTemperature: 160,
    });
    expect(lay(build, 'w').k.sourced).toMatchObject({ value: 115, prov: 'seen' });
  });

  it.each([
    ['pvc-90', 90, 100, 160],
    ['xlpe-90', 90, 143, 250],
    ['pvc-105', 105, 87.6, 160],
  ] as const)('%s is rated %d °C, k %d, final %d °C', (insulation, rating, k, final) => {
    const build = smallBuild({
      wires: [wire('w', 'p.1', 'q.1', '6 mm2', { length: given(1), insulation })],
    });
    const laid = lay(build, 'w');
    expect(laid).toMatchObject({ rating, finalTemperature: final, insulationAssumed: false });
    expect(laid.k.sourced.value).toBe(k);
  });
});

describe('air', () => {
  const build = smallBuild({
    places: [
      place('engine', { engineSpace: true }),
      place('cab'),
      place('under', { level: 'under floor' }),
      place('box', { hottest: given(33), coldest: given(5) }),
    ],
    over: { climate: { hottest: given(38), coldest: given(-12) } },
  });
  const air = (
    at: string | null,
    kind: 'typical' | 'hottest' | 'coldest',
    assumption = NOMINAL,
    b = build,
  ): number => airAt(b, makeValues(assumption), at, kind).sourced.value;

  it('is by the kind of space where none is given', () => {
    expect(air('engine', 'hottest')).toBe(80);
    expect(air('cab', 'hottest')).toBe(45);
    expect(air('under', 'hottest')).toBe(40);
    expect(air(null, 'hottest')).toBe(45);
    expect(air('box', 'hottest')).toBe(33);
  });

  it('is never below the weather by default', () => {
    const desert = smallBuild({ places: [place('cab')], over: { climate: { hottest: given(52) } } });
    expect(air('cab', 'hottest', NOMINAL, desert)).toBe(52);
    expect(air('cab', 'hottest', push({ push: 'slack' }), desert)).toBe(55);
    expect(air('cab', 'hottest', push({ push: 'stiff' }), desert)).toBe(52);
  });

  it('is pushed within its band, and pinned by its path', () => {
    expect(air('engine', 'hottest', push({ push: 'slack' }))).toBe(90);
    expect(air('engine', 'hottest', push({ push: 'stiff' }))).toBe(70);
    expect(
      air('engine', 'hottest', push({ push: 'slack', pinned: new Set(['places.engine.hottest']) })),
    ).toBe(80);
  });

  it("in the cold is the place's own, else the climate's, else -10 °C", () => {
    expect(air('box', 'coldest')).toBe(5);
    expect(air('cab', 'coldest')).toBe(-12);
    expect(air('cab', 'coldest', NOMINAL, smallBuild({ places: [place('cab')] }))).toBe(-10);
    expect(air('cab', 'typical')).toBe(20);
  });

  it('of a wire is the hottest and the coldest along its way', () => {
    const laid = lay(withWire(wire('w', 'fuse.load', 'charger.in+', '25 mm2')), 'w');
    expect(laid.hottest.sourced.value).toBe(80);
    expect(laid.hottest.path).toBe('places.bonnet.hottest');
    expect(laid.coldest.sourced.value).toBe(-10);
    expect(laid.segments.map((s) => [s.hottest.sourced.value, s.engineSpace])).toEqual([
      [80, true],
      [50, false],
    ]);
  });
});
