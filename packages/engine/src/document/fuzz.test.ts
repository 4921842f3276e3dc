/** Damaged documents: never a throw, always a place in the text, work in proportion. */
import { describe, expect, it } from 'vitest';
import { mutate } from '../../../../tests/documents/mutate.ts';
import type { Registry } from '../contracts/index.ts';
import { makeRegistry } from '../kinds/registry.ts';
import { editText, formatDiagnostic, readDocument } from './index.ts';
import { testRegistry } from './testing/kinds.ts';
import { SMALL, VAN } from './testing/van.ts';

function check(text: string, registry: Registry, mostSteps: number): void {
  const steps = { nodes: 0 };
  const { build, diagnostics, source } = readDocument(text, registry, { steps });
  const lines = text.replace(/^\uFEFF/, '').split('\n');
  for (const d of diagnostics) {
    const line = lines[d.line - 1];
    expect(line, JSON.stringify({ text, d })).toBeDefined();
    expect(d.column, JSON.stringify({ text, d })).toBeGreaterThanOrEqual(1);
    expect(d.column, JSON.stringify({ text, d })).toBeLessThanOrEqual((line ?? '').length + 1);
    expect(formatDiagnostic(d, 'f'), text).toMatch(/^f:\d+:\d+: [^\n\r]{8,}$/);
    expect(d.message, text).not.toMatch(/undefined|\[object|Error:/);
  }
  const errors = diagnostics.some((d) => d.severity === 'error');
  expect(build === null, text).toBe(errors);
  expect(steps.nodes, text).toBeLessThanOrEqual(mostSteps);
  expect(source.span([]) === null || typeof source.span([])?.line === 'number').toBe(true);
}

describe('damaged documents', () => {
  it('2,000 small ones, test kinds', () => {
    const steps = { nodes: 0 };
    readDocument(SMALL, testRegistry, { steps });
    for (let seed = 1; seed <= 2000; seed++) check(mutate(SMALL, seed), testRegistry, 20 * steps.nodes);
  });

  it('150 thoroughly damaged vehicles, real kinds', () => {
    const registry = makeRegistry();
    const steps = { nodes: 0 };
    readDocument(VAN, registry, { steps });
    for (let seed = 1; seed <= 150; seed++)
      check(mutate(VAN, seed, seed % 3 === 0 ? 'full' : 'small'), registry, 20 * steps.nodes);
  });

  it('changes to damaged documents are made or refused, and can be taken back', () => {
    let made = 0;
    for (let seed = 1; seed <= 300; seed++) {
      const text = mutate(SMALL, seed);
      const { source } = readDocument(text, testRegistry);
      const edited = editText(source, [
        { set: ['parts', 'charger', 'current'], to: '45 A' },
        { remove: ['wires', 'out'] },
      ]);
      if (!edited.ok) continue;
      made++;
      const back = editText(readDocument(edited.text, testRegistry).source, edited.inverse);
      expect(back.ok && back.text, text).toBe(text);
    }
    expect(made).toBeGreaterThan(150);
  });
});
