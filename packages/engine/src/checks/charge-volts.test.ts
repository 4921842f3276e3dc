/** Charging voltages that are too high are over what is asked for, those that are too low are short of it. */
import { describe, expect, it } from 'vitest';
import { measureLine } from '../report/index.ts';
import { chargeVolts } from './charge-volts.ts';
import { judgeText } from './testing/judge-text.ts';

/** A charger set to 14.4 V before a battery whose sheet asks for so much. */
function asked(volts: string) {
  const text = chargeVolts.passing.replace('absorption: 14.4 V }', `absorption: ${volts} }`);
  const { finding } = judgeText(text, [chargeVolts]);
  const found = finding('charge-volts/house-battery');
  return { verdict: found.verdict, line: measureLine(found).replaceAll(/\s/gu, ' ') };
}

describe('charge-volts', () => {
  it('says by how much a setting is over, short, or right', () => {
    expect(asked('14.1 V')).toEqual({ verdict: 'fault', line: '14.40 V, limit 14.10 V, 0.30 V over' });
    expect(asked('15.2 V')).toEqual({ verdict: 'advice', line: '14.40 V, limit 15.20 V, 0.80 V short' });
    expect(asked('14.4 V')).toEqual({ verdict: 'met', line: '14.40 V, limit 14.40 V, 0.00 V to spare' });
  });
});
