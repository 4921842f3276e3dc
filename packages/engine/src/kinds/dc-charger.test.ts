import { describe, expect, it } from 'vitest';
import type { ConverterElement } from '../contracts/index.ts';
import { solved, wired } from './testing/solving.ts';
import { WEAK, partOf, surroundings, type Around, type Asked } from './testing/surroundings.ts';

const charger = (
  fields: string,
  systems = '{ vehicle: 12 V, house: 12 V }',
  push?: 'slack' | 'stiff',
): Asked => partOf(`{ kind: dc-charger, ${fields} }`, { systems, ...(push === undefined ? {} : { push }) });

const converts = (of: Asked) => {
  const found = of.kind.abilities(of.read).converts;
  if (found === undefined) throw new Error('it converts nothing');
  return found;
};

function converter(of: Asked, around: Around = {}): ConverterElement<string> {
  const [e] = of.kind.elements(surroundings(of, { wires: ['in+', 'in-', 'out+', 'out-'], ...around }));
  if (e?.type !== 'converter') throw new Error('no converter');
  return e;
}

const TYPICAL = 'current: 30 A, voltage: { absorption: 14.4 V }, efficiency: 0.88';

const inputWith = (text: string): number =>
  converts(charger(`${TYPICAL}, enable: signal, ${text}`)).greatestInput?.sourced.value ?? NaN;

describe('greatest power and input current', () => {
  it('30 A at 14.4 V and 0.88 are 491 W, and 40.9 A at the 12.0 V of a run signal', () => {
    const found = converts(charger(`${TYPICAL}, enable: signal`));
    expect(found.greatestPower?.sourced.value).toBeCloseTo(490.909, 3);
    expect(found.greatestInput?.sourced.value).toBeCloseTo(40.909, 3);
  });

  it('by voltage 491 W are 38.4 A at 12.8 V', () => {
    expect(converts(charger(`${TYPICAL}, enable: voltage`)).greatestInput?.sourced.value).toBeCloseTo(
      38.352,
      3,
    );
  });

  it('by signal and voltage the lowest stated stop threshold of either counts', () => {
    const both = `${TYPICAL}, enable: signal-and-voltage`;
    expect(converts(charger(both)).greatestInput?.sourced.value).toBeCloseTo(490.909 / 12.8, 2);
    const pair = `${both}, stops: { voltage: 12.7 V, signal: 11.8 V }`;
    expect(converts(charger(pair)).greatestInput?.sourced.value).toBeCloseTo(490.909 / 11.8, 2);
    expect(converts(charger(pair)).stops.sourced.value).toBe(12.7);
  });

  it('is taken where the unit gives way, never below its minimum, capped by its input limit', () => {
    expect(inputWith('low-input: holds 12.9 V')).toBeCloseTo(490.909 / 12.9, 2);
    expect(inputWith('low-input: reduces from 13.0 V to 12.0 V')).toBeCloseTo(490.909 / 13, 2);
    expect(inputWith('stops: 9 V')).toBeCloseTo(490.909 / 10.5, 2);
    expect(inputWith('stops: 9 V, minimum: 9.5 V')).toBeCloseTo(490.909 / 9.5, 2);
    expect(inputWith('input-limit: 35 A')).toBe(35);
  });

  it('with nothing stated rests on 14.4 V (14.2 to 14.6) and 0.88 (0.85 to 0.90); without a current it has no figure', () => {
    const slack = converts(charger('current: 30 A, enable: signal', undefined, 'slack'));
    expect(slack.greatestPower?.sourced.value).toBeCloseTo((30 * 14.6) / 0.85, 6);
    expect(slack.greatestPower?.from?.length).toBe(3);
    const none = converts(charger('enable: signal'));
    expect([none.current, none.greatestPower, none.greatestInput]).toEqual([null, null, null]);
  });

  it('24 V at the input doubles the thresholds, at the output the set voltage; 48 V is fourfold: 57.6 V', () => {
    const up = converts(charger('current: 20 A, enable: voltage', '{ vehicle: 12 V, house: 48 V }'));
    expect(up.setVolts.sourced.value).toBeCloseTo(57.6, 9);
    expect(up.starts.sourced.value).toBeCloseTo(13.3, 9);
    const down = converts(charger('current: 30 A, enable: signal', '{ vehicle: 24 V, house: 12 V }'));
    expect([down.setVolts, down.starts, down.stops, down.minimum].map((b) => b.sourced.value)).toEqual([
      14.4, 24.6, 24, 21,
    ]);
    expect(down.enable?.most.sourced.value).toBe(32);
    expect(down.enable?.on.sourced.value).toBe(16);
  });
});

const faultsOf = (text: string) => {
  const of = charger(`current: 30 A, enable: signal, low-input: holds 12.5 V, ${text}`);
  return of.kind.contradictions?.(of.read).map((c) => c.field);
};

const written = (text: string) => (): unknown => charger(`current: 30 A, enable: signal, ${text}`);

