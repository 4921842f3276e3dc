/** Holding two builds against each other: every number of every condition, and every verdict. */
import { expect } from 'vitest';
import { judgeAll, type Operations } from '../../packages/engine/src/checks/judge.ts';
import { checks } from '../../packages/engine/src/checks/registry.ts';
import type {
  Condition,
  Finding,
  Id,
  Operation,
  Practice,
  Solved,
} from '../../packages/engine/src/contracts/index.ts';

/** How the second build differs from the first in names and in what its numbers are multiplied by. */
export interface Likeness {
  /** Name in the second build of a part of the first one. */
  readonly part?: (id: Id) => Id;
  /** Name of a wire; null: it is not there any more. */
  readonly wire?: (id: Id) => Id | null;
  readonly volts?: number;
  readonly amps?: number;
  /** Greatest difference, as a share of the number or of what is noise in it. */
  readonly share?: number;
  /** Only these conditions of the first build. */
  readonly only?: (c: Condition) => boolean;
}

export const SHARE = 1e-9;
/** Volts and amperes below which a difference is rounding of the whole circuit's hundreds of amperes, not of the number. */
const NOISE = { volts: 1, amps: 1 };

const memoryText = (s: Solved, part: (id: Id) => Id): string =>
  [...s.memory]
    .map(([id, value]) => `${part(id)}=${value}`)
    .toSorted()
    .join();

const signature = (s: Solved, part: (id: Id) => Id): string =>
  `${s.outcome} ${s.outcome === 'cycle' ? `${s.cycle?.periodMs}` : memoryText(s, part)}`;

/** Number of operating points that were held against each other. */
export function expectSame(a: Operation, b: Operation, like: Likeness = {}, about = ''): number {
  const part = like.part ?? ((id: Id) => id);
  const hands = (of: Condition['hands']): Condition['hands'] =>
    Object.fromEntries(Object.entries(of).map(([id, closed]) => [part(id), closed]));
  let points = 0;
  for (const c of a.judged) {
    if (c.setPoint !== null || like.only?.(c) === false) continue;
    const one = a.solve(c);
    const other = b.solve({ ...c, hands: hands(c.hands), open: c.open === null ? null : part(c.open) });
    const others = new Map(other.map((s) => [signature(s, (id) => id), s]));
    const names = one.map((s) => signature(s, part)).toSorted();
    expect([...others.keys()].toSorted(), `${about} ${a.conditionId(c)}`).toEqual(names);
    for (const s of one) {
      const twin = others.get(signature(s, part));
      if (twin !== undefined) samePoint(a, s, twin, like, `${about} ${a.conditionId(c)}`);
      points += 1;
    }
  }
  return points;
}

function samePoint(a: Operation, s: Solved, twin: Solved, like: Likeness, about: string): void {
  const part = like.part ?? ((id: Id) => id);
  const ref = (terminal: string): string => {
    const dot = terminal.indexOf('.');
    return `${part(terminal.slice(0, dot))}${terminal.slice(dot)}`;
  };
  const { share = SHARE, volts = 1, amps = 1 } = like;
  const minus = a.posts?.minus ?? null;
  for (const [id, wire] of a.wires) {
    const other = like.wire === undefined ? id : like.wire(id);
    if (other !== null) {
      near(twin.wireAmps(other), s.wireAmps(id) * amps, share, NOISE.amps, `${about}: A in ${id}`);
      near(twin.wireMost(other), s.wireMost(id) * amps, share, NOISE.amps, `${about}: most A in ${id}`);
    }
    if (minus === null) continue;
    for (const end of [wire.from, wire.to]) {
      const [before, after] = [s.volts(end, minus), twin.volts(ref(end), ref(minus))];
      if (before === null || after === null) expect(after, `${about}: ${end}`).toBe(before);
      else near(after, before * volts, share, NOISE.volts, `${about}: V at ${end}`);
    }
  }
  for (const p of a.parts.values()) {
    if (p.ability.converts === undefined) continue;
    const [before, after] = [s.outAmps(p.id), twin.outAmps(part(p.id))];
    near(after, before * amps, share, NOISE.amps, `${about}: A out of ${p.id}`);
    expect(twin.charging(part(p.id)), `${about}: ${p.id} charges`).toBe(s.charging(p.id));
  }
}

export function near(value: number, wanted: number, share: number, least: number, about: string): void {
  const off = Math.abs(value - wanted);
  if (off <= share * Math.max(Math.abs(wanted), least)) return;
  expect.fail(`${about}: ${value} instead of ${wanted}, off by ${off}`);
}

/** All findings of a build under one practice. */
export const judged = (operations: Operations, practice: Practice): readonly Finding[] =>
  judgeAll(checks, operations, { nominal: practice, slack: practice, stiff: practice });

/** Verdict, and what is open about it, by finding. */
export const verdictOf = (f: Finding): string => `${f.verdict} ${f.open ?? ''} ${f.ifNot ?? ''}`.trim();
