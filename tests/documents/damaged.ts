/** Damaged documents through the whole program: how many, what is expected of each. */
import { expect } from 'vitest';
import { formatDiagnostic, openSession, type Session } from '../../packages/engine/src/index.ts';

/** For a soak. */
export const LONG = 1_800_000;
const SOAK = process.env['SOAK'] === '1';
/** `SOAK_SEED` draws other damages, `SOAK=1` ten times as many. */
export const SEED = Number(process.env['SOAK_SEED'] ?? '1');
export const COUNTS = SOAK ? { small: 20_000, full: 500 } : { small: 2_000, full: 50 };
/** A damaged document may cost so many times the work of the sound one. */
export const MOST = 20;

export interface Work {
  nodes: number;
  solves: number;
}

export interface Opened {
  readonly session: Session;
  readonly read: number;
  readonly work: Work;
}

export function open(document: string): Opened {
  const work: Work = { nodes: 0, solves: 0 };
  const session = openSession(document, { steps: work });
  return { session, read: work.nodes, work };
}

/** What is wrong is said at a place that the text has; and there is no build exactly where something is wrong. */
export function expectPlaces(session: Session, document: string): void {
  const lines = document.replace(/^\uFEFF/, '').split('\n');
  for (const d of session.diagnostics) {
    const line = lines[d.line - 1];
    expect(line, document).toBeDefined();
    expect(d.column, document).toBeGreaterThanOrEqual(1);
    expect(d.column, document).toBeLessThanOrEqual((line ?? '').length + 1);
    expect(formatDiagnostic(d, 'f'), document).toMatch(/^f:\d+:\d+: [^\n\r]{8,}$/);
  }
  const errors = session.diagnostics.some((d) => d.severity === 'error');
  expect(session.build === null, document).toBe(errors);
}

/** Runs a program and says with which document it threw. */
export function without<T>(document: string, program: () => T): T {
  try {
    return program();
  } catch (error) {
    throw new Error(`it threw on this document:\n${document}`, { cause: error });
  }
}

export const pick = <T>(list: readonly T[], at: number): T => {
  const item = list[at % list.length];
  if (item === undefined) throw new RangeError('nothing to pick from');
  return item;
};
