import { describe, expect, it } from 'vitest';
import type { Kind } from '../contracts/index.ts';
import { fieldContext } from './context.ts';
import { fuse } from './fuse.ts';
import { load } from './load.ts';
import { kinds as all } from './registry.ts';

const systems = { vehicle: 24, house: 12, winch: 48 };
const kinds: ReadonlyMap<string, Kind> = new Map(all.map((kind) => [kind.name, kind]));
/** As if loads belonged there. */
const nominal = (fields: Record<string, unknown>, home: 'vehicle' | 'house' = 'house') =>
  fieldContext({ id: 'x', kind: 'load', fields }, { systems }, new Map([['load', { ...load, home }]]))
    .nominal;

const battery = (id: string) => ({ id, kind: 'battery', fields: { role: 'vehicle' } });
const wire = (id: string, from: string, to: string) =>
  [id, { id, from, to, material: 'copper', sheathed: false }] as const;

describe('nominal volts of a part', () => {
  it('are those of the system it names, of its output, of its role, of where its kind belongs', () => {
    expect(nominal({ system: 'winch', role: 'vehicle' })).toBe(48);
    expect(nominal({ 'input-system': 'vehicle', 'output-system': 'house' })).toBe(12);
    expect(nominal({ role: 'vehicle' })).toBe(24);
    expect(nominal({}, 'vehicle')).toBe(24);
    expect(nominal({})).toBe(12);
    expect(nominal({ system: 'nowhere' }, 'vehicle')).toBe(24);
  });

  it('are 12 V where the document states no system', () => {
    expect(fieldContext({ id: 'x', kind: 'load', fields: {} }, { systems: {} }, kinds).nominal).toBe(12);
  });

  it('are shared among batteries in series', () => {
    const names = ['a', 'b', 'c', 'd'];
    const parts = new Map([
      ...names.map((id) => [id, battery(id)] as const),
      ['link', { id: 'link', kind: 'fuse', fields: {} }] as const,
    ]);
    const volts = (...wires: readonly ReturnType<typeof wire>[]) =>
      names.map((id) => {
        const part = parts.get(id);
        return part && fieldContext(part, { systems, parts, wires: new Map(wires) }, kinds).nominal;
      });
    expect(volts()).toEqual([24, 24, 24, 24]);
    // Two strings of two, joined at both ends and in the middle of one through a fuse.
    expect(
      volts(
        wire('1', 'a.+', 'link.line'),
        wire('2', 'link.load', 'b.-'),
        wire('3', 'd.-', 'c.+'),
        wire('4', 'a.-', 'c.-'),
        wire('5', 'd.+', 'b.+'),
      ),
    ).toEqual([12, 12, 12, 12]);
    // Side by side nothing is shared.
    expect(volts(wire('1', 'a.+', 'b.+'), wire('2', 'a.-', 'b.-'))).toEqual([24, 24, 24, 24]);
    // Three in series, and a ring, which is nonsense but ends.
    expect(volts(wire('1', 'a.+', 'b.-'), wire('2', 'b.+', 'c.-'))).toEqual([8, 8, 8, 24]);
    expect(volts(wire('1', 'a.+', 'b.-'), wire('2', 'b.+', 'a.-'))[2]).toBe(24);
  });

  it('are shared through whatever kind says that it leads on, and through no other', () => {
    const parts = new Map([
      ...['a', 'b'].map((id) => [id, battery(id)] as const),
      ['link', { id: 'link', kind: 'link', fields: {} }] as const,
    ]);
    const wires = new Map([wire('1', 'a.+', 'link.line'), wire('2', 'link.load', 'b.-')]);
    const volts = (link: Kind) =>
      fieldContext(battery('a'), { systems, parts, wires }, new Map([...kinds, ['link', link]])).nominal;
    expect(volts({ ...fuse, name: 'link' })).toBe(12);
    const { leadsOn, ...silent } = fuse;
    expect([leadsOn, volts({ ...silent, name: 'link' })]).toEqual([true, 24]);
  });
});
