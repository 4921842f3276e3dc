/** `explain FILE FINDING`: one finding in full. */
import { nearestOf } from '../nearest.ts';
import { WIDTH } from '../args.ts';
import { explainText } from '../print/explain.ts';
import { BAD_INPUT, openFile, paperFor, type Command } from './command.ts';
import { withProgress } from './progress.ts';

export const explain: Command = {
  help: {
    name: 'explain',
    operands: 'FILE FINDING',
    summary: 'one finding in full: working, sources, what it rests on, remedies',
    teaches: [
      'A finding is named by its id, the last line of each finding in `loomwright check`, such as hunting/charger.',
      'Remedies are applied to a copy of the build and judged again before they are shown, with the numbers before and after. Nothing is written to the file.',
    ],
    options: [WIDTH],
    examples: [['loomwright explain van.yaml hunting/charger', 'why it hunts, and what would cure it']],
  },
  async run(args, context) {
    const { host } = context;
    const paper = paperFor(host, args);
    const [file = '', id = ''] = args.operands;
    const opened = await openFile(file, context);
    if (opened === null) return BAD_INPUT;
    const { session } = opened;
    const judged = withProgress(host, 'Judging', () => session.judge());
    const finding = judged.findings.find((each) => each.id === id);
    if (finding === undefined) {
      const ids = judged.findings.map((each) => each.id);
      const near = nearestOf(id, ids);
      const hint =
        near.length === 0 ? `See them all: loomwright check ${file} --all` : `Near it: ${near.join(', ')}`;
      host.err(`loomwright: ${file} has no finding "${id}". ${hint}\n`);
      return BAD_INPUT;
    }
    const remedies = withProgress(host, 'Trying remedies', () =>
      finding.verdict === 'met' ? [] : session.remedies(id),
    );
    host.out(explainText({ file, build: opened.build, finding, remedies }, paper));
    return 0;
  },
};
