/** What changes nothing: other names, another order, a dead wire, a joint without resistance, a default that is written down. */
import { describe, expect, it } from 'vitest';
import type { Id, Operation } from '../../packages/engine/src/contracts/index.ts';
import { operationsOf } from '../../packages/engine/src/checks/testing/judge-text.ts';
import type { Doc, Fields, Plain } from '../documents/plain.ts';
import {
  ALL,
  buildOf,
  changed,
  EXAMPLES,
  generated,
  named,
  nominal,
  practiceOf,
  SCENARIOS,
  type Subject,
} from './builds.ts';
import { expectSame, judged, near, SHARE, verdictOf } from './same.ts';

/** Judging costs more than solving. */
const FEW: readonly Subject[] = [...EXAMPLES, ...SCENARIOS.slice(0, 2), ...generated([3, 4])];

/** Another name for each thing, in the opposite alphabetical order. */
function newNames(names: readonly string[], letter: string): ReadonlyMap<string, string> {
  const sorted = names.toSorted();
  return new Map(sorted.map((n, i) => [n, `${letter}${String(sorted.length - i).padStart(3, '0')}`]));
}

/** Keys under which a name of a part, wire, place or section may stand. */
const NAMING = new Set(['at', 'from', 'to', 'via', 'section', 'return', 'order', 'terminal']);

interface Renamed {
  readonly doc: Doc;
  readonly parts: ReadonlyMap<string, string>;
  readonly wires: ReadonlyMap<string, string>;
  readonly all: ReadonlyMap<string, string>;
}

function renamed(doc: Doc): Renamed {
  const parts = newNames(Object.keys(doc.parts), 'p');
  const wires = newNames(Object.keys(doc.wires), 'w');
  const places = newNames(Object.keys(doc.places), 'l');
  const word = (text: string, key: string): string => {
    const dot = text.indexOf('.');
    if (dot > 0 && parts.has(text.slice(0, dot))) return `${parts.get(text.slice(0, dot))}${text.slice(dot)}`;
    if (key === 'return' || key === 'order') return wires.get(text) ?? text;
    if (key === 'at' || key === 'via') return places.get(text) ?? text;
    if (key === 'section') return parts.get(text) ?? text;
    return places.get(text) ?? parts.get(text) ?? text;
  };
  const walk = (value: Plain, key: string): Plain => {
    if (typeof value === 'string') return NAMING.has(key) ? word(value, key) : value;
    if (Array.isArray(value)) return value.map((v: Plain) => walk(v, key));
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, walk(v, k)]));
  };
  const turned = (map: Record<string, Fields>, names: ReadonlyMap<string, string>): Record<string, Fields> =>
    Object.fromEntries(
      Object.entries(map)
        .toReversed()
        .map(([id, fields]) => [names.get(id) ?? id, walk(fields, '') as Fields]),
    );
  const { aside: _aside, ...tail } = doc.tail;
  return {
    doc: {
      head: doc.head,
      places: turned(doc.places, places),
      routes: doc.routes.map((r) => walk(r, '') as Fields).toReversed(),
      parts: turned(doc.parts, parts),
      wires: turned(doc.wires, wires),
      tail: walk(tail, '') as Fields,
    },
    parts,
    wires,
    all: new Map([...places, ...wires, ...parts]),
  };
}

describe('other names and another order', () => {
  it.each(named(ALL))('%s: no number differs', (_, doc) => {
    const other = renamed(doc);
    const points = expectSame(nominal(doc), nominal(other.doc), {
      part: (id) => other.parts.get(id) ?? id,
      wire: (id) => other.wires.get(id) ?? id,
    });
    expect(points).toBeGreaterThan(20);
  });

  it.each(named(FEW))('%s: no verdict differs', (_, doc) => {
    const other = renamed(doc);
    const [before, after] = [doc, other.doc].map((d) => {
      const build = buildOf(d);
      return judged(operationsOf(build, practiceOf(build)), practiceOf(build));
    });
    const name = (id: string): string =>
      id
        .split('/')
        .map((word, i) => (i === 0 ? word : (other.all.get(word) ?? word)))
        .join('/');
    const twins = new Map((after ?? []).map((f) => [f.id, f]));
    expect([...twins.keys()].toSorted()).toEqual((before ?? []).map((f) => name(f.id)).toSorted());
    for (const f of before ?? []) {
      const twin = twins.get(name(f.id));
      expect(twin === undefined ? 'gone' : verdictOf(twin), f.id).toBe(verdictOf(f));
      if (f.value.value === null || twin?.value.value === null || twin === undefined)
        expect(twin?.value.value ?? null, f.id).toBe(f.value.value);
      else if (Number.isFinite(f.value.value)) near(twin.value.value, f.value.value, SHARE, 1e-6, f.id);
      else expect(twin.value.value).toBe(f.value.value);
    }
  });
});

