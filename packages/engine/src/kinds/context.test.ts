import { describe, expect, it } from 'vitest';
import { fieldContext } from './context.ts';

const systems = { vehicle: 24, house: 12, winch: 48 };
const nominal = (fields: Record<string, unknown>, home?: 'vehicle' | 'house') =>
  fieldContext({ id: 'x', kind: 'load', fields }, { systems }, home).nominal;

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
    expect(fieldContext({ id: 'x', kind: 'load', fields: {} }, { systems: {} }).nominal).toBe(12);
  });
});
