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

/** Which findings are wanted first; null: in whatever order is quickest for all of them. */
export type Ahead = ((id: string) => boolean) | null;

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
 * As `judgeAll`, in steps, each finding once it is judged. With `ahead`: first those that it wants and that take no solved condition,
 * then all others that take none, then the judged set is solved, then the rest of those that it wants. With company, what is not
 * wanted first is asked of it, and here only the nominal set is solved. What is judged, and what comes of it, is the same.
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
  #othersSolved = false;

  constructor(checks: readonly Check[], operations: Operations, practices: Practices, how: How) {
    this.#checks = checks;
    this.#operations = operations;
    this.#practices = practices;
    this.#how = how;
  }

  *steps(): InSteps<readonly Finding[]> {
    const ahead = this.#how.ahead ?? (this.#company === null ? null : () => false);
    if (ahead !== null) yield* this.#ahead(ahead);
    const list = this.#company === null ? this.#list(false) : yield* this.#askForAll();
    const ids: string[] = [];
    for (const one of list) {
      ids.push(one.id);
      yield* this.#judge(one);
    }
    yield* this.#drain();
    return ids.map((id) => this.#of(id));
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

  /** What is judged, check by check. `quick`: only what can be listed before the judged set is solved. */
  *#list(quick: boolean): Generator<One, void, undefined> {
    const { only } = this.#how;
    const { nominal } = this.#operations;
    const wanted = only === undefined ? null : new Set([...only].map((id) => id.split('/')[0]));
    for (const check of this.#checks) {
      if (wanted !== null && !wanted.has(check.id)) continue;
      if (quick && check.afterAll === true) continue;
      const subjects = (): readonly Subject[] => check.subjects(nominal);
      for (const subject of (quick ? aheadOfSet([nominal], subjects) : subjects()) ?? []) {
        const id = `${check.id}/${subject.id}`;
        if (only === undefined || only.has(id)) yield { id, check, subject };
      }
    }
  }

  *#ahead(ahead: (id: string) => boolean): InSteps<void> {
    const [soon, later]: [One[], One[]] = [[], []];
    for (const one of this.#list(true)) {
      if (!ahead(one.id)) later.push(one);
      else if (!this.#quickly(one)) soon.push(one);
      yield this.#known.get(one.id);
    }
    for (const one of later) {
      if (this.#company === null) yield this.#quickly(one) ? this.#known.get(one.id) : undefined;
      else {
        if (this.#asked === null) this.#ask([...soon, ...later]);
        yield* this.#nominally(one);
      }
    }
    this.#ask([...soon, ...later]);
    yield* this.#solve('nominal');
    if (this.#company === null) yield* this.#solveOthers();
    for (const one of soon) yield* this.#judge(one);
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
    for (const steps = solveInSteps(this.#operations[push]); steps.next().done !== true;) yield* this.#told();
  }

  *#solveOthers(): InSteps<void> {
    if (this.#othersSolved) return;
    yield* this.#solve('slack');
    yield* this.#solve('stiff');
    this.#othersSolved = true;
  }

  /** All that is judged; asked for what is not known. */
  *#askForAll(): InSteps<readonly One[]> {
    const list: One[] = [];
    let check: Check | null = null;
    for (const one of this.#list(false)) {
      if (check !== null && check !== one.check) yield* this.#told();
      list.push(one);
      ({ check } = one);
    }
    this.#ask(list);
    return list;
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
    // Left alone: what the others would have solved is solved in steps, too.
    if (this.#asked !== null) yield* this.#solveOthers();
    if (!this.#known.has(one.id)) yield this.#keep(one, this.#alone(one, nominal));
  }

  #under(push: keyof Operations, { check, subject }: One): Judgement {
    return check.judge(subject, this.#operations[push], this.#practices[push]);
  }

  #alone(one: One, nominal = this.#under('nominal', one)): Finding {
    return this.#combined(
      one,
      nominal,
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