const withStub = (doc: Doc): Doc =>
  changed(doc, (copy) => {
    const battery = Object.keys(doc.parts).find((id) => doc.parts[id]?.['kind'] === 'battery');
    const at = doc.parts[battery ?? '']?.['at'];
    copy.parts['spare-stud'] = { kind: 'stud', ...(at === undefined ? {} : { at }) };
    copy.wires['stub'] = {
      from: `${battery}.+`,
      to: 'spare-stud.1',
      size: '6 mm2',
      insulation: 'pvc-70',
      length: '10 cm',
    };
  });

describe('a dead wire', () => {
  it.each(named(ALL))('%s: changes no number', (_, doc) => {
    expect(expectSame(nominal(doc), nominal(withStub(doc)))).toBeGreaterThan(20);
  });

  it.each(named(FEW.slice(0, 4)))('%s: changes no verdict about anything else', (_, doc) => {
    const [before, after] = [doc, withStub(doc)].map((d) => {
      const build = buildOf(d);
      return judged(operationsOf(build, practiceOf(build)), practiceOf(build));
    });
    const twins = new Map((after ?? []).map((f) => [f.id, verdictOf(f)]));
    for (const f of before ?? []) expect(`${f.id} ${twins.get(f.id)}`).toBe(`${f.id} ${verdictOf(f)}`);
  });
});

/** A stud has the least resistance of anything between a lug and its middle: 10 µΩ, twice on the way through. */
const THROUGH_STUD = 2e-5;

/** Copper at one temperature, wherever it lies. */
function at20(d: Doc): void {
  d.head['settings'] = { ...(d.head['settings'] as Fields | undefined), 'resistance-at': '20 °C' };
}

/** The wire with a length typed and its joints stated, whole and in two halves. */
function split(doc: Doc, id: Id, op: Operation): readonly [whole: Doc, halves: Doc] {
  const laid = op.wires.get(id);
  const length = laid?.length?.sourced.value ?? 0;
  const joint = (end: 0 | 1): number => (laid?.joints[end].sourced.value ?? 0) * 1e3;
  const whole = changed(doc, (d) => {
    at20(d);
    const { via: _via, ...wire } = d.wires[id] ?? {};
    d.wires[id] = {
      ...wire,
      length: `${length} m`,
      joints: { from: `${joint(0)} mΩ`, to: `${joint(1) + THROUGH_STUD * 1e3} mΩ` },
    };
  });
  const halves = changed(whole, (d) => {
    const wire = d.wires[id] ?? {};
    d.parts['middle'] = { kind: 'stud' };
    d.wires[id] = {
      ...wire,
      to: 'middle.1',
      length: `${length / 2} m`,
      joints: { from: `${joint(0)} mΩ`, to: '0 mΩ' },
    };
    d.wires['second-half'] = {
      ...wire,
      from: 'middle.2',
      length: `${length / 2} m`,
      joints: { from: '0 mΩ', to: `${joint(1)} mΩ` },
    };
  });
  return [whole, halves];
}

describe('a wire in two halves', () => {
  it.each(named(ALL))('%s: joined without resistance they are the wire', (_, doc) => {
    const op = nominal(doc);
    const long = [...op.wires.values()]
      .filter(
        (w) =>
          (w.length?.sourced.value ?? 0) > 0.5 &&
          w.ohms20 !== null &&
          doc.wires[w.id]?.['material'] !== 'cca',
      )
      .filter((w) => (w.ohms20?.sourced.value ?? 0) > 4e-5)
      .toSorted((a, b) => (b.areaMm2 ?? 0) - (a.areaMm2 ?? 0))
      .slice(0, 2);
    expect(long.length).toBeGreaterThan(0);
    for (const w of long) {
      const [whole, halves] = split(doc, w.id, op);
      expectSame(nominal(whole), nominal(halves), {}, w.id);
    }
  });
});