describe('figures that were exchanged', () => {
  it('are refused: a stop above the start, a float above the absorption', () => {
    expect(written('starts: 12.0 V, stops: 12.3 V')).toThrow(/stops at 12\.3 V, above the 12 V/u);
    expect(written('voltage: { absorption: 13.5 V, float: 14.4 V }')).toThrow(/float voltage of 14\.4 V/u);
    expect(written('starts: 12.3 V, stops: 12.3 V')).not.toThrow();
    expect(written('voltage: { absorption: 14.4 V, float: 13.5 V }')).not.toThrow();
    expect(written('voltage: { float: 13.5 V }')).not.toThrow();
  });
});

const senseVolts = (a: string, b: string): number => (a === 'sense+' && b === 'sense-' ? 13.6 : 13.0);

const seeing = (input: number, signal: number) => ({
  volts: (a: string) => (a === 'enable' ? signal : input),
  amps: () => 0,
});

const memoryOf = (of: Asked, wires: readonly string[] = ['in+', 'in-', 'out+', 'out-', 'enable']) => {
  const found = of.kind.memory?.(surroundings(of, { wires }));
  if (!found) throw new Error('no memory');
  return found;
};

const changes = (of: Asked, from: number, input: number, signal = 0) =>
  memoryOf(of)
    .rules.filter((rule) => rule.from === from && rule.when(seeing(input, signal)))
    .map((rule) => rule.delayMs);

describe('when it starts and stops', () => {
  it('by voltage: 13.3 V for 15 s, under 12.8 V for 5 s, under its minimum at once', () => {
    const of = charger('current: 30 A, enable: voltage');
    expect(changes(of, 0, 13.29)).toEqual([]);
    expect(changes(of, 0, 13.3)).toEqual([15_000]);
    expect(changes(of, 1, 12.8)).toEqual([]);
    expect(changes(of, 1, 12.79)).toEqual([5000]);
    expect(changes(of, 1, 10.4)).toEqual([5000, 100]);
  });

  it('by signal: 12.3 and 12.0 V, over 8 V at the enable terminal, off 100 ms after the signal has gone', () => {
    const of = charger('current: 30 A, enable: signal');
    expect(changes(of, 0, 12.3, 8)).toEqual([]);
    expect(changes(of, 0, 12.3, 8.1)).toEqual([15_000]);
    expect(changes(of, 0, 12.2, 12)).toEqual([]);
    expect(changes(of, 1, 13, 0)).toEqual([100]);
    expect(changes(of, 1, 13, 12)).toEqual([]);
  });

  it('by both: wants the signal and the voltage of voltage mode', () => {
    const of = charger('current: 30 A, enable: signal-and-voltage');
    expect(changes(of, 0, 13.3, 0)).toEqual([]);
    expect(changes(of, 0, 13.2, 12)).toEqual([]);
    expect(changes(of, 0, 13.3, 12)).toEqual([15_000]);
    expect(changes(of, 1, 12.7, 12)).toEqual([5000]);
  });

  it('uses the pair of its mode, or a plain one for the only mode', () => {
    const pairs =
      'starts: { voltage: 13.5 V after 20 s, signal: 12.5 V after 2 s }, stops: { voltage: 12.9 V after 3 s, signal: 11.9 V }';
    expect(changes(charger(`current: 30 A, enable: signal, ${pairs}`), 0, 12.5, 12)).toEqual([2000]);
    expect(changes(charger(`current: 30 A, enable: voltage, ${pairs}`), 0, 13.5)).toEqual([20_000]);
    expect(changes(charger(`current: 30 A, enable: signal, ${pairs}`), 1, 11.8, 12)).toEqual([5000]);
    expect(changes(charger('current: 30 A, enable: voltage, starts: 13.1 V after 0 s'), 0, 13.1)).toEqual([
      100,
    ]);
  });

  it('a start band goes down and a stop band up when slack', () => {
    const of = charger(
      'current: 30 A, enable: voltage, starts: 13.2..13.4 V, stops: 12.7..12.9 V',
      undefined,
      'slack',
    );
    expect(converts(of).starts.sourced.value).toBe(13.2);
    expect(converts(of).stops.sourced.value).toBe(12.9);
  });

  it('compares at its sense terminals where they belong to the input', () => {
    const of = charger('current: 30 A, enable: voltage, sense: input');
    const rule = memoryOf(of, ['in+', 'in-', 'sense+', 'sense-']).rules[0];
    expect(rule?.when({ volts: senseVolts, amps: () => 0 })).toBe(true);
    expect(memoryOf(of, ['in+', 'in-']).rules[0]?.when({ volts: senseVolts, amps: () => 0 })).toBe(false);
  });

  it('without a stated mode is solved by signal where something is wired to the enable terminal', () => {
    const of = charger('current: 30 A');
    expect(memoryOf(of).rules.some((rule) => rule.says === 'signal gone')).toBe(true);
    expect(memoryOf(of, ['in+', 'in-']).rules.some((rule) => rule.says === 'signal gone')).toBe(false);
    expect(converts(of).mode).toBeNull();
  });

  it('refuses to stop at or above the voltage that it holds', () => {
    expect(() => faultsOf('stops: 12.5 V')).toThrow(/never happens/);
    expect(faultsOf('stops: 12.0 V')).toEqual([]);
  });
});

