/** What every registered kind must keep, whatever it is. */
import { describe, expect, it } from 'vitest';
import type {
  Ability,
  Build,
  ElementOf,
  Part,
  Sourced,
  Surroundings,
  Terminals,
} from '../contracts/index.ts';
import { readDocument } from '../document/index.ts';
import { writeDocument } from '../document/write.ts';
import { common } from './common.ts';
import { kinds, makeRegistry } from './registry.ts';
import { asked, grid, surroundings, type Asked } from './testing/surroundings.ts';

const registry = makeRegistry();

function buildOf(example: string): Build {
  const { build, diagnostics } = readDocument(example, registry);
  expect(diagnostics.map((d) => `${d.line}: ${d.message}`)).toEqual([]);
  if (build === null) throw new Error('the example does not read');
  return build;
}

/** A part with nothing but its kind, and the parts of that kind in the example. */
function partsOf(name: string, build: Build): readonly Asked[] {
  const bare: Part = { id: 'bare', kind: name, fields: {} };
  const written = [...build.parts.values()].filter((part) => part.kind === name);
  return [bare, ...written].map((part) => asked(part, build.systems));
}

const wiresOf = (of: Asked, build: Build): readonly string[] =>
  [...build.wires.values()]
    .flatMap((wire) => [wire.from, wire.to])
    .filter((end) => end.startsWith(`${of.part.id}.`))
    .map((end) => end.slice(of.part.id.length + 1));

const around = (of: Asked, build: Build) => ({
  wires: [...new Set(wiresOf(of, build))],
  sections: Object.fromEntries(
    [...build.parts.values()]
      .filter((part) => part.kind === 'body-section')
      .map((part) => [part.id, asked(part, build.systems).read]),
  ),
});

function nodesOf(e: ElementOf<string>): readonly string[] {
  if (e.type === 'hold') return [e.a, e.b, e.senseA, e.senseB];
  if (e.type === 'converter') return [e.inA, e.inB, e.outA, e.outB, e.senseA, e.senseB];
  return [e.a, e.b];
}

const shapeOf = (elements: readonly ElementOf<string>[]) =>
  elements.map((e) => `${e.type} ${nodesOf(e).join(' ')}`);

const isTerminal = (terminals: Terminals, name: string): boolean =>
  terminals.type === 'numbered' ? /^[1-9]\d*$/.test(name) : terminals.names.includes(name);

const isNode = (terminals: Terminals, name: string): boolean =>
  name.startsWith('.') ||
  name.startsWith('^section:') ||
  /^\^posts[+-]$/.test(name) ||
  isTerminal(terminals, name);

/** Every terminal name that an ability speaks of. */
function terminalsIn(ability: Ability): readonly string[] {
  const a = ability;
  const names: (string | null | undefined)[] = [
    a.protects?.from,
    a.protects?.to,
    a.stores?.plus,
    a.stores?.minus,
    a.generates?.plus,
    a.generates?.minus,
    a.converts?.inPlus,
    a.converts?.inMinus,
    a.converts?.outPlus,
    a.converts?.outMinus,
    a.converts?.sensePlus,
    a.converts?.senseMinus,
    a.converts?.enable?.plus,
    a.converts?.enable?.minus,
    a.consumes?.plus,
    a.consumes?.minus,
    a.measures?.battery,
    a.measures?.system,
    a.signals?.out,
    a.senses?.post,
    a.senses?.chassis,
    a.grounds?.terminal,
    a.standby?.plus,
    a.standby?.minus,
    a.switches?.coil?.plus,
    a.switches?.coil?.minus,
    ...(a.switches?.contacts ?? []).flatMap((c) => [c.from, c.to]),
    ...(a.conducts ?? []).flat(),
    ...(a.across ?? []).flat(),
  ];
  return names.filter((name) => typeof name === 'string');
}

