/** `draw`: pages in a folder, the order kept beside them, mistakes said in words. */
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Session } from '@loomwright/engine';
import type { Engine } from './engine.ts';
import { engine, main } from './index.ts';
import { memoryHost } from './testing/memory-host.ts';

const example = (name: string) => fileURLToPath(new URL(`../../../examples/${name}.yaml`, import.meta.url));
const [VAN, CAMPER] = ['beekeepers-van', 'faulty-camper'].map(example) as [string, string];

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'drawing-'));
});
afterEach(() => rm(folder, { recursive: true }));

/** Opens each file once: judging is what takes time, and a session remembers it. */
const opened = new Map<string, Session>();
const remembering: Engine = {
  ...engine,
  open(text, options) {
    const key = options.file ?? '';
    const session = opened.get(key) ?? engine.open(text, options);
    opened.set(key, session);
    return session;
  },
};

async function run(...argv: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  const memory = memoryHost({ files: { [VAN]: await readFile(VAN), [CAMPER]: await readFile(CAMPER) } });
  const code = await main(argv, { host: memory.host, engine: remembering });
  return { code, out: memory.out(), err: memory.err() };
}

describe('draw', () => {
  it('writes each view as pages, the vehicle beside them, and the order', async () => {
    const { code, out } = await run('draw', VAN, '--out', folder, '--date', '2026-01-31');
    expect(code).toBe(0);
    expect((await readdir(folder)).toSorted()).toEqual([
      'drawing-1-power.svg',
      'drawing-2-control.svg',
      'drawing-3-negative.svg',
      'drawing-order.json',
      'vehicle.svg',
    ]);
    expect(out.trim().split('\n')).toHaveLength(4);
    const page = await readFile(join(folder, 'drawing-1-power.svg'), 'utf8');
    expect(page).toContain('2026-01-31');
    expect(page).toMatch(/^<svg [^>]*width="297mm" height="210mm"/);
  });

  it('draws the same again from the order it kept, and afresh when told to', async () => {
    const page = () => readFile(join(folder, 'drawing-2-control.svg'), 'utf8');
    await run('draw', VAN, '--out', folder, '--date', 'x');
    await run('draw', VAN, '--out', folder, '--date', 'x');
    const kept = await page();
    await run('draw', VAN, '--out', folder, '--date', 'x');
    expect(await page()).toBe(kept);
    await writeFile(join(folder, 'drawing-order.json'), 'no order');
    expect((await run('draw', VAN, '--out', folder, '--date', 'x')).code).toBe(0);
    expect((await run('draw', VAN, '--out', folder, '--afresh')).code).toBe(0);
  });

  it('draws one view, on the paper asked for', async () => {
    await run('draw', VAN, '--out', folder, '--view', 'negative', '--paper', 'letter');
    expect((await readdir(folder)).filter((name) => name.endsWith('.svg'))).toEqual([
      'drawing-1-negative.svg',
    ]);
    expect(await readFile(join(folder, 'drawing-1-negative.svg'), 'utf8')).toContain('width="279.4mm"');
  });

  it('says DRAFT on every page of a build with dangers', async () => {
    await run('draw', CAMPER, '--out', folder);
    const pages = (await readdir(folder)).filter(
      (name) => name.startsWith('drawing-') && name.endsWith('.svg'),
    );
    expect(pages.length).toBeGreaterThan(1);
    for (const name of pages) expect(await readFile(join(folder, name), 'utf8')).toContain('>DRAFT<');
  });

  it.each([
    [['draw', VAN], '--out DIR is missing'],
    [['draw', VAN, '--out', 'x', '--view', 'side'], '--view side: write all, power, control or negative'],
    [['draw', VAN, '--out', 'x', '--paper', 'A5'], '--paper A5: write A4 or Letter'],
    [['draw', '/nowhere.yaml', '--out', 'x'], '/nowhere.yaml was not opened'],
  ])('says what is wrong: %j', async (argv, words) => {
    const { code, err } = await run(...argv);
    expect(code).toBe(2);
    expect(err).toContain(words);
  });

  it('says that a folder cannot be written, in one line', async () => {
    const file = join(folder, 'file');
    await writeFile(file, '');
    const { code, err } = await run('draw', VAN, '--out', join(file, 'in'));
    expect(code).toBe(1);
    expect(err).toMatch(/^loomwright: .* was not written: .*\.\n$/);
  });
});
