/** docs/checks.md: every registered check with its statements and its twins. */
import { checks } from '../../packages/engine/src/checks/registry.ts';
import type { Check, Statement } from '../../packages/engine/src/contracts/index.ts';
import { practices } from '../../packages/engine/src/practices/index.ts';
import { PROVENANCE, row, table } from './words.ts';

/** Build documents, each printed once however many checks are tried on it. */
class Builds {
  readonly #numbers = new Map<string, number>();

  link(text: string): string {
    if (text.trim() === '') return 'none: no build that reads can fail, what is judged is the program';
    const number = this.#numbers.get(text) ?? this.#numbers.size + 1;
    this.#numbers.set(text, number);
    return `[build ${number}](#build-${number})`;
  }

  print(): readonly string[] {
    return [...this.#numbers].flatMap(([text, number]) => [
      `### Build ${number}`,
      '',
      '```yaml',
      text.trimEnd(),
      '```',
      '',
    ]);
  }
}

const cited = (statement: Statement, whose: string): string =>
  row(statement.id, whose, statement.text, statement.source, PROVENANCE[statement.prov]);

/** A statement that all practices share stands once. */
function statements(check: Check): readonly string[] {
  return check.statements.flatMap((id) => {
    const found = Object.values(practices).flatMap((practice) => {
      const statement = practice.statements.get(id);
      return statement === undefined ? [] : [{ practice, statement }];
    });
    if (found.length === 0) throw new Error(`${check.id} cites ${id}, which no practice states`);
    const texts = new Set(found.map(({ statement }) => JSON.stringify(statement)));
    const [first] = found;
    if (first !== undefined && texts.size === 1 && found.length === Object.keys(practices).length)
      return [cited(first.statement, 'every')];
    return found.map(({ practice, statement }) => cited(statement, practice.title));
  });
}

function section(check: Check, builds: Builds): readonly string[] {
  return [
    `## ${check.title}`,
    '',
    `\`${check.id}\`, family ${check.family}: ${check.danger ? 'a danger when it fails, and it keeps the exit code at 1 while it is open.' : 'a fault when it fails.'}`,
    '',
    ...table(['statement', 'practice', 'text', 'source', 'provenance'], statements(check)),
    `Not met by: ${builds.link(check.failing)}. Met by: ${builds.link(check.passing)}.`,
    '',
  ];
}

export function checksText(): string {
  const builds = new Builds();
  const list: readonly Check[] = checks;
  const sections = list.flatMap((check) => section(check, builds));
  const families = [...new Set(list.map((check) => check.family))];
  return `${[
    '# Checks',
    '',
    'Written by `npm run generate`; not to be edited.',
    '',
    `${list.length} checks, ${list.filter((check) => check.danger).length} of them about danger, in the order in which findings are listed. Each is tried on a build that must not meet it and on one that must.`,
    '',
    ...table(
      ['family', 'checks'],
      families.map((family) =>
        row(
          family,
          list
            .filter((check) => check.family === family)
            .map((check) => `\`${check.id}\`${check.danger ? ' (danger)' : ''}`)
            .join(', '),
        ),
      ),
    ),
    ...sections,
    '## Builds',
    '',
    ...builds.print(),
  ]
    .join('\n')
    .trimEnd()}\n`;
}