/** A source of its own: able to push current out of a terminal although nothing drives it. */
function delivers(e: ElementOf<string>): boolean {
  if (e.type === 'resistor' || e.type === 'power') return false;
  if (e.type === 'hold') return e.greatest > 0 || e.least < 0;
  if (e.type === 'converter') return e.on;
  const at = (volts: number): number => {
    const [first, last] = [e.points[0], e.points.at(-1)];
    if (first === undefined || last === undefined) return 0;
    if (volts <= first[0]) return first[1] + (volts - first[0]) * e.below;
    if (volts >= last[0]) return last[1] + (volts - last[0]) * e.above;
    const i = e.points.findIndex((p) => p[0] >= volts);
    const [a, b] = [e.points[i - 1] ?? first, e.points[i] ?? last];
    return a[1] + ((volts - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
  };
  return [-60, -30, -15, -1, 0, 1, 5, 10, 12, 13, 14, 16, 30, 60].some((volts) => volts * at(volts) < -1e-12);
}

const opened = (at: Surroundings) => at.opened && at.mode === 'service';

describe.each(kinds.map((kind) => [kind.name, kind] as const))('%s', (name, kind) => {
  const build = buildOf(kind.example);

  it('has an example that reads without a fault, uses the kind, and is written back as it was', () => {
    expect([...build.parts.values()].some((part) => part.kind === name)).toBe(true);
    const { source } = readDocument(kind.example, registry);
    const notation = source.notation([]);
    if (typeof notation !== 'object' || Array.isArray(notation)) throw new Error('a document is a map');
    const written = writeDocument(notation as Readonly<Record<string, unknown>>);
    expect(readDocument(written, registry).build).toEqual(build);
  });

  it('explains every field, and no field hides a common one', () => {
    for (const [field, spec] of Object.entries(kind.fields)) {
      expect(spec.doc, field).toMatch(/^.{10,}\.$/s);
      expect(Object.keys(common)).not.toContain(field);
    }
  });

  it('gives every default a source, a provenance and a nominal inside its band', () => {
    for (const system of [12, 24, 48]) {
      for (const of of partsOf(name, build)) {
        for (const [field, spec] of Object.entries({ ...common, ...kind.fields })) {
          const made =
            spec.fallback?.(of.read, { nominal: system, systems: { vehicle: system, house: system } }) ??
            null;
          if (typeof made !== 'object' || made === null) continue;
          expectSourced(made, `${name}.${field} at ${system} V`);
        }
      }
    }
  });

  it('reads every value that it uses with a source', () => {
    for (const of of partsOf(name, build)) {
      of.kind.abilities(of.read);
      for (const at of grid(of, around(of, build)).slice(0, 40)) of.kind.elements(at);
      for (const basis of of.values.assumed()) expectSourced(basis.sourced, basis.path);
    }
  });

  it('has the same elements in all surroundings, and only numbers change', () => {
    for (const of of partsOf(name, build)) {
      const ats = grid(of, around(of, build));
      const shapes = new Set(ats.map((at) => shapeOf(kind.elements(at)).join('; ')));
      expect([...shapes]).toHaveLength(1);
    }
  });

  it('touches only its own terminals, inner nodes, the posts and body sections', () => {
    for (const of of partsOf(name, build)) {
      const terminals = kind.terminals(of.read);
      const elements = kind.elements(surroundings(of, around(of, build)));
      for (const node of elements.flatMap(nodesOf)) expect(isNode(terminals, node), node).toBe(true);
    }
  });

  it('keeps to the rules of the elements', () => {
    for (const of of partsOf(name, build)) {
      const all = grid(of, around(of, build)).flatMap((at) => kind.elements(at));
      expect(all.filter((e) => !isSound(e))).toEqual([]);
    }
  });

  it('delivers nothing when it is opened', () => {
    for (const of of partsOf(name, build)) {
      for (const at of grid(of, around(of, build)).filter(opened)) {
        expect(kind.elements(at).filter(delivers)).toEqual([]);
      }
    }
  });

  it('speaks only of terminals and elements that it has', () => {
    for (const of of partsOf(name, build)) {
      const ability = kind.abilities(of.read);
      const terminals = kind.terminals(of.read);
      const count = kind.elements(surroundings(of, around(of, build))).length;
      for (const terminal of terminalsIn(ability))
        expect(isTerminal(terminals, terminal), terminal).toBe(true);
      const indexes = [
        ...(ability.joints ?? []).map((j) => j.element),
        ...(ability.switches?.contacts ?? []).map((c) => c.element),
        ...(ability.measures === undefined ? [] : [ability.measures.element]),
      ];
      for (const index of indexes) expect(index).toBeLessThan(count);
      for (const [from, to] of Object.entries(kind.unwired ?? {})) {
        expect(isTerminal(terminals, from) && isTerminal(terminals, to)).toBe(true);
      }
    }
  });

  it('remembers, if it does, only values that it has', () => {
    for (const of of partsOf(name, build)) {
      const remembered = kind.memory?.(surroundings(of, around(of, build))) ?? null;
      if (remembered === null) continue;
      const { length } = remembered.values;
      for (const rule of remembered.rules) {
        expect([rule.from, rule.to].every((v) => v >= 0 && v < length)).toBe(true);
        expect(rule.from).not.toBe(rule.to);
        expect(Number.isInteger(rule.delayMs) && rule.delayMs >= 100).toBe(true);
        expect(rule.says.length).toBeGreaterThan(0);
      }
      expect(remembered.start).toBeLessThan(length);
      expect(remembered.on.every((v) => v < length)).toBe(true);
    }
  });

  it('gives each limit a source', () => {
    for (const of of partsOf(name, build)) {
      const { protects, dcRating, signals, switches } = kind.abilities(of.read);
      const limits = [
        protects?.rating,
        protects?.interrupts,
        protects?.curve?.basis,
        protects?.factor(70),
        dcRating?.stated,
        dcRating?.family,
        signals?.limit,
        signals?.liveBasis,
        switches?.rating.resistive,
      ];
      for (const limit of limits) if (limit) expect(limit.sourced.source, limit.path).not.toBe('');
    }
  });
});

function expectSourced(sourced: Sourced, what: string): void {
  expect(sourced.source.length, what).toBeGreaterThan(3);
  expect(['given', 'confirmed', 'seen', 'computed', 'practice', 'memory'], what).toContain(sourced.prov);
  expect(Number.isFinite(sourced.value), what).toBe(true);
  if (sourced.band === undefined) return;
  expect(sourced.band[0], what).toBeLessThanOrEqual(sourced.value);
  expect(sourced.band[1], what).toBeGreaterThanOrEqual(sourced.value);
}

function isSound(e: ElementOf<string>): boolean {
  switch (e.type) {
    case 'resistor':
      return e.ohms >= 1e-5;
    case 'hold':
      return e.least <= e.greatest && Number.isFinite(e.volts);
    case 'power':
      return e.watts >= 0 && e.knee > 0 && e.limit > 0;
    case 'pieces':
      return (
        [e.below, e.above].every((slope) => slope >= 0 && slope <= 1.0001e5) &&
        e.points.every(([volts, amps], i) => {
          const before = e.points[i - 1];
          const rising = before === undefined || (volts > before[0] && amps >= before[1]);
          return rising && Number.isFinite(volts) && Number.isFinite(amps);
        })
      );
    case 'converter':
      return (
        e.current > 0 &&
        e.lowest > 0 &&
        e.inputLimit > 0 &&
        e.efficiency.every(([, eta]) => eta > 0 && eta <= 1)
      );
    default:
      return false;
  }
}

describe('the registry', () => {
  it('has each kind once, under its own name', () => {
    expect(registry.kinds.size).toBe(kinds.length);
    for (const [name, kind] of registry.kinds) expect(kind.name).toBe(name);
  });
});
