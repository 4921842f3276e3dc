/** Parts that only conduct: body, chassis points, straps, bars, studs, joints, shunts, sensors, diodes. */
import { describe, expect, it } from 'vitest';
import { ampsAt } from './testing/solving.ts';
import { partOf, surroundings, type Around, type Asked } from './testing/surroundings.ts';

const elements = (of: Asked, around: Around = {}) => of.kind.elements(surroundings(of, around));
const ohms = (of: Asked, around: Around = {}): readonly number[] =>
  elements(of, around).map((e) => (e.type === 'resistor' ? e.ohms : NaN));
const section = (medium: string, push?: 'slack' | 'stiff') =>
  partOf(`{ kind: body-section, medium: ${medium} }`, push === undefined ? {} : { push }).read;

describe('chassis point', () => {
  const body = '  body: { kind: body-section, medium: steel }';
  const of = partOf('{ kind: chassis-point, section: body }', { parts: body });
  const into = (medium: string, push?: 'slack' | 'stiff') =>
    ohms(of, { sections: { body: section(medium, push) } });

  it('is its lug joint and the spread of its section: 0.3 + 0.5 mΩ on steel, 5 mΩ on bonded aluminium', () => {
    expect(into('steel')).toEqual([0.0003, 0.0005]);
    expect(into('bonded-aluminium')).toEqual([0.0003, 0.005]);
    expect(into('steel', 'slack')).toEqual([0.0003, 0.0015]);
    expect(into('steel', 'stiff')).toEqual([0.0003, 0.0002]);
  });

  it('on composite joins nothing', () => {
    expect(into('composite')[1]).toBe(Infinity);
  });

  it('reaches the star of its section, and says so', () => {
    expect(elements(of, { sections: { body: section('steel') } })[1]).toMatchObject({ b: '^section:body' });
    expect(of.kind.abilities(of.read).grounds).toEqual({ terminal: 'stud', section: 'body' });
  });

  it('without a section joins nothing', () => {
    expect(ohms(partOf('{ kind: chassis-point }'))[1]).toBe(Infinity);
  });
});

describe('body section', () => {
  it('gives its medium and spread; an unknown medium gives neither', () => {
    const of = partOf('{ kind: body-section, medium: steel }');
    expect(of.kind.abilities(of.read).section).toMatchObject({
      medium: 'steel',
      spread: { path: 'parts.x.spread' },
    });
    const unknown = partOf('{ kind: body-section, medium: unknown }');
    expect(unknown.kind.abilities(unknown.read).section).toEqual({ medium: null, spread: null });
  });
});

describe('strap', () => {
  it('joins two sections by 0.5 mΩ', () => {
    const parts =
      '  cab: { kind: body-section, medium: steel }\n  box: { kind: body-section, medium: steel }';
    const of = partOf('{ kind: strap, from: cab, to: box }', { parts });
    expect(elements(of)).toMatchObject([{ a: '^section:cab', b: '^section:box', ohms: 0.0005 }]);
    expect(of.kind.abilities(of.read).bonds).toEqual({ from: 'cab', to: 'box' });
  });
});

const lugLimit = (text: string) => partOf(text).kind.abilities(partOf(text).read).lugLimit;

describe('busbar and stud', () => {
  it('are stars over the terminals that carry a wire, half the resistance for each tap', () => {
    const bar = partOf('{ kind: busbar, resistance: 0.1 mΩ }');
    expect(elements(bar, { wires: ['1', '2', '7'] })).toMatchObject([
      { a: '1', b: '.centre', ohms: 0.00005 },
      { a: '2', b: '.centre', ohms: 0.00005 },
      { a: '7', b: '.centre', ohms: 0.00005 },
    ]);
    expect(elements(bar, { wires: [] })).toEqual([]);
    expect(ohms(partOf('{ kind: busbar }'), { wires: ['1', '2'] })).toEqual([0.000025, 0.000025]);
    expect(ohms(partOf('{ kind: stud }'), { wires: ['1', '2'] })).toEqual([0.00001, 0.00001]);
  });

  it('a stud carries 4 lugs unless it says otherwise', () => {
    expect(lugLimit('{ kind: stud }')).toBe(4);
    expect(lugLimit('{ kind: stud, limit: 3 }')).toBe(3);
    expect(lugLimit('{ kind: stud, limit: 4 lugs }')).toBe(4);
  });
});

describe('joint, shunt, sensor', () => {
  it('have their stated or usual resistance', () => {
    expect(ohms(partOf('{ kind: joint, resistance: 2 mΩ }'))).toEqual([0.002]);
    expect(ohms(partOf('{ kind: joint, resistance: unknown }'))).toEqual([0.0005]);
    expect(ohms(partOf('{ kind: vehicle-sensor }'))).toEqual([0.0001]);
    expect(ohms(partOf('{ kind: shunt }'))[0]).toBe(0.0001);
  });

  it('a shunt counts what its monitor draws, from its supply terminal', () => {
    const of = partOf('{ kind: shunt, monitor: { standby: 12 mA } }');
    const [, monitor] = elements(of);
    expect(monitor).toMatchObject({ a: 'supply', b: 'battery' });
    expect(ampsAt(monitor, 13)).toBeCloseTo(0.012, 12);
    expect(of.kind.abilities(of.read).measures).toEqual({ battery: 'battery', system: 'system', element: 0 });
  });
});

describe('diode', () => {
  it('blocks up to 0.7 V and is a milliohm beyond', () => {
    const [e] = elements(partOf('{ kind: diode }'));
    expect(ampsAt(e, -50)).toBe(0);
    expect(ampsAt(e, 0.7)).toBe(0);
    expect(ampsAt(e, 0.71)).toBeCloseTo(10, 6);
  });
});
