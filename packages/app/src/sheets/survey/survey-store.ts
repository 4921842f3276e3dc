/** The survey of the build on the desk, and the values of its document as they are written. */
import type { Notation } from '../../engine/plain.ts';
import type { SurveyView, WhyLine } from '../../engine/survey.ts';
import { judge, reader } from '../../build-store.ts';
import { NewestDesk } from '../../engine/newest.ts';
import { Store } from '../../store/store.ts';

export interface SurveyState {
  /** Of the newest text; null before the first. */
  readonly notation: Notation | null;
  readonly view: SurveyView | null;
  /** What would follow of a candidate, by text and id. */
  readonly tried: ReadonlyMap<string, readonly WhyLine[]>;
}

export const surveyStore = new Store<SurveyState>({ notation: null, view: null, tried: new Map() });

const trials = new NewestDesk();
let follows: string | null = null;

export async function followSurvey(text: string): Promise<void> {
  if (follows === text) return;
  follows = text;
  const notation = await reader.ask.notation(text);
  if (follows !== text) return;
  surveyStore.set({ notation });
  const view = await judge.ask(text, async (desk) => await desk.survey(text));
  if (view !== null && follows === text) surveyStore.set({ view });
}

export const triedKey = (text: string, point: string): string => `${point}\n${text}`;

/** Tries a candidate in the place of the run signal. */
export async function tryPoint(text: string, point: string): Promise<void> {
  const key = triedKey(text, point);
  if (surveyStore.get().tried.has(key)) return;
  const lines = await trials.ask(key, async (desk) => await desk.tryPoint(text, point));
  if (lines !== null) surveyStore.set({ tried: new Map([...surveyStore.get().tried, [key, lines]]) });
}

/** A value of the document by its path; undefined: not there. */
export function at(notation: Notation | null, path: readonly (string | number)[]): unknown {
  let now: unknown = notation;
  for (const key of path) {
    if (typeof now !== 'object' || now === null) return undefined;
    now = (now as Readonly<Record<string | number, unknown>>)[key];
  }
  return now;
}

/** Keys of a map of the document, in its order. */
export function keysAt(notation: Notation | null, path: readonly (string | number)[]): readonly string[] {
  const map = at(notation, path);
  return typeof map === 'object' && map !== null ? Object.keys(map) : [];
}

/** A flag as documents write it. */
export const isYes = (value: unknown): boolean => value === true || value === 'yes' || value === 'true';

/** A value as it is written; empty where it is not known. */
export function writtenAs(value: unknown): string {
  if (value === undefined || value === 'unknown') return '';
  if (typeof value === 'string') return value;
  return typeof value === 'number' || typeof value === 'boolean' ? `${value}` : JSON.stringify(value);
}
