/** A default that is written down changes no number; a verdict may only stop being open. */
import { describe, expect, it } from 'vitest';
import { operationsOf } from '../../packages/engine/src/checks/testing/judge-text.ts';
import type { Basis, Operation } from '../../packages/engine/src/contracts/index.ts';
import { readDocument } from '../../packages/engine/src/document/index.ts';
import { makeRegistry } from '../../packages/engine/src/kinds/registry.ts';
import { textOf, type Doc, type Fields } from '../documents/plain.ts';
import { ALL, buildOf, changed, EXAMPLES, named, nominal, practiceOf, SCENARIOS } from './builds.ts';
import { expectSame, judged, verdictOf } from './same.ts';

/**
 * Defaults that say more than one number, so that the number alone is another statement: resistances of batteries rise in
 * the cold by default and never when given; the settled one also hangs on the charge.
 */
const MORE_THAN_A_NUMBER = /^parts\.[^.]+\.(resistance|settled-resistance)$/;

/** Writing down how long it stands is asking for a verdict about it. */
const ASKS_FOR_A_VERDICT = /^survey\.(parked|stored)\.lasts$/;

/** What a survey found is stronger than a base load of the build, the default of the state is not. */
const hasBaseLoad = (doc: Doc): boolean => Object.values(doc.parts).some((p) => p['kind'] === 'base-load');

const isSpecial = (doc: Doc, path: string): boolean =>
  MORE_THAN_A_NUMBER.test(path) ||
  ASKS_FOR_A_VERDICT.test(path) ||
  (/^survey\.[^.]+\.load$/.test(path) && hasBaseLoad(doc));

/** A number without an exponent, to the last digit. */
function plain(value: number): string {
  const text = String(value);
  return text.includes('e') ? value.toFixed(20).replace(/0+$/, '').replace(/\.$/, '') : text;
}

const written = ({ sourced }: Basis): string => `${plain(sourced.value)} ${sourced.unit}`.trim();

/** Puts a value at its path of the document; false where nothing of that name can be written. */
function put(doc: Doc, basis: Basis): boolean {
  const [section, id = '', field = '', end = '', rest] = basis.path.split('.');
  if (rest !== undefined) return false;
  if (section === 'parts' && end === '') return into(doc.parts[id], field, written(basis));
  if (section === 'places' && end === '') return into(doc.places[id], field, written(basis));
  if (section === 'wires' && field === 'joints' && doc.wires[id] !== undefined) {
    const wire = doc.wires[id];
    wire['joints'] ??= {};
    return into(wire['joints'] as Fields, end, written(basis));
  }
  if (section === 'survey') {
    doc.head['survey'] ??= {};
    const survey = doc.head['survey'] as Record<string, Fields>;
    const state = (survey[id] ??= {});
    if (end === '') return into(state, field, written(basis));
    state[field] ??= {};
    return into(state[field] as Fields, end, written(basis));
  }
  return false;
}

function into(fields: Fields | undefined, key: string, value: string): boolean {
  if (
    fields === undefined ||
    key === '' ||
    ![undefined, 'unknown'].includes(fields[key] as string | undefined)
  )
    return false;
  fields[key] = value;
  return true;
}

const reads = (doc: Doc): boolean => readDocument(textOf(doc), makeRegistry()).build !== null;

/** The document with every default that it rests on written down, one after the other where they read. */
function stated(doc: Doc, op: Operation): { readonly doc: Doc; readonly paths: readonly string[] } {
  let now = doc;
  const paths: string[] = [];
  for (const basis of op.assumed()) {
    if (isSpecial(doc, basis.path) || !Number.isFinite(basis.sourced.value)) continue;
    let could = false;
    const next = changed(now, (copy) => {
      could = put(copy, basis);
    });
    if (!could || !reads(next)) continue;
    now = next;
    paths.push(basis.path);
  }
  return { doc: now, paths };
}

describe('a default that is written down', () => {
  const written = new Set<string>();

  it.each(named(ALL))('%s: changes no number', (_, doc) => {
    const op = nominal(doc);
    op.all();
    const other = stated(doc, op);
    for (const path of other.paths) written.add(path.split('.').at(-1) ?? '');
    expect(other.paths.length).toBeGreaterThan(0);
    expectSame(op, nominal(other.doc));
  });

  it('covers fields of every section', () => {
    const wanted = [
      'efficiency',
      'minimum',
      'enable-on',
      'contact',
      'joint',
      'hottest',
      'load',
      'lasts',
      'min',
      'max',
    ];
    expect(wanted.filter((field) => !written.has(field))).toEqual([]);
    expect(written.size).toBeGreaterThan(25);
  });

  it.each(named([...EXAMPLES, ...SCENARIOS.slice(0, 2)]))('%s: a verdict only stops being open', (_, doc) => {
    const op = nominal(doc);
    op.all();
    const other = stated(doc, op);
    const [before, after] = [doc, other.doc].map((d) => {
      const build = buildOf(d);
      return judged(operationsOf(build, practiceOf(build)), practiceOf(build));
    });
    const twins = new Map((after ?? []).map((f) => [f.id, f]));
    for (const f of before ?? []) {
      const twin = twins.get(f.id);
      if (f.verdict !== 'open') expect(`${f.id} ${twin?.verdict}`).toBe(`${f.id} ${f.verdict}`);
      else expect(twin === undefined ? 'gone' : verdictOf(twin), f.id).not.toBe('gone');
    }
  });
});
