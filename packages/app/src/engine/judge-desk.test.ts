import type { Change } from '@loomwright/engine';
import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { judgeDesk, tellBy } from './judge-desk.ts';
import type { JudgedPart, JudgedWhole } from './plain.ts';
import { Sessions } from './sessions.ts';

const file = new URL('../../../../examples/delivery-van.yaml', import.meta.url);
/** Without sizes that are searched for. */
const text = readFileSync(file, 'utf8').replaceAll('size: auto', 'size: 25 mm2');
const build = new Sessions().of(text).build;
const [fuse = ''] = [...(build?.parts.values() ?? [])].flatMap((part) =>
  part.kind === 'fuse' ? [part.id] : [],
);
const edit: readonly Change[] = [{ set: ['parts', fuse, 'rating'], to: '30 A' }];

const pause = async (ms: number): Promise<void> => {
  await new Promise((done) => {
    setTimeout(done, ms);
  });
};

/**
 * What is told and answered of an edit; `typed`: what was being typed before it, `rest`: how long nothing was done then, ms, or until
 * something was told of it.
 */
async function judged(typed: readonly (readonly Change[])[], rest: number | 'until told' = 0) {
  const parts: JudgedPart[] = [];
  const early: JudgedPart[] = [];
  tellBy(() => undefined);
  const desk = judgeDesk(new Sessions());
  await desk.judge(text, true);
  tellBy((part) => early.push(part));
  for (const changes of typed) desk.foreseeJudged(text, changes);
  if (rest === 'until told') await vi.waitUntil(() => early.length > 0, { timeout: 10_000, interval: 1 });
  else if (rest > 0) await pause(rest);
  tellBy((part) => parts.push(part));
  // Who asks knows nothing yet, so that all is told in full.
  const whole = await desk.judgeEdited(text, edit, true);
  return { parts, whole, early };
}

/** All that was told, as one would know it in the end. */
function known({
  parts,
  whole,
}: {
  readonly parts: readonly JudgedPart[];
  readonly whole: JudgedWhole | null;
}) {
  const findings = new Map(
    [...parts, ...(whole === null ? [] : [whole])].flatMap(({ changed }) => changed.map((f) => [f.id, f])),
  );
  return whole?.order.map((id) => findings.get(id));
}

describe('judging what is being typed', () => {
  afterEach(() => tellBy(() => undefined));

  it('comes to the same as judging the edit, whatever was being typed', async () => {
    const plain = await judged([]);
    const foreseen = await judged([edit], 'until told');
    const atOnce = await judged([edit]);
    // Far into it, or to its end.
    const whole = await judged([edit], 500);
    const left = await judged([edit, [{ set: ['parts', fuse, 'rating'], to: '3 A' }]], 30);
    const other = await judged([
      [{ set: ['parts', fuse, 'rating'], to: '3 A' }],
      [{ set: ['parts', fuse, 'rating'], to: 'nonsense' }],
    ]);
    expect(known(plain)).not.toContain(undefined);
    // What is told of it before belongs to the text that it would make.
    expect(foreseen.early.length).toBeGreaterThan(0);
    expect(new Set(foreseen.early.map((part) => part.text))).toEqual(new Set([plain.whole?.text]));
    for (const each of [foreseen, atOnce, whole, left, other]) {
      expect(each.whole?.order).toEqual(plain.whole?.order);
      expect(known(each)).toEqual(known(plain));
      expect(each.parts.length).toBeGreaterThan(0);
      expect(new Set(each.parts.map((part) => part.text))).toEqual(new Set([plain.whole?.text]));
    }
  });
});
