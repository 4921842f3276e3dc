/** The vehicle view: clean or not at all, and a map: places in the order of their stations, levels where they belong. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { outlineMap, type VehicleDrawing } from '../../packages/engine/src/drawing/index.ts';
import { ceilingAt, plainProfile, spotsOf } from '../../packages/engine/src/drawing/vehicle/profile.ts';
import { route } from '../../packages/engine/src/drawing/vehicle/route.ts';
import { Random } from '../oracles/random.ts';
import { draughtsman, subjectFrom } from './draw.ts';
import { makeBuild } from './generate.ts';
import { prove } from './proof.ts';

const example = (name: string): string =>
  readFileSync(new URL(`../../examples/${name}.yaml`, import.meta.url), 'utf8');

function proveVehicle({ view }: VehicleDrawing, wires: number): void {
  expect(prove(view.picture).faults).toEqual([]);
  expect(prove(view.picture).worstEnd).toBeLessThan(0.005);
  expect(view.picture.wires.length).toBe(wires);
  for (const { box } of view.places) {
    expect(box.left).toBeGreaterThan(0);
    expect(box.right).toBeLessThan(view.arranged.width);
  }
}

describe('the vehicle view', () => {
  it.each(['beekeepers-van', 'piano-tuners-electric-van'])('is drawn of %s', async (name) => {
    const subject = subjectFrom(example(name));
    const overview = await draughtsman().overview(subject);
    if (overview.type !== 'vehicle') throw new Error('it fits');
    proveVehicle(overview.vehicle, subject.wires.size);
    for (const id of subject.parts.keys()) expect(overview.vehicle.svg).toContain(`data-part="${id}"`);
  });

  it('gives way to the sheet with its map where a build is too large', async () => {
    const subject = subjectFrom(makeBuild(3, { parts: 60, places: 6 }).text);
    const overview = await draughtsman().overview(subject);
    if (overview.type !== 'sheet') throw new Error('it cannot fit');
    for (const place of subject.places) expect(overview.map).toContain(`data-place="${place.id}"`);
    expect(prove(overview.screen.page.picture).faults).toEqual([]);
  });

  it(
    'of small generated builds is clean wherever it is given, and it often is',
    { timeout: 300_000 },
    async () => {
      let given = 0;
      for (let seed = 1; seed <= 25; seed += 1) {
        const random = new Random(seed);
        const subject = subjectFrom(
          makeBuild(seed, { parts: random.whole(10, 18), places: random.whole(2, 4) }).text,
        );
        const vehicle = await draughtsman().vehicle(subject, { thoroughness: 7 });
        if (vehicle === null) continue;
        given += 1;
        proveVehicle(vehicle, subject.wires.size);
        const middles = vehicle.view.places.map(({ place, box }) => ({
          station: subject.places.find((each) => each.id === place)?.station ?? 0,
          middle: (box.left + box.right) / 2,
        }));
        for (const a of middles) {
          for (const b of middles)
            if (a.station + 0.4 < b.station) expect(a.middle).toBeLessThanOrEqual(b.middle + 12);
        }
      }
      expect(given).toBeGreaterThan(5);
    },
  );
});

describe('the outline', () => {
  const profile = plainProfile(0, 100, 0, 40);

  it('sets places by station along the length and by level up and down', () => {
    const subject = subjectFrom(example('river-survey-van'));
    const spots = spotsOf(subject.places, subject.vehicleLength, profile);
    for (const { place, x } of spots) {
      const share = (place.station ?? 0) / (subject.vehicleLength ?? 1);
      expect(Math.abs(x - 100 * share)).toBeLessThanOrEqual(4.01);
    }
    const upper = spots.find(({ place }) => place.level === 'upper');
    const floor = spots.find(({ place }) => place.level === 'floor');
    expect(upper?.y).toBeGreaterThan(ceilingAt(profile, upper?.x ?? 0));
    expect(upper?.y).toBeLessThan(20);
    expect(floor?.y).toBeGreaterThan(30);
  });

  it('sets what is on the roof over the roof, however far forward', () => {
    const [place] = subjectFrom(example('river-survey-van')).places;
    if (place === undefined) throw new Error('the build has places');
    for (const station of [0.2, 1.6, 5]) {
      const [spot] = spotsOf([{ ...place, engineSpace: false, level: 'roof', station }], 6, profile);
      expect(spot?.y).toBeLessThan(0);
      expect(spot?.x).toBeCloseTo(Math.max(profile.brow, (100 * station) / 6), 9);
    }
  });

  it('never sets two places on one spot', () => {
    const subject = subjectFrom(example('river-survey-van'));
    const places = [...subject.places, ...subject.places.map((place) => ({ ...place, id: `${place.id}-2` }))];
    const at = spotsOf(places, subject.vehicleLength, profile).map(
      ({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`,
    );
    expect(new Set(at).size).toBe(at.length);
  });

  it('rises from the bonnet over the windscreen to the roof', () => {
    expect(ceilingAt(profile, 5)).toBe(profile.bonnet.top);
    expect(ceilingAt(profile, 25)).toBeGreaterThan(0);
    expect(ceilingAt(profile, 25)).toBeLessThan(profile.bonnet.top);
    expect(ceilingAt(profile, 60)).toBe(0);
  });

  it('names every place and fills only what is known', () => {
    const svg = outlineMap(subjectFrom(example('beekeepers-van')), { width: 90 });
    expect(svg).toContain('Under the bonnet');
    expect(svg.match(/<circle/g)?.length).toBe(4);
  });
});

describe('a way between two parts', () => {
  const bounds = { left: 0, right: 100, top: 0, bottom: 60 };
  const free = { bounds, parts: [], labels: [], wires: [] };

  it('is straight where nothing stands in it', () => {
    const way = route(free, { x: 10, y: 20, way: 1 }, { x: 90, y: 20, way: -1 });
    expect(way?.every((point) => point.y === 20)).toBe(true);
  });

  it('goes round a part, and not at all where none leads', () => {
    const wall = { left: 45, right: 55, top: 10, bottom: 50 };
    const way = route({ ...free, parts: [wall] }, { x: 10, y: 30, way: 1 }, { x: 90, y: 30, way: -1 });
    expect(way).not.toBeNull();
    for (const { x, y } of way ?? []) expect(x > 45 && x < 55 && y > 10 && y < 50).toBe(false);
    const shut = { left: 45, right: 55, top: -10, bottom: 70 };
    expect(route({ ...free, parts: [shut] }, { x: 10, y: 30, way: 1 }, { x: 90, y: 30, way: -1 })).toBeNull();
  });

  it('does not run along another wire', () => {
    const other = [
      { x: 0, y: 20 },
      { x: 100, y: 20 },
    ];
    const way = route({ ...free, wires: [other] }, { x: 10, y: 22, way: 1 }, { x: 90, y: 22, way: -1 }) ?? [];
    for (const { x, y } of way.slice(2, -2)) expect(Math.abs(y - 20) < 1.5 && x > 15 && x < 85).toBe(false);
    expect(way.length).toBeGreaterThan(0);
  });
});
