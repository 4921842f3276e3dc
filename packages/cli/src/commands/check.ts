/** `check FILE`: judge a build. */
import { WIDTH } from '../args.ts';
import { reportJson } from '../json/report.ts';
import { reportText } from '../print/report.ts';
import { BAD_INPUT, openFile, paperFor, type Command } from './command.ts';
import { withProgress } from './progress.ts';

export const check: Command = {
  help: {
    name: 'check',
    operands: 'FILE',
    summary: 'judge a build: what is wrong, by how much, what is still open',
    teaches: [
      "Solves the system in every state of the vehicle, with every position of the owner's switches, on a typical day and at its worst, and judges every statement of the practice on it.",
      'The first line sums up. Then come dangers (fire, injury, a vehicle that does not start), faults (it will not work as meant), what is open (cannot be said yet, with what to read, measure or confirm), advice, and what is met.',
      'Exit code: 0 when there is no danger, no fault, and nothing open that could be a danger; 1 otherwise; 2 when the file cannot be read.',
    ],
    options: [
      { name: 'all', help: 'every working, every met finding, every assumption' },
      { name: 'json', help: 'the result for programs: SI numbers, see `loomwright schema --report`' },
      WIDTH,
    ],
    examples: [
      ['loomwright check van.yaml', 'the report'],
      ['loomwright check van.yaml --all', 'with every working'],
      ['loomwright check van.yaml --json > report.json', 'for programs'],
    ],
  },
  async run(args, context) {
    const { host } = context;
    const paper = paperFor(host, args);
    const file = args.operands[0] ?? '';
    const opened = await openFile(file, context);
    if (opened === null) return BAD_INPUT;
    const { judged, facts } = withProgress(host, 'Judging', () => {
      const judged = opened.session.judge();
      return { judged, facts: opened.session.facts() };
    });
    const input = { file, build: opened.build, judged, facts };
    host.out(args.flag('json') ? reportJson(input) : reportText(input, { ...paper, all: args.flag('all') }));
    return judged.exitCode;
  },
};