const faultSource = (of: Asked, around: Around) => of.kind.elements(surroundings(of, around))[3];

const passive = (text: string, around: Around = {}) => {
  const part = charger(text);
  return part.kind.elements(surroundings(part, around)).slice(1, 3);
};

describe('its element', () => {
  const of = charger(`${TYPICAL}, enable: signal, standby: 10 mA`);

  it('is on in service by its memory only', () => {
    expect(converter(of, { memory: 1 }).on).toBe(true);
    expect(converter(of, { memory: 0 }).on).toBe(false);
    expect(converter(of, { memory: 1, opened: true }).on).toBe(false);
    expect(converter(of, { memory: 1, mode: 'fault-greatest' }).on).toBe(false);
  });

  it('gives half its current 20 K above 45 °C, no less beyond, and never less where it is judged at its rated output', () => {
    expect(converter(of, { air: 45 }).current).toBe(30);
    expect(converter(of, { air: 55 }).current).toBeCloseTo(22.5, 9);
    expect(converter(of, { air: 65 }).current).toBeCloseTo(15, 9);
    expect(converter(of, { air: 80 }).current).toBeCloseTo(15, 9);
    const rated = converter(of, { air: 80, corner: WEAK });
    expect(rated.current).toBe(30);
    expect(rated.demand).toBeCloseTo(490.909 + 0.12, 3);
    expect(converter(of).demand).toBeNull();
  });

  it('takes no more than full power at its minimum, or its stated limit', () => {
    expect(converter(of).inputLimit).toBeCloseTo((490.909 + 0.12) / 10.5, 3);
    expect(converter(charger('current: 30 A, input-limit: 38 A')).inputLimit).toBe(38);
  });

  it('takes its efficiency as a table too', () => {
    const table = charger(
      'current: 30 A, enable: signal, efficiency: [[0.1, 0.80], [0.5, 0.90], [1.0, 0.86]]',
    );
    expect(converter(table).efficiency).toEqual([
      [0.1, 0.8],
      [0.5, 0.9],
      [1, 0.86],
    ]);
    expect(converts(table).efficiency.sourced).toMatchObject({ value: 0.86, prov: 'given' });
  });

  it('joins its negatives by 1 mΩ unless it is isolated, and loads an enable wire with 10 kΩ', () => {
    expect(passive('negative: common')).toMatchObject([
      { a: 'in-', b: 'out-', ohms: 0.001 },
      { a: 'enable', b: 'enable-', ohms: 10_000 },
    ]);
    expect(passive('negative: isolated')[0]).toMatchObject({ ohms: Infinity });
    expect(passive('negative: common', { opened: true })).toMatchObject([
      { ohms: Infinity },
      { ohms: Infinity },
    ]);
  });

  it('in a greatest fault feeds its rated current whatever the input is, otherwise nothing', () => {
    expect(faultSource(of, { mode: 'fault-greatest' })).toMatchObject({
      least: 0,
      greatest: 30,
      volts: 14.4,
    });
    expect(faultSource(of, { mode: 'fault-least' })).toMatchObject({ greatest: 0 });
    expect(faultSource(of, {})).toMatchObject({ greatest: 0 });
  });

  it('charges: 30 A into a battery from a stiff 14 V input, by power', () => {
    const own = wired(
      of.kind.elements(surroundings(of, { memory: 1, wires: ['in+', 'in-', 'out+', 'out-'] })),
      {
        'in-': 'n',
        'enable-': 'n',
      },
    );
    const source = {
      type: 'hold',
      a: 'in+',
      b: 'n',
      senseA: 'in+',
      senseB: 'n',
      volts: 14,
      least: -Infinity,
      greatest: Infinity,
    } as const;
    const bank = {
      type: 'pieces',
      a: 'out+',
      b: 'out-',
      points: [[13.3, 0]] as const,
      below: 100,
      above: 100,
    } as const;
    const point = solved([...own, source, bank], 'n');
    expect(point.settled).toBe(true);
    expect(point.outAmps(0)).toBeCloseTo(30, 9);
    expect(point.amps(0)).toBeCloseTo((30 * 13.6) / 0.88 / 14 + 0.01, 6);
  });
});

describe('what the maker prints', () => {
  it('is kept beside', () => {
    const of = charger(
      'current: 30 A, maker: { fuse: 60 A, cable: 16 mm2, input: 50 A }, samples: 5 s every 3 min, two-way: yes',
    );
    const found = converts(of);
    expect([found.maker.fuse?.sourced.value, found.maker.cable, found.maker.input?.sourced.value]).toEqual([
      60,
      '16 mm2',
      50,
    ]);
    expect(found.samples).toEqual({ pause: 5, every: 180 });
    expect(found.twoWay).toBe(true);
  });
});
