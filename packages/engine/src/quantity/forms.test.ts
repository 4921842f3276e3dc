import { describe, expect, it } from 'vitest';
import {
  parseDeviceResistance,
  parseLowInput,
  parseOneSided,
  parseOpeningTimes,
  parsePlate,
  parseSampling,
  parseThreshold,
} from './forms.ts';

const message = (result: { ok: boolean; message?: string }) => (result.ok ? 'accepted' : result.message);
const NEVER = Number.POSITIVE_INFINITY;

describe('an alternator plate', () => {
  it('gives both currents and the test voltage', () => {
    expect(parsePlate('70/150 A 13.5 V')).toEqual({ ok: true, value: { idle: 70, rated: 150, volts: 13.5 } });
    expect(parsePlate('70/150A 13,5V')).toEqual({ ok: true, value: { idle: 70, rated: 150, volts: 13.5 } });
    expect(parsePlate('70 A / 150 A, 13.5 V')).toEqual({
      ok: true,
      value: { idle: 70, rated: 150, volts: 13.5 },
    });
  });

  it('refuses anything else', () => {
    expect(message(parsePlate('150 A'))).toBe(
      '"150 A" is not an alternator plate: write it such as 70/150 A 13.5 V',
    );
    expect(message(parsePlate('150/70 A 13.5 V'))).toBe(
      '"150/70 A 13.5 V": the first current (idling) is the smaller one on a plate: write it such as 70/150 A 13.5 V',
    );
    expect(message(parsePlate('0/0 A 13.5 V'))).toBe(
      '"0/0 A 13.5 V": a plate has no zero: write it such as 70/150 A 13.5 V',
    );
    expect(message(parsePlate('70/1,150 A 13.5 V'))).toBe(
      '"1,150 A" has two meanings: write 1.150 A or 1150 A',
    );
  });
});

describe('a threshold', () => {
  it('has a voltage and perhaps a delay', () => {
    expect(parseThreshold('13.3 V after 15 s')).toEqual({
      ok: true,
      value: { voltage: { value: 13.3, text: '13.3 V' }, delay: { value: 15, text: '15 s' } },
    });
    expect(parseThreshold('12.8 V')).toEqual({
      ok: true,
      value: { voltage: { value: 12.8, text: '12.8 V' } },
    });
  });

  it('may hold bands', () => {
    const result = parseThreshold('13.2..13.4 V after 5..60 s');
    expect(result.ok && [result.value.voltage.band, result.value.delay?.band]).toEqual([
      [13.2, 13.4],
      [5, 60],
    ]);
  });

  it('refuses a missing unit, a missing delay and a negative voltage', () => {
    expect(message(parseThreshold('13.3 after 15 s'))).toBe(
      '"13.3" is a voltage without a unit: write 13.3 V or 13.3 mV (a threshold is written such as 13.3 V after 15 s)',
    );
    expect(message(parseThreshold('13.3 V after'))).toBe(
      'nothing is written here: a time is expected, such as 15 s',
    );
    expect(message(parseThreshold('13.3 V after 15'))).toBe(
      '"15" is a time without a unit: write 15 s, 15 min, 15 h or 15 days',
    );
    expect(parseThreshold('-13.3 V').ok).toBe(false);
  });
});

describe('low input', () => {
  it('stops, holds or reduces', () => {
    expect(parseLowInput('stops')).toEqual({ ok: true, value: { behaviour: 'stops' } });
    expect(parseLowInput('holds 12.9 V')).toEqual({
      ok: true,
      value: { behaviour: 'holds', at: { value: 12.9, text: '12.9 V' } },
    });
    expect(parseLowInput('reduces from 13.0 V to 12.0 V')).toEqual({
      ok: true,
      value: { behaviour: 'reduces', from: { value: 13, text: '13.0 V' }, to: { value: 12, text: '12.0 V' } },
    });
    const short = parseLowInput('reduces from 13.0 to 12.0 V');
    expect(short.ok && short.value.behaviour === 'reduces' && short.value.from.value).toBe(13);
  });

  it('refuses the wrong order and other words', () => {
    expect(message(parseLowInput('reduces from 12.0 V to 13.0 V'))).toBe(
      '"reduces from 12.0 V to 13.0 V": it reduces from the higher to the lower voltage',
    );
    expect(message(parseLowInput('holds 12.9'))).toBe(
      '"12.9" is a voltage without a unit: write 12.9 V or 12.9 mV',
    );
    expect(message(parseLowInput('folds back'))).toBe(
      '"folds back": write stops, holds 12.9 V, or reduces from 13.0 V to 12.0 V',
    );
  });
});

describe('pauses, sides, resistances, opening times', () => {
  it('reads a pause that repeats', () => {
    expect(parseSampling('5 s every 3 min')).toEqual({
      ok: true,
      value: { pause: { value: 5, text: '5 s' }, every: { value: 180, text: '3 min' } },
    });
    expect(message(parseSampling('3 min every 5 s'))).toBe(
      '"3 min every 5 s": the pause must be shorter than the time between pauses',
    );
    expect(message(parseSampling('5 s'))).toBe(
      '"5 s": write a pause and how often it comes, such as 5 s every 3 min',
    );
  });

  it('reads one side of a value', () => {
    expect(parseOneSided('below 0 °C', ['temperature', 'voltage'])).toEqual({
      ok: true,
      value: { side: 'below', limit: { value: 0, text: '0 °C' } },
    });
    expect(parseOneSided('above 15.6 V', ['temperature', 'voltage'])).toEqual({
      ok: true,
      value: { side: 'above', limit: { value: 15.6, text: '15.6 V' } },
    });
    expect(message(parseOneSided('0 °C', ['temperature']))).toBe(
      '"0 °C": write below or above and a value, such as below 0 °C or above 15.6 V',
    );
    expect(message(parseOneSided('below 0', ['temperature']))).toBe(
      '"0" is a temperature without a unit: write 0 °C or 0 °F',
    );
  });

  it('reads the resistance of a device both ways', () => {
    expect(parseDeviceResistance('2 mΩ')).toEqual({
      ok: true,
      value: { ohms: { value: 0.002, text: '2 mΩ' } },
    });
    expect(parseDeviceResistance('0.1 V/rating')).toEqual({
      ok: true,
      value: { voltsAtRating: { value: 0.1, text: '0.1 V' } },
    });
    const band = parseDeviceResistance('75..150 mV / rating');
    expect(band.ok && 'voltsAtRating' in band.value && band.value.voltsAtRating.band).toEqual([0.075, 0.15]);
    expect(message(parseDeviceResistance('2'))).toContain(
      'or the voltage lost at the rating, such as 0.1 V/rating',
    );
  });

  it('reads opening times', () => {
    expect(parseOpeningTimes('4..40 s')).toEqual({ ok: true, value: { fastest: 4, slowest: 40 } });
    expect(parseOpeningTimes('never..14400 s')).toEqual({
      ok: true,
      value: { fastest: NEVER, slowest: 14_400 },
    });
    expect(parseOpeningTimes('3600 s..never')).toEqual({
      ok: true,
      value: { fastest: 3600, slowest: NEVER },
    });
    expect(parseOpeningTimes('2 s')).toEqual({ ok: true, value: { fastest: 2, slowest: 2 } });
    expect(parseOpeningTimes('40..4 s').ok).toBe(false);
  });
});
