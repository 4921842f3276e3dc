import { describe, expect, it } from 'vitest';
import { solved, wired } from './testing/solving.ts';
import { partOf, state, surroundings, type Around, type Asked } from './testing/surroundings.ts';

const POSTS = {
  type: 'hold',
  a: 'p',
  b: 'n',
  senseA: 'p',
  senseB: 'n',
  volts: 14.2,
  least: -Infinity,
  greatest: Infinity,
} as const;

/** Volts and amperes at the terminal, loaded with `ohms` to the negative, or fed from 13 V behind `back` ohms. */
function loaded(of: Asked, around: Around, ohms: number, back: number | null = null) {
  const own = wired(of.kind.elements(surroundings(of, around)), { '^posts+': 'p', '^posts-': 'n', out: 'o' });
  const load = { type: 'resistor', a: 'o', b: 'n', ohms } as const;
  const other =
    back === null
      ? []
      : [
          {
            type: 'pieces',
            a: 'o',
            b: 'n',
            points: [[20, 0]] as const,
            below: 1 / back,
            above: 1 / back,
          } as const,
        ];
  const point = solved([POSTS, ...own, load, ...other], 'n');
  return { volts: point.volts('o', 'n'), amps: point.amps(1 + own.length), own: point.amps(1) };
}

const driving = { state: state('driving') };
const parked = { state: state('parked') };

describe('a supply point', () => {
  const plain = partOf('{ kind: supply-point, live: [driving], dead: others, limit: 5 A }');

  it('stands at the posts behind 0.1 Ω where it is live, and is open where it is dead', () => {
    expect(loaded(plain, driving, 14.1).volts).toBeCloseTo(14.1, 9);
    expect(loaded(plain, driving, 14.1).amps).toBeCloseTo(1, 9);
    expect(loaded(plain, parked, 100).volts).toBeCloseTo(0, 9);
  });

  it('is stiff: its limit is what may be drawn, not what it gives', () => {
    expect(loaded(plain, driving, 0.4).amps).toBeCloseTo(14.2 / 0.5, 6);
  });

  it('of a self-limiting source gives no more than its limit', () => {
    const lamp = partOf('{ kind: supply-point, live: [driving], dead: others, self-limiting: yes }');
    expect(loaded(lamp, driving, 10).amps).toBeCloseTo(0.25, 9);
    expect(loaded(lamp, driving, 85).amps).toBeCloseTo(14.2 / 85.1, 9);
    expect(lamp.kind.abilities(lamp.read).signals).toMatchObject({ selfLimiting: true, measured: false });
  });

  it('takes current back when something drives it', () => {
    expect(loaded(plain, driving, 1e6, 1).own).toBeLessThan(-5);
  });

  it('when dead may be a sleeping rail to the negative', () => {
    const rail = partOf('{ kind: supply-point, live: [driving], dead: others, when-dead: 50 Ω, limit: 5 A }');
    expect(loaded(rail, parked, 1e9, 1).volts).toBeCloseTo((20 * 50) / 51, 6);
  });

  it('with volts of its own stands at them, limited too', () => {
    const own = partOf(
      '{ kind: supply-point, live: [driving], dead: others, volts: 10 V, limit: 0.5 A, self-limiting: yes }',
    );
    expect(loaded(own, driving, 100).volts).toBeCloseTo(10 * (100 / 100.1), 9);
    expect(loaded(own, driving, 1).amps).toBeCloseTo(0.5, 9);
    expect(loaded(own, parked, 100).volts).toBeCloseTo(0, 9);
  });

  it('in neither list is taken as the condition says', () => {
    const half = partOf('{ kind: supply-point, live: [driving], dead: [parked], limit: 5 A }');
    const woken = { state: state('woken') };
    expect(loaded(half, { ...woken, unknownLive: true }, 1000).volts).toBeGreaterThan(14);
    expect(loaded(half, { ...woken, unknownLive: false }, 1000).volts).toBeCloseTo(0, 9);
    expect(loaded(half, { ...parked, unknownLive: true }, 1000).volts).toBeCloseTo(0, 9);
  });

  it('tells its states and times, and whether they were measured', () => {
    const of = partOf(
      '{ kind: supply-point, live: [idling, { after-run: 10 min }], dead: others, measured: yes, limit: 1 A, upstream-fuse: 10 A }',
    );
    const { signals } = of.kind.abilities(of.read);
    expect([...(signals?.live ?? [])]).toEqual([
      ['idling', { forSeconds: null }],
      ['after-run', { forSeconds: 600 }],
    ]);
    expect(signals?.dead).toBe('others');
    expect(signals?.liveBasis.sourced.prov).toBe('given');
    expect(signals?.upstreamFuse?.sourced.value).toBe(10);
    expect(plain.kind.abilities(plain.read).signals?.liveBasis.sourced.prov).toBe('memory');
  });
});
