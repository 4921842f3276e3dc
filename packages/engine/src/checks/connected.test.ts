/** Forgotten wires and turned parts; and what looks like one and is none. */
import { describe, expect, it } from 'vitest';
import { connected } from './connected.ts';
import { enable } from './enable.ts';
import { judgeText } from './testing/judge-text.ts';

const SIZE = 'size: 16 mm2, insulation: pvc-105, length: 30 cm';
const wire = (from: string, to: string): string => `{ from: ${from}, to: ${to}, ${SIZE} }`;

/** A vehicle battery, a charger of 24 to 24 V, a bank of two in series; wires by name, some of them changed or left out. */
function text(change: Readonly<Record<string, string | null>> = {}, parts = ''): string {
  const wires: Readonly<Record<string, string | null>> = {
    feed: wire('vehicle-battery.+', 'unit.in+'),
    back: wire('unit.in-', 'vehicle-battery.-'),
    out: wire('unit.out+', 'upper.+'),
    link: wire('upper.-', 'lower.+'),
    'out-back': wire('lower.-', 'unit.out-'),
    lamp: wire('upper.+', 'lamp.+'),
    'lamp-back': wire('lamp.-', 'lower.-'),
    ...change,
  };
  const lines = Object.entries(wires).flatMap(([id, as]) => (as === null ? [] : [`  ${id}: ${as}`]));
  return `loomwright: 1
title: A bank of two
systems: { vehicle: 24 V, house: 24 V }
places: { bay: { label: Bay, hottest: 40 °C } }
parts:
  vehicle-battery: { kind: battery, at: bay, role: vehicle, chemistry: agm, capacity: 100 Ah }
  unit: { kind: dc-charger, at: bay, current: 20 A, enable: voltage, low-input: stops, negative: isolated }
  upper: { kind: battery, at: bay, role: house, chemistry: agm, capacity: 100 Ah }
  lower: { kind: battery, at: bay, role: house, chemistry: agm, capacity: 100 Ah }
  lamp: { kind: load, at: bay, current: 2 A, on: always }
${parts}wires:
${lines.join('\n')}
`;
}

const found = (id: string, change: Readonly<Record<string, string | null>> = {}, parts = '') =>
  judgeText(text(change, parts), [connected], 'europe').finding(`connected/${id}`);

describe('what is wired', () => {
  it('is in order, also to a bank in series', () => {
    expect(found('unit').verdict).toBe('met');
    expect(found('lamp').verdict).toBe('met');
  });

  it.each([
    ['unit', { feed: null }, /fed by nothing: no conductor leads from a source to unit\.in\+/u],
    ['unit', { out: null }, /gives to nothing: no conductor leads from unit\.out\+ to a battery/u],
    [
      'unit',
      { 'out-back': null },
      /cannot charge upper: no conductor leads from upper\.- back to unit\.out-/u,
    ],
    ['lamp', { lamp: null }, /fed by nothing/u],
    [
      'unit',
      { feed: wire('vehicle-battery.+', 'unit.in-'), back: wire('unit.in+', 'vehicle-battery.-') },
      /wrong way round at its input: unit\.in\+ is joined to a negative/u,
    ],
    [
      'unit',
      { out: wire('unit.out-', 'upper.+'), 'out-back': wire('lower.-', 'unit.out+') },
      /wrong way round at its output/u,
    ],
    [
      'lamp',
      { lamp: wire('upper.+', 'lamp.-'), 'lamp-back': wire('lamp.+', 'lower.-') },
      /stands the wrong way round: lamp\.\+ is joined to a negative, lamp\.- to a positive/u,
    ],
  ] as const)('%s with %o is a fault', (id, change, says) => {
    const finding = found(id, change);
    expect(finding.verdict).toBe('fault');
    expect(finding.says).toMatch(says);
  });

  const DIODE = '  block: { kind: diode, at: bay }\n';

  it('leads on through a diode, and not against it', () => {
    const through = { out: wire('unit.out+', 'block.anode'), 'out-2': wire('block.cathode', 'upper.+') };
    expect(found('unit', through, DIODE).verdict).toBe('met');
    const against = { out: wire('unit.out+', 'block.cathode'), 'out-2': wire('block.anode', 'upper.+') };
    expect(found('unit', against, DIODE).verdict).toBe('fault');
    const lamp = { lamp: wire('upper.+', 'block.anode'), 'lamp-2': wire('block.cathode', 'lamp.+') };
    expect(found('lamp', lamp, DIODE).verdict).toBe('met');
  });

  it('may be a converter that only supplies loads', () => {
    const alone = {
      out: wire('unit.out+', 'radio.+'),
      'out-back': wire('radio.-', 'unit.out-'),
    };
    const radio = '  radio: { kind: load, at: bay, current: 3 A, on: always }\n';
    expect(found('unit', alone, radio).verdict).toBe('met');
    expect(found('radio', alone, radio).verdict).toBe('met');
  });

  it('is not asked of what has no wire at all', () => {
    const shelf = '  spare: { kind: load, at: bay, current: 3 A }\n';
    expect(() => found('spare', {}, shelf)).toThrow();
  });
});

describe('a charger whose output leads nowhere, or stands the wrong way round', () => {
  it.each([
    [{ 'out-back': null }, /it is on, but nothing flows out of it/u],
    [
      { out: wire('unit.out-', 'upper.+'), 'out-back': wire('lower.-', 'unit.out+') },
      /its output stands the wrong way round/u,
    ],
  ] as const)('never charges: %o', (change, says) => {
    const finding = judgeText(text(change), [enable], 'europe').finding('enable/charges/unit');
    expect(finding.verdict).toBe('fault');
    expect(finding.says).toMatch(says);
  });
});
