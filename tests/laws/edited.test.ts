/** A session that grew out of others by edits answers, to the byte, as a session opened on its text alone. */
import { describe, expect, it } from 'vitest';
import { openSession, type Change, type Finding, type Session } from '../../packages/engine/src/index.ts';
import { seeded, type Chance } from '../documents/mutate.ts';
import { generate } from '../documents/generate.ts';
import { plain } from './plain.ts';

const SOAK = process.env['SOAK'] === '1';
const SEED = Number(process.env['SOAK_SEED'] ?? '1');
const [BUILDS, EDITS] = SOAK ? [15, 15] : [5, 8];
const LONG = 1_800_000;

const SIZES = ['1.5 mm2', '4 mm2', '6 mm2', '16 mm2', '25..35 mm2', 'unknown'];
const AMPS = ['3 A', '10 A', '15 A', '30..40 A', '60 A', 'unknown'];
const LENGTHS = ['30 cm', '1.2 m', '2..4 m', '6 m', 'unknown'];

/** One thing that a person may do to a build; undefined: nothing of that sort is there. */
function change(session: Session, chance: Chance, n: number): Change | undefined {
  const { build } = session;
  if (build === null) return undefined;
  const wires = [...build.wires.keys()];
  const withField = (field: string) =>
    [...build.parts.values()].filter((part) => field in part.fields).map((part) => part.id);
  const one = <T>(list: readonly T[]): T | undefined => (list.length === 0 ? undefined : chance.pick(list));
  const [wire, rated, drawing, place] = [
    one(wires),
    one(withField('rating')),
    one(withField('current')),
    one([...build.places.keys()]),
  ];
  if (wire === undefined) return undefined;
  switch (chance.below(9)) {
    case 0:
      return { set: ['wires', wire, 'size'], to: chance.pick(SIZES) };
    case 1:
      return { set: ['wires', wire, 'length'], to: chance.pick(LENGTHS) };
    case 2:
      return rated === undefined ? undefined : { set: ['parts', rated, 'rating'], to: chance.pick(AMPS) };
    case 3:
      return drawing === undefined
        ? undefined
        : { set: ['parts', drawing, 'current'], to: chance.pick(AMPS) };
    case 4:
      return place === undefined
        ? undefined
        : { set: ['parts', `more-${n}`], to: { kind: 'load', at: place, current: '3 A' } };
    case 5:
      return { remove: ['wires', wire] };
    case 6:
      return place === undefined ? undefined : { set: ['places', place, 'hottest'], to: '55 °C' };
    case 7:
      return { set: ['wires', wire, 'colour'], to: 'blue' };
    default:
      return { set: ['title'], to: `Title ${n}` };
  }
}

/** All that is said of a build. `anyOrder`: what was assumed is listed as it was read, which is another order where it is judged ahead. */
function answers(session: Session, anyOrder = false): string {
  if (session.build === null) return JSON.stringify(session.diagnostics);
  const drawn = session.subject();
  const { findings, tally, conditions, assumed } = session.judge();
  return JSON.stringify(
    [
      session.diagnostics,
      session.build,
      drawn,
      findings,
      tally,
      conditions,
      anyOrder ? assumed.toSorted((a, b) => (a.path < b.path ? -1 : 1)) : assumed,
      session.subject(),
      session.schedule(),
    ],
    plain,
  );
}

describe('an edited session', () => {
  it(
    'answers as one that was opened on its text',
    () => {
      let made = 0;
      for (let b = 0; b < BUILDS; b++) {
        const chance = seeded(SEED * 104_729 + b);
        const first = openSession(generate(SEED * 31 + b, { parts: 6 + chance.below(16), owners: 1 }));
        answers(first);
        let now = first;
        const texts = [first.source.text];
        for (let n = 0; n < EDITS; n++) {
          const wanted = change(now, chance, n);
          if (wanted === undefined) continue;
          // Now and then an earlier text is opened again, as undo does.
          const next =
            chance.below(5) === 0 ? openSession(chance.pick(texts), { after: now }) : now.edit([wanted]);
          if (next.build === null) continue;
          const text = next.source.text;
          expect(answers(next), text).toBe(answers(openSession(text)));
          made += 1;
          texts.push(text);
          now = next;
        }
      }
      expect(made).toBeGreaterThan((BUILDS * EDITS) / 2);
    },
    LONG,
  );
});

