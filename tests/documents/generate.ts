/**
 * Makes up sound build documents: they read without a diagnostic, 5 to 60 parts, every kind, both practices, 12 and 24 V,
 * every supply, up to six owner's switches. The same seed gives the same text on every machine.
 */
import { control, feed, house, loads, vehicleSide, type Plan } from './blocks.ts';
import { seeded } from './mutate.ts';
import { textOf, type Doc, type Fields } from './plain.ts';
import { Sketch, volts } from './sketch.ts';

export interface GenerateOptions {
  /** Number of parts, 5 to 60; by the seed when absent. */
  readonly parts?: number;
  /** Owner's switches at most, 0 to 6; by the seed when absent. */
  readonly owners?: number;
  /** The feed and its return are `size: auto`. */
  readonly auto?: boolean;
  /** By the seed when absent. */
  readonly supply?: 'alternator' | 'converter' | 'unknown';
  readonly practice?: 'europe' | 'north-america';
}

/** A document's text. */
export const generate = (seed: number, options: GenerateOptions = {}): string =>
  textOf(generateDoc(seed, options));

/** A document as plain data. */
export function generateDoc(seed: number, options: GenerateOptions = {}): Doc {
  const chance = seeded(seed ^ 0x5eed);
  const practice = options.practice ?? chance.pick(['europe', 'north-america'] as const);
  const nominal = { vehicle: chance.pick([12, 12, 12, 24]), house: chance.pick([12, 12, 12, 12, 24]) };
  const supply =
    options.supply ??
    chance.pick(['alternator', 'alternator', 'alternator', 'converter', 'unknown'] as const);
  const sketch = new Sketch(
    seed,
    nominal,
    practice === 'north-america' && chance.below(10) < 8,
    options.owners ?? chance.below(7),
  );
  const plan: Plan = {
    parts: Math.min(Math.max(options.parts ?? 5 + chance.below(56), 5), 60),
    supply,
    amps: chance.pick([20, 30, 30, 40, 50, 60]),
    feedOhms: chance.pick(['strong', 'strong', 'weak'] as const),
  };
  lay(sketch);
  vehicleSide(sketch, plan);
  house(sketch, plan);
  feed(sketch, plan);
  control(sketch, plan);
  loads(sketch, plan);
  if (options.auto === true) automatic(sketch);
  return sketch.doc(head(sketch, plan, practice, seed), tail(sketch));
}

/** Places nose to tail, and the ways between them: one connected tree. */
function lay(s: Sketch): void {
  s.place('bonnet', {
    label: 'Under the bonnet',
    station: '0.6 m',
    'engine-space': true,
    ...s.maybe(70, () => ({ hottest: '80 °C' })),
  });
  s.place('dash', { label: 'Behind the dashboard', station: '1.4 m' });
  s.place('bulkhead', { station: '2.1 m', ...s.maybe(50, () => ({ hottest: '45 °C' })) });
  s.place('locker', {
    label: 'Locker at the right rear wheel',
    station: '4 m',
    ...s.maybe(60, () => ({ hottest: '45 °C', coldest: s.pick(['-10 °C', '2 °C', '5 °C']) })),
    ...s.maybe(15, () => ({ enclosed: true })),
  });
  s.place('galley', { station: '3.2 m', ...s.maybe(30, () => ({ living: true })) });
  s.place('roof', { level: 'roof', ...s.maybe(30, () => ({ hottest: '65 °C' })) });
  s.route('bonnet', 'bulkhead', s.between(1.2, 2));
  s.route('dash', 'bulkhead', s.between(0.8, 1.5));
  s.route('bulkhead', 'locker', s.between(1.5, 3.5));
  s.route('locker', 'galley', s.between(0.8, 2.5));
  s.route('galley', 'roof', s.between(1.5, 3));
}

function head(s: Sketch, plan: Plan, practice: string, seed: number): Fields {
  const engine = plan.supply !== 'converter';
  return {
    loomwright: 1,
    title: `Generated build ${seed}`,
    ...(s.odds(6) ? {} : { practice }),
    systems: { vehicle: `${s.nominal.vehicle} V`, house: `${s.nominal.house} V` },
    vehicle: {
      supply: plan.supply,
      ...(engine ? s.maybe(60, () => ({ 'variable-voltage': s.odds(30) })) : {}),
      ...(engine
        ? s.maybe(60, () => ({ 'automatic-stop': s.odds(40) }))
        : s.maybe(50, () => ({ 'plug-in': true }))),
      ...(plan.supply === 'converter' ? s.maybe(30, () => ({ engine: true })) : {}),
      length: '5.4 m',
    },
    ...s.maybe(70, () => ({
      climate: { coldest: `${s.pick([-25, -12, 0])} °C`, hottest: `${s.pick([35, 40])} °C` },
    })),
    ...s.maybe(30, () => ({ settings: settings(s) })),
    ...s.maybe(60, () => ({ survey: survey(s, plan) })),
  };
}

const settings = (s: Sketch): Fields => ({
  ...s.maybe(50, () => ({ 'resistance-at': s.pick(['predicted', 'ambient', '20 °C', '70 °C']) })),
  ...s.maybe(50, () => ({ 'fault-contact': `${s.pick([0, 2, 5])} mΩ` })),
  ...s.maybe(50, () => ({ allowance: `${s.between(0.05, 0.3)} m` })),
});

/** What was measured on the vehicle: least below typical below greatest. */
function survey(s: Sketch, plan: Plan): Fields {
  const states =
    plan.supply === 'converter' ? ['ready'] : plan.supply === 'unknown' ? ['driving'] : ['idling', 'driving'];
  const posts = (): Fields => ({
    min: volts(s.between(13.2, 13.6), s.nominal.vehicle),
    typical: volts(s.between(13.8, 14.2), s.nominal.vehicle),
    max: volts(s.between(14.3, 14.7), s.nominal.vehicle),
  });
  return Object.fromEntries(
    states.map((state) => [
      state,
      {
        ...s.maybe(85, () => ({ posts: posts() })),
        ...s.maybe(60, () => ({ output: s.value(s.between(60, 140), 'A') })),
        ...s.maybe(60, () => ({ load: s.value(s.between(15, 40), 'A') })),
        ...s.maybe(20, () => ({ lasts: '2 h' })),
      },
    ]),
  );
}

function tail(s: Sketch): Fields {
  return {
    ...s.maybe(50, () => ({
      requires: ['charges only while the engine runs', 'the owner can stop charging'],
    })),
    ...s.maybe(8, () => ({
      measured: [
        { from: 'charger.in-', to: 'vehicle-battery.-', resistance: `${s.between(3, 9)} mΩ`, by: 'workshop' },
      ],
    })),
    ...s.maybe(10, () => ({
      confirmed: [{ table: 'table:ampacity/iso-13297', edition: '2020', by: 'workshop', date: '2026-03-14' }],
    })),
    ...s.maybe(10, () => ({ notes: 'Made up by a seed.' })),
  };
}

/** The feed and return take one common size. */
function automatic(s: Sketch): void {
  for (const wire of Object.values(s.wires)) {
    const ends = [wire['from'], wire['to']];
    if (ends.some((end) => typeof end === 'string' && /^charger\.in[+-]$/.test(end))) wire['size'] = 'auto';
  }
}
