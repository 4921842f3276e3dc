/** A build judged with company, who judge under slack and stiff values on threads of their own, is judged as it is alone. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  Companion,
  Companions,
  openSession,
  WAITING,
  type Finding,
  type FromCompanion,
  type Judged,
  type Pushed,
  type Session,
  type ToCompanion,
} from '../../packages/engine/src/index.ts';
import { seeded, type Chance } from '../documents/mutate.ts';
import { generate } from '../documents/generate.ts';
import { plain } from './plain.ts';

const SOAK = process.env['SOAK'] === '1';
const SEED = Number(process.env['SOAK_SEED'] ?? '1');
const BUILDS = SOAK ? 30 : 6;
const LONG = 1_800_000;

const EXAMPLES = new URL('../../examples/', import.meta.url);
const examples = readdirSync(EXAMPLES)
  .filter((name) => name.endsWith('.yaml'))
  .toSorted()
  .map((name) => readFileSync(new URL(name, EXAMPLES), 'utf8').replaceAll('size: auto', 'size: 25 mm2'));

/** Messages between threads: each is cloned, and comes later. */
class Wire<M> {
  readonly #hear: (message: M) => void;
  readonly #under: M[] = [];
  carried = 0;

  constructor(hear: (message: M) => void) {
    this.#hear = hear;
  }

  send(message: M): void {
    this.#under.push(structuredClone(message));
  }

  /** Delivers the oldest; false: there is none. */
  deliver(): boolean {
    const message = this.#under.shift();
    if (message === undefined) return false;
    this.carried += 1;
    this.#hear(message);
    return true;
  }
}

/** Two companions, and what carries messages; one of them may be dead. */
class Table {
  readonly companions: Companions;
  readonly #there: Record<Pushed, Wire<ToCompanion>>;
  readonly #back: Wire<FromCompanion>;
  readonly #hands: Record<Pushed, Companion>;
  readonly dead = new Set<Pushed>();
  news = 0;