describe('judging in steps', () => {
  it('says what judging in one go says, also when the rest is asked for in one go', () => {
    const text = generate(SEED * 31 + 7, { parts: 12, owners: 1 });
    const whole = answers(openSession(text), true);
    const stepped = openSession(text);
    let steps = 0;
    for (const work = stepped.judging(); work.next().done !== true;) steps += 1;
    expect(steps).toBeGreaterThan(20);
    expect(answers(stepped, true)).toBe(whole);
    const left = openSession(text);
    const begun = left.judging();
    for (let i = 0; i < steps / 2; i += 1) begun.next();
    expect(JSON.stringify(left.judge().findings, plain)).toBe(
      JSON.stringify(stepped.judge().findings, plain),
    );
    expect(begun.next()).toEqual({ done: true, value: left.judge() });
  });

  it('judges what is confirmed after all that may rest on it', () => {
    let confirmed = 0;
    for (let b = 0; b < 200 && confirmed < 3; b++) {
      const text = generate(SEED * 61 + b, { parts: 10, owners: 0, practice: 'north-america' });
      const stepped = openSession(text);
      // Few of them confirm anything.
      if ((stepped.build?.confirmed.length ?? 0) === 0) continue;
      for (const work = stepped.judging(); work.next().done !== true;);
      expect(JSON.stringify(stepped.judge().findings, plain)).toBe(
        JSON.stringify(openSession(text).judge().findings, plain),
      );
      confirmed += stepped.build?.confirmed.length ?? 0;
    }
    expect(confirmed).toBeGreaterThan(0);
  });

  it('says each finding once and for good, first of what an edit changed', () => {
    let early = 0;
    for (let b = 0; b < 4; b++) {
      const chance = seeded(SEED * 7919 + b);
      const first = openSession(generate(SEED * 31 + b, { parts: 12, owners: 1, practice: 'europe' }));
      first.judge();
      const [rated] = [...(first.build?.parts.values() ?? [])].filter((part) => 'rating' in part.fields);
      // Two practices have to agree before anything is final.
      if (rated === undefined || first.build?.practice === undefined) continue;
      const next = first.edit([{ set: ['parts', rated.id, 'rating'], to: chance.pick(['7.5 A', '45 A']) }]);
      const said: Finding[] = [];
      const work = next.judging();
      let step = work.next();
      for (; step.done !== true; step = work.next()) if (step.value !== undefined) said.push(step.value);
      const { findings } = step.value;
      expect(new Map(said.map((finding) => [finding.id, finding]))).toEqual(
        new Map(findings.map((finding) => [finding.id, finding])),
      );
      expect(said.length).toBe(findings.length);
      const concerned = said.findIndex(({ id }) => !next.concerned(id));
      expect(said.slice(0, concerned).every(({ about }) => about.length > 0)).toBe(true);
      early += concerned;
    }
    expect(early).toBeGreaterThan(0);
  });

  it('computes nothing again where an edit changed words only, and says what was set aside', () => {
    const first = openSession(generate(SEED * 31 + 7, { parts: 12, owners: 1 }));
    const { findings } = first.judge();
    const [bad] = findings.filter(({ verdict }) => verdict !== 'met');
    const [wire] = first.build?.wires.keys() ?? [];
    if (bad === undefined || wire === undefined) throw new Error('nothing to set aside');
    let now = first;
    for (const change of [
      { set: ['title'], to: 'Another title' },
      { set: ['notes'], to: 'Seen on a wet day.' },
      { set: ['wires', wire, 'colour'], to: 'blue' },
      { add: ['aside', 0], value: { finding: bad.id, reason: 'seen' } },
    ]) {
      now = now.edit([change]);
      const work = now.judging();
      expect(work.next().done).toBe(true);
      expect(answers(now)).toBe(answers(openSession(now.source.text)));
    }
    expect(now.judge().findings.find(({ id }) => id === bad.id)?.aside).toEqual({ reason: 'seen' });
  });
});
