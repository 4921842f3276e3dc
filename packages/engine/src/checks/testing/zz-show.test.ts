import { readFileSync } from 'node:fs';
import { judgeText } from './judge-text.ts';
const findingsOf=(t,c)=>judgeText(t,c).findings;
import { checks } from '/work/main/packages/engine/src/checks/registry.ts';
import { it } from 'vitest';
const file = process.env.DOC ?? '';
const only = process.env.ONLY?.split(',');
const work = process.env.WORK;
it('shows', () => {
  const list = only ? checks.filter((c) => only.includes(c.id)) : checks;
  for (const [what, text] of file ? [['doc', readFileSync(file, 'utf8')]] as const : list.flatMap((c) => [['failing', c.failing], ['passing', c.passing]] as const)) {
    for (const f of findingsOf(text, list)) {
      if (process.env.SKIPMET && f.verdict === 'met') continue;
      console.log(`${file ? '' : what + ' '}${f.verdict.toUpperCase()}${f.open ? '/' + f.open : ''} ${f.id}: ${f.says}  [${f.value.value ?? f.value.words} ${f.value.unit} | ${f.limit.value} ${f.limit.unit} | m ${f.margin}] worst ${f.worst} +${f.others}` + (f.needs.length ? '\n     needs ' + f.needs.map((n) => n.basis.path).join(', ') : ''));
      if (work) for (const s of f.working) console.log(`        ${s.what} | ${s.how} | ${s.value} ${s.unit}`);
    }
  }
});
