import { describe, expect, it } from 'vitest';
import { openSession } from './session.ts';
import { kindEntries } from './slips.ts';
import { makeRegistry } from '../kinds/registry.ts';

const TEXT = `loomwright: 1
title: Two batteries, a fuse and a charger
practice: europe
systems: { vehicle: 12 V, house: 12 V }
places:
  bonnet: { label: Under the bonnet, station: 0.6 m, hottest: 80 °C }
  locker: { label: Locker, station: 3 m }
routes:
  - { from: bonnet, to: locker, length: 3 m, in: free }
stock: { sizes: [16 mm2, 25 mm2, 35 mm2] }
parts:
  vehicle-battery: { kind: battery, at: bonnet, role: vehicle, chemistry: agm, capacity: 80 Ah }
  feed-fuse: { kind: fuse, at: bonnet, family: bolt-down, rating: 80 A, interrupts: 6 kA, curve: [{ at: 200 %, opens: 1..15 s }] }
  charger: { kind: dc-charger, at: locker, current: 40 A, enable: voltage, negative: common }
  bar: { kind: busbar, at: locker }
  house-battery: { kind: battery, at: locker, role: house, chemistry: lifepo4, capacity: 200 Ah }
wires:
  feed: { from: vehicle-battery.+, to: feed-fuse.line, size: 25 mm2, insulation: pvc-105, length: 10 cm }
  feed-2: { from: feed-fuse.load, to: charger.in+, size: auto, insulation: pvc-105, via: [bonnet, locker] }
  return: { from: charger.in-, to: vehicle-battery.-, size: auto, via: [locker, bonnet] }
  out: { from: charger.out+, to: bar.1, size: 25 mm2, length: 50 cm }
  bank: { from: bar.2, to: house-battery.+, size: 25 mm2, length: 50 cm }
  out-neg: { from: charger.out-, to: house-battery.-, size: 25 mm2, length: 50 cm }
`;

/** What is assumed of the torque of a stud in the place of the busbar. */
const torque = (rest: string) =>
  openSession(TEXT.replace('bar: { kind: busbar, at: locker }', `bar: { kind: stud, at: locker${rest} }`))
    .slip('bar')
    ?.fields.find((field) => field.name === 'torque')?.assumed ?? null;

describe('slips', () => {
  const session = openSession(TEXT);

  it('say how tight a lug goes on a stud whose material and thread are known, and nothing of any other', () => {
    expect(torque(', material: brass, stud: M8')).toMatch(/^6\sN·m$/);
    expect(torque(', material: steel, stud: m10')).toMatch(/^25\sN·m$/);
    expect([torque(', stud: M8'), torque(', material: insert, stud: M8'), torque('')]).toEqual([
      null,
      null,
      null,
    ]);
  });

  it('tell what is given as it was typed, and what stands in where nothing is', () => {
    const slip = session.slip('feed-fuse');
    const field = (name: string) => slip?.fields.find((each) => each.name === name);
    expect(slip?.designation).toBe('F1');
    expect(field('rating')).toMatchObject({
      given: '80 A',
      plain: true,
      path: ['parts', 'feed-fuse', 'rating'],
    });
    expect(field('curve')).toMatchObject({ given: '[{ at: 200 %, opens: 1..15 s }]', plain: false });
    expect(field('family')?.choices).toContain('class-t');
    expect(field('at')).toMatchObject({ given: 'bonnet', choices: ['bonnet', 'locker'] });
    expect(field('heat-factor')?.given).toBeNull();
    expect(session.slip('charger')?.fields.find((f) => f.name === 'efficiency')?.assumed).toMatch(/0\.88/);
    expect(slip?.line).toBe(TEXT.split('\n').findIndex((line) => line.startsWith('  feed-fuse:')) + 1);
  });

  it('name the terminals with their wires, and the next free one of a bar', () => {
    expect(session.slip('charger')?.terminals.find((t) => t.name === 'in+')?.wires).toEqual(['feed-2']);
    expect(session.slip('bar')?.terminals.map((t) => t.name)).toEqual(['1', '2', '3']);
  });

  it('of a wire tell its derived length', () => {
    expect(session.slip('feed-2')?.fields.find((f) => f.name === 'length')?.assumed).toMatch(/^3\.3/);
    expect(session.slip('nothing')).toBeNull();
    expect(session.slip('locker')?.fields.find((f) => f.name === 'station')?.given).toBe('3 m');
  });

  it('what every field proposes as a choice is accepted by the reader', () => {
    for (const name of ['feed-fuse', 'charger', 'feed-2', 'locker']) {
      for (const field of session.slip(name)?.fields ?? []) {
        for (const choice of field.choices.slice(0, 3)) {
          const { diagnostics } = session.edit([{ set: field.path, to: choice }]);
          const own = diagnostics.filter(
            (d) => d.severity === 'error' && d.path.join() === field.path.join(),
          );
          expect(
            own.map((d) => d.message),
            `${name}.${field.name}: ${choice}`,
          ).toEqual([]);
        }
      }
    }
  });
});

describe('the conductor schedule', () => {
  it('has a row for each wire, in order, and says why an automatic size is what it is', () => {
    const session = openSession(TEXT);
    const rows = session.schedule();
    expect(rows.map((row) => row.wire)).toEqual(['feed', 'feed-2', 'return', 'out', 'bank', 'out-neg']);
    const auto = rows.find((row) => row.wire === 'feed-2');
    const size = session.judge().auto;
    expect(auto?.sizeDerived).toBe(true);
    expect(auto?.size).toContain(String(size?.size.areaMm2));
    expect(auto?.finding).toBe(size?.governedBy);
    expect(rows.find((row) => row.wire === 'feed')).toMatchObject({
      sizeDerived: false,
      lengthDerived: false,
    });
    for (const row of rows) expect(row.why).not.toBe('');
  });
});

describe('kinds that can be added', () => {
  it('are all of the registry, each with a title', () => {
    const registry = makeRegistry();
    const entries = kindEntries(registry);
    expect(entries.map((entry) => entry.name)).toEqual([...registry.kinds.keys()]);
    for (const entry of entries) expect(entry.title).not.toBe('');
  });
});
