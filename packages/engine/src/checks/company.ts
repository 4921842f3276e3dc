/** Judging with others: they say what is so with all values slack and all stiff, while nominal values are judged here. */
import type { Judgement, Push, Subject } from '../contracts/index.ts';

/** The assumptions under which a companion judges. */
export type Pushed = Exclude<Push, 'nominal'>;
export const PUSHED: readonly Pushed[] = ['slack', 'stiff'];

/** What is asked for: a check and a subject of it, under the id of their finding. */
export interface Asked {
  readonly id: string;
  readonly check: string;
  readonly subject: Subject;
}

/** Two companions who judge one build, one of them under slack values and one under stiff ones. What they say comes between two steps. */
export interface Company {
  /** Asks both; what is asked first is answered first. */
  ask(asked: readonly Asked[]): void;
  /** What was said of a finding so far; null: nothing. What was said stays true when they are gone. */
  said(push: Pushed, id: string): Judgement | null;
  /** How often something was said: while it stays the same, nothing new is there. */
  readonly heard: number;
  /** Nothing more will be said: one of them failed, is gone, or has left for another build. */
  readonly gone: boolean;
}

/** Stands in place of a finding where nothing is left to do before the company says more: to be asked again then, not before. */
export const WAITING = 'waiting';
export type Waiting = typeof WAITING;

/**
 * A judgement as plain data, with all that `combine` may read of it. Its words are read only where it fails: those of one that holds
 * are left out, as making and sending them costs more than judging.
 */
export function asData(judgement: Judgement): Judgement {
  const { holds, severity, note, value, limit, margin, worst, others, restsOn, limits, missing } = judgement;
  const fails = holds === false;
  return {
    holds,
    ...(severity === undefined ? {} : { severity }),
    ...(note === undefined ? {} : { note }),
    says: fails ? judgement.says : '',
    value,
    limit,
    margin,
    worst,
    others,
    working: fails ? judgement.working : [],
    restsOn,
    limits,
    missing,
    about: fails ? judgement.about : [],
  };
}
