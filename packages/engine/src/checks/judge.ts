/** Judging a build: every check on every subject, under the nominal, the slack and the stiff assumption. */
import type { Build, Check, Finding, Judgement, Operation, Practice, Subject } from '../contracts/index.ts';
import { aheadOfSet, atOnce, solveInSteps } from '../operate/index.ts';
import { combine } from './combine.ts';
import { WAITING, type Company, type Pushed, type Waiting } from './company.ts';

export interface Operations {
  readonly nominal: Operation;
  readonly slack: Operation;
  readonly stiff: Operation;
}

/** Each assumption has its own values, and so its own practice. */
export interface Practices {
  readonly nominal: Practice;
  readonly slack: Practice;
  readonly stiff: Practice;
}

/** How soon a finding is wanted: what an edit is about, what may well turn by it, all else. */
export type Wanted = 'first' | 'soon' | 'later';

/** How soon each finding is wanted; null: in whatever order is quickest for all of them. */
export type Ahead = ((id: string) => Wanted) | null;

/** All findings of a build, in the order of the checks. `only`: these finding ids, for judging again after one change. */
export const judgeAll = (
  checks: readonly Check[],
  operations: Operations,
  practices: Practices,
  only?: ReadonlySet<string>,
): readonly Finding[] => atOnce(judgeInSteps(checks, operations, practices, { only }));

/** Work that can be laid aside between its steps. Findings that a step yields are final; it waits only where it has company. */
export type InSteps<T> = Generator<Finding | Waiting | undefined, T, undefined>;

interface How {
  readonly only?: ReadonlySet<string> | undefined;
  readonly ahead?: Ahead | undefined;
  /** Who judges slack and stiff meanwhile; asked before each step, as it may come and go. Without, all is judged here. */
  readonly company?: (() => Company | null) | undefined;
}

interface One {
  readonly id: string;
  readonly check: Check;
  readonly subject: Subject;
}

/**
 * As `judgeAll`, in steps, each finding once it is judged. With `ahead`: those that it wants first and then those that it wants soon,
 * as far as they take no solved condition; then the judged set is solved, then come the rest of both, and what is wanted later at the
 * end. With company, what is not wanted first is asked of it, and here only the nominal set is solved. What is judged, and what comes of
 * it, is the same.
 */
export function judgeInSteps(
  checks: readonly Check[],
  operations: Operations,
  practices: Practices,
  how: How = {},
): InSteps<readonly Finding[]> {
  return new Judging(checks, operations, practices, how).steps();
}

/** One judging of one build. */
class Judging {
  readonly #checks: readonly Check[];
  readonly #operations: Operations;
  readonly #practices: Practices;
  readonly #how: How;
  readonly #known = new Map<string, Finding>();
  /** Whom it is judged with, and what was asked for. */
  #asked: Company | null = null;
  readonly #askedFor = new Map<string, One>();
  /** What is judged under nominal values and waits for the company. */
  readonly #waiting = new Map<string, { readonly one: One; readonly nominal: Judgement }>();
  /** How often the company had spoken when it was looked at. */
  #heard = 0;
  /** Assumptions under which the judged set is solved. */
  readonly #solved = new Set<keyof Operations>();

  constructor(checks: readonly Check[], operations: Operations, practices: Practices, how: How) {
    this.#checks = checks;
    this.#operations = operations;
    this.#practices = practices;
    this.#how = how;
  }

  *steps(): InSteps<readonly Finding[]> {
    const ahead = this.#how.ahead ?? (this.#company === null ? null : () => 'later' as const);
    if (ahead === null) return yield* this.#asAsked();
    yield* this.#ahead(ahead);
    const list = yield* this.#listAll();
    for (const one of inTurn(list, ahead)) yield* this.#judge(one);
    yield* this.#drain();
    return list.map(({ id }) => this.#of(id));
  }

  /** Check by check. Where only some findings are wanted, what takes long is laid aside within one of them, too. */
  *#asAsked(): InSteps<readonly Finding[]> {
    const { nominal } = this.#operations;
    const found: Finding[] = [];
    const part = this.#how.only !== undefined;
    for (const check of this.#wantedChecks) {
      const ask = (): readonly Subject[] => check.subjects(nominal);
      const subjects = part ? yield* this.#once('nominal', ask) : ask();
      for (const one of this.#onesOf(check, subjects)) {
        if (part) yield* this.#finish(one);
        else yield this.#keep(one, this.#alone(one));
        found.push(this.#of(one.id));
      }
    }
    return found;
  }

  #of(id: string): Finding {
    const finding = this.#known.get(id);
    if (finding === undefined) throw new Error(`${id} was not judged`);
    return finding;
  }