  constructor() {
    this.#back = new Wire((message) => this.companions.hear(message));
    this.#hands = {
      slack: new Companion('slack', (message) => this.#back.send(message)),
      stiff: new Companion('stiff', (message) => this.#back.send(message)),
    };
    this.#there = {
      slack: new Wire((message) => this.#hands.slack.hear(message)),
      stiff: new Wire((message) => this.#hands.stiff.hear(message)),
    };
    this.companions = new Companions(
      (push, message) => this.#there[push].send(message),
      () => {
        this.news += 1;
      },
    );
  }

  get carried(): number {
    return this.#back.carried;
  }

  /** One companion gets a message or does a step, or a message comes back; false: nothing is to do. */
  move(push: Pushed): boolean {
    if (this.dead.has(push)) return this.#back.deliver();
    return this.#there[push].deliver() || this.#hands[push].step() || this.#back.deliver();
  }

  back(): boolean {
    return this.#back.deliver();
  }
}

interface Course {
  readonly said: readonly Finding[];
  readonly judged: Judged;
  readonly waits: number;
}

/** Judges with company; what happens in between is left to chance. `between` hears of each step. */
function together(
  session: Session,
  table: Table,
  chance: Chance,
  between: (step: number) => void = () => undefined,
): Course {
  const said: Finding[] = [];
  let waits = 0;
  const work = session.judging(table.companions.about(session.source.text));
  for (let n = 0; ; n += 1) {
    between(n);
    const step = work.next();
    if (step.done === true) return { said, judged: step.value, waits };
    if (step.value === WAITING) {
      waits += 1;
      const before = table.news;
      for (let still = 0; table.news === before && still < 3; still += 1)
        if (table.move('slack') || table.move('stiff')) still = -1;
      // A dead one never answers: who waited long enough gives up.
      if (table.news === before) table.companions.fail();
    } else if (step.value !== undefined) said.push(step.value);
    for (let moves = chance.below(8); moves > 0; moves -= 1) table.move(chance.pick(['slack', 'stiff']));
  }
}

const text = (value: unknown): string => JSON.stringify(value, plain);

/** All that is said of a judged session, finding by finding. */
const answer = ({ findings, tally, firstLine, exitCode, conditions, assumed }: Judged): readonly string[] => [
  ...findings.map(text),
  ...assumed.toSorted((a, b) => (a.path < b.path ? -1 : 1)).map(text),
  ...conditions,
  text([tally, firstLine, exitCode]),
];

/** Says only what differs. */
function expectSame(judged: Judged, whole: readonly string[], about = ''): void {
  const here = answer(judged);
  const at = here.findIndex((line, n) => line !== whole[n]);
  if (at >= 0) expect(here[at], about).toBe(whole[at]);
  expect(here.length, about).toBe(whole.length);
}

/** What was said on the way is each finding once, as it stands at the end. */
function expectSaid({ said, judged }: Course): void {
  expect(said.length).toBe(judged.findings.length);
  expect(new Map(said.map((each) => [each.id, each]))).toEqual(
    new Map(judged.findings.map((each) => [each.id, each])),
  );
}

/** Alone, step by step. */
function inSteps(session: Session): Judged {
  const work = session.judging();
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}

const alone = (of: string): readonly string[] => answer(openSession(of).judge());

/** Another rating of a device: an edit that concerns some findings and not others. */
function edited(session: Session, chance: Chance): Session | null {
  const rated = [...(session.build?.parts.values() ?? [])].filter(({ fields }) => 'rating' in fields);
  const [one] = rated.length === 0 ? [] : [chance.pick(rated)];
  if (one === undefined) return null;
  const to = chance.pick(['7.5 A', '20..30 A', '45 A', '100 A', 'unknown']);
  const next = session.edit([{ set: ['parts', one.id, 'rating'], to }]);
  return next.build === null || next.source.text === session.source.text ? null : next;
}

const made = Array.from({ length: BUILDS }, (_, n) =>
  generate(SEED * 61 + n, {
    parts: 8 + 3 * n,
    owners: n % 3,
    practice: n % 2 === 0 ? 'europe' : 'north-america',
  }),
);

describe('judging with company', () => {
  it.each([...examples, ...made].map((of, n) => [n, of] as const))(
    'says what judging alone says: build %i',
    (n, of) => {
      const table = new Table();
      const session = openSession(of);
      const course = together(session, table, seeded(SEED + n));
      expectSame(course.judged, alone(of));
      if (session.build?.practice === undefined) return;
      expectSaid(course);
      expect(table.companions.failed).toBe(false);
      // They were there: all that was said of it came in messages.
      expect(table.carried).toBeGreaterThan(2);
    },
    LONG,
  );

  it(
    'says it of edits, one after the other, first of what was edited',
    () => {
      let edits = 0;
      let ahead = 0;
      for (const [n, of] of made.entries()) {
        const chance = seeded(SEED * 31 + n);
        const table = new Table();
        let now = openSession(of);
        let lone = openSession(of);
        together(now, table, chance);
        inSteps(lone);
        for (let edit = 0; edit < 3; edit += 1) {
          const next = edited(now, chance);
          if (next === null) continue;
          const course = together(next, table, chance);
          // What was assumed is listed as it was read: in steps what an edit changed comes first.
          lone = openSession(next.source.text, { after: lone });
          expectSame(course.judged, answer(inSteps(lone)), lone.source.text.slice(0, 60));
          expect(course.judged.findings.map(text)).toEqual(
            openSession(lone.source.text).judge().findings.map(text),
          );
          now = next;
          // Two practices have to agree first.
          if (next.build?.practice === undefined) continue;
          expectSaid(course);
          ahead += course.said.findIndex(({ id }) => !next.concerned(id));
          edits += 1;
        }
        expect(table.companions.failed).toBe(false);
      }
      expect(edits).toBeGreaterThan(BUILDS);
      expect(ahead).toBeGreaterThan(edits);
    },
    LONG,
  );

  it(
    'goes on alone where they die, fail or are left, whenever that is',
    () => {
      const [, , of = ''] = made;
      const whole = alone(of);
      let lost = 0;
      for (const how of ['one dies', 'both fail', 'left'] as const)
        for (const at of [0, 1, 40, 400, 900]) {
          const table = new Table();
          const course = together(openSession(of), table, seeded(at), (step) => {
            if (step !== at) return;
            if (how === 'one dies') table.dead.add('stiff');
            else if (how === 'both fail') table.companions.fail();
            else table.companions.leave();
          });
          expectSame(course.judged, whole, `${how} at ${at}`);
          expectSaid(course);
          if (how === 'one dies' && table.companions.failed) lost += 1;
        }
      expect(lost).toBeGreaterThan(2);
    },
    LONG,
  );

  it('says what fails there: the judging goes on alone', () => {
    const [of = ''] = made;
    const told: FromCompanion[] = [];
    const companion = new Companion('slack', (message) => told.push(message));
    companion.hear({ question: 1, does: 'ask', text: of, asked: [askedOf('no-such-check')] });
    while (companion.step());
    expect(told).toEqual([{ question: 1, push: 'slack', failed: expect.stringContaining('no-such-check') }]);
    const companions = new Companions(
      () => undefined,
      () => undefined,
    );
    const company = companions.about(of);
    for (const message of told) companions.hear(message);
    expect(companions.failed).toBe(true);
    expect(company.gone).toBe(true);
    expect(companions.about(of).gone).toBe(true);
  });

  it('never mixes in what was said of an earlier text', () => {
    const table = new Table();
    const [of = '', , , other = ''] = made;
    const first = openSession(of);
    const work = first.judging(table.companions.about(of));
    for (let n = 0; n < 30; n += 1) work.next();
    for (let n = 0; n < 4000; n += 1) if (!(table.move('slack') && table.move('stiff'))) break;
    const old = table.companions.about(of);
    const late: FromCompanion = {
      question: 1,
      push: 'slack',
      said: [['conductor/x', {} as never]],
    };
    const now = table.companions.about(other);
    table.companions.hear(late);
    expect(old.gone).toBe(true);
    expect(now.said('slack', 'conductor/x')).toBeNull();
    const course = together(openSession(other), table, seeded(5));
    expectSame(course.judged, alone(other));
    expect(table.companions.failed).toBe(false);
    // What was left comes to its end later, with new company or in one go.
    expectSame(together(first, table, seeded(6)).judged, alone(of));
  });

  it('is brought to its end alone when all is asked for in one go', () => {
    const [, of = ''] = made;
    for (const at of [1, 100, 500]) {
      const table = new Table();
      const session = openSession(of);
      const work = session.judging(table.companions.about(of));
      for (let n = 0; n < at; n += 1) {
        if (work.next().value === WAITING) break;
        table.move('slack');
        table.move('stiff');
      }
      expectSame(session.judge(), alone(of));
    }
  });

  it('leaves builds without a practice, and with sizes to be found, to who judges alone', () => {
    const [of = ''] = made;
    const unnamed = openSession(of.replace(/^practice: .*$/m, ''));
    expect(unnamed.beside('slack')).toBeNull();
    const auto = openSession(generate(SEED * 61, { parts: 8, owners: 0, auto: true }));
    expect(auto.beside('stiff')).toBeNull();
    const table = new Table();
    for (const session of [unnamed, auto]) {
      const course = together(session, table, seeded(1));
      expect(course.waits).toBe(0);
      expectSame(course.judged, alone(session.source.text));
    }
    expect(table.carried).toBe(0);
  });

  it('leaves solving under slack and stiff values to them', () => {
    const [, of = ''] = made;
    const solves = (judge: (session: Session) => void): number => {
      const steps = { nodes: 0, solves: 0 };
      judge(openSession(of, { steps }));
      return steps.solves;
    };
    const shared = solves((session) => together(session, new Table(), seeded(9)));
    expect(shared).toBeLessThan(0.5 * solves((session) => session.judge()));
    expect(shared).toBeGreaterThan(0);
  });

  it('is ready once both have judged a build for themselves', () => {
    const table = new Table();
    const [of = ''] = made;
    table.companions.rehearse(of);
    expect(table.companions.ready).toBe(false);
    while (table.move('slack'));
    expect(table.companions.ready).toBe(false);
    while (table.move('stiff'));
    expect(table.companions.ready).toBe(true);
    table.companions.fail();
    expect(table.companions.ready).toBe(false);
  });
});

const askedOf = (check: string) => ({ id: `${check}/x`, check, subject: { id: 'x', label: 'x' } });