  /** null: there is none, or there is none any more. Another one than before is asked what is not known yet. */
  get #company(): Company | null {
    const company = this.#how.company?.() ?? null;
    if (company === null || company.gone) return null;
    if (this.#asked !== null && this.#asked !== company) {
      const left = [...this.#askedFor.values()].filter(({ id }) => !this.#known.has(id));
      this.#askedFor.clear();
      this.#askOf(company, left);
    }
    return company;
  }

  /** Checks of which anything is wanted. */
  get #wantedChecks(): readonly Check[] {
    const { only } = this.#how;
    if (only === undefined) return this.#checks;
    const wanted = new Set([...only].map((id) => id.split('/')[0]));
    return this.#checks.filter(({ id }) => wanted.has(id));
  }

  #onesOf(check: Check, subjects: readonly Subject[]): readonly One[] {
    const { only } = this.#how;
    const ones = subjects.map((subject) => ({ id: `${check.id}/${subject.id}`, check, subject }));
    return only === undefined ? ones : ones.filter(({ id }) => only.has(id));
  }

  /** What can be listed before the judged set is solved, check by check. */
  *#listQuick(): Generator<One, void, undefined> {
    const { nominal } = this.#operations;
    for (const check of this.#wantedChecks) {
      if (check.afterAll === true) continue;
      yield* this.#onesOf(check, aheadOfSet([nominal], () => check.subjects(nominal)) ?? []);
    }
  }

  /** All that is judged, check by check; the company is asked for what is not known. */
  *#listAll(): InSteps<readonly One[]> {
    const list: One[] = [];
    const { nominal } = this.#operations;
    for (const check of this.#wantedChecks) {
      list.push(...this.#onesOf(check, yield* this.#once('nominal', () => check.subjects(nominal))));
      yield* this.#told();
    }
    this.#ask(list);
    return list;
  }

  *#ahead(ahead: (id: string) => Wanted): InSteps<void> {
    const [left, rest]: [One[], One[]] = [[], []];
    for (const one of this.#listQuick()) {
      if (ahead(one.id) !== 'first') rest.push(one);
      else if (!this.#quickly(one)) left.push(one);
      yield this.#known.get(one.id);
    }
    const turns = inTurn(rest, ahead);
    const asked = [...left, ...turns];
    for (const one of turns) {
      if (this.#company !== null) {
        if (this.#asked === null) this.#ask(asked);
        yield* this.#nominally(one);
      } else if (ahead(one.id) === 'soon') {
        if (!this.#quickly(one)) left.push(one);
        yield this.#known.get(one.id);
      }
    }
    this.#ask(asked);
    yield* this.#solve('nominal');
    if (this.#company === null) yield* this.#solveOthers();
    for (const one of left) yield* this.#judge(one);
  }

  /** False: it takes what is not solved yet. */
  #quickly(one: One): boolean {
    const { nominal, slack, stiff } = this.#operations;
    const finding = aheadOfSet([nominal, slack, stiff], () => this.#alone(one));
    if (finding !== null) this.#keep(one, finding);
    return finding !== null;
  }

  /** Judged under nominal values before the set is solved, where that can be. */
  *#nominally(one: One): InSteps<void> {
    const nominal = aheadOfSet([this.#operations.nominal], () => this.#under('nominal', one));
    if (nominal === null) yield undefined;
    else yield* this.#await(one, nominal);
  }

  /** It is known once the company has said its part. */
  *#await(one: One, nominal: Judgement): InSteps<void> {
    const [slack, stiff] = [this.#said('slack', one), this.#said('stiff', one)];
    if (slack !== null && stiff !== null) yield this.#keep(one, this.#combined(one, nominal, slack, stiff));
    else {
      this.#waiting.set(one.id, { one, nominal });
      yield* this.#told();
    }
  }

  *#solve(push: keyof Operations): InSteps<void> {
    if (this.#solved.has(push)) return;
    for (const steps = solveInSteps(this.#operations[push]); steps.next().done !== true;) yield* this.#told();
    this.#solved.add(push);
  }

  *#solveOthers(): InSteps<void> {
    yield* this.#solve('slack');
    yield* this.#solve('stiff');
  }

  /** What is so under one assumption; where that takes its judged set, the set is solved in steps before. */
  *#once<T>(push: keyof Operations, ask: () => T): InSteps<T> {
    if (!this.#solved.has(push)) {
      const quick = aheadOfSet([this.#operations[push]], ask);
      if (quick !== null) return quick;
      yield* this.#solve(push);
    }
    return ask();
  }

  #ask(list: readonly One[]): void {
    const company = this.#company;
    if (company !== null) this.#askOf(company, list);
  }

  #askOf(company: Company, list: readonly One[]): void {
    if (this.#asked !== company) [this.#asked, this.#heard] = [company, 0];
    const fresh = list.filter(({ id }) => !this.#known.has(id) && !this.#askedFor.has(id));
    for (const one of fresh) this.#askedFor.set(one.id, one);
    if (fresh.length > 0)
      company.ask(fresh.map(({ id, check, subject }) => ({ id, check: check.id, subject })));
  }

  *#judge(one: One): InSteps<void> {
    if (this.#known.has(one.id) || this.#waiting.has(one.id)) yield undefined;
    else if (this.#company !== null && this.#askedFor.has(one.id)) {
      yield* this.#await(one, this.#under('nominal', one));
    } else yield* this.#finish(one);
  }

  /** Judges it here, as far as nobody else did. */
  *#finish(one: One, nominal?: Judgement): InSteps<void> {
    const so = nominal ?? (yield* this.#once('nominal', () => this.#under('nominal', one)));
    const slack = this.#said('slack', one) ?? (yield* this.#once('slack', () => this.#under('slack', one)));
    const stiff = this.#said('stiff', one) ?? (yield* this.#once('stiff', () => this.#under('stiff', one)));
    if (!this.#known.has(one.id)) yield this.#keep(one, this.#combined(one, so, slack, stiff));
  }

  #under(push: keyof Operations, { check, subject }: One): Judgement {
    return check.judge(subject, this.#operations[push], this.#practices[push]);
  }

  #alone(one: One): Finding {
    return this.#combined(
      one,
      this.#under('nominal', one),
      this.#said('slack', one) ?? this.#under('slack', one),
      this.#said('stiff', one) ?? this.#under('stiff', one),
    );
  }

  #said(push: Pushed, { id }: One): Judgement | null {
    return this.#asked?.said(push, id) ?? null;
  }

  #combined(one: One, nominal: Judgement, slack: Judgement, stiff: Judgement): Finding {
    const { check, subject, id } = one;
    const aside = asideOf(this.#operations.nominal.build, id);
    return combine(check, subject, { nominal, slack, stiff }, this.#practices.nominal, aside);
  }

  /** What is known by what the company has said meanwhile; a step without a finding where that is nothing. */
  *#told(): InSteps<void> {
    const heard = this.#asked?.heard ?? 0;
    let told = 0;
    if (heard !== this.#heard)
      for (const { one, nominal } of this.#waiting.values()) {
        const [slack, stiff] = [this.#said('slack', one), this.#said('stiff', one)];
        if (slack === null || stiff === null) continue;
        told += 1;
        yield this.#keep(one, this.#combined(one, nominal, slack, stiff));
      }
    this.#heard = heard;
    if (told === 0) yield undefined;
  }

  #keep(one: One, finding: Finding): Finding {
    this.#waiting.delete(one.id);
    this.#known.set(one.id, finding);
    return finding;
  }

  /** Waits for the company; without it, what it has not said is judged here. */
  *#drain(): InSteps<void> {
    for (;;) {
      yield* this.#told();
      if (this.#waiting.size === 0) return;
      if (this.#company === null) break;
      if (this.#asked?.heard === this.#heard) yield WAITING;
    }
    for (const { one, nominal } of this.#waiting.values()) yield* this.#finish(one, nominal);
  }
}

/** As they are wanted; what judges the reading of all others stays behind them. */
function inTurn(list: readonly One[], ahead: (id: string) => Wanted): readonly One[] {
  const turns: Readonly<Record<Wanted, One[]>> = { first: [], soon: [], later: [] };
  for (const one of list) turns[one.check.afterAll === true ? 'later' : ahead(one.id)].push(one);
  return [...turns.first, ...turns.soon, ...turns.later];
}

/** Why a finding was set aside; null: it was not. */
export function asideOf(build: Build, id: string): Finding['aside'] {
  const aside = build.aside.find((a) => a.finding === id);
  if (aside === undefined) return null;
  return {
    reason: aside.reason,
    ...(aside.by === undefined ? {} : { by: aside.by }),
    ...(aside.date === undefined ? {} : { date: aside.date }),
  };
}
