/** `facts FILE`: what is worth getting next, in order. */
import { WIDTH } from '../args.ts';
import { writeAssumed, writeFacts } from '../print/facts.ts';
import { Page } from '../print/page.ts';
import { BAD_INPUT, openFile, paperFor, type Command } from './command.ts';
import { withProgress } from './progress.ts';

export const facts: Command = {
  help: {
    name: 'facts',
    operands: 'FILE',
    summary: 'which facts would settle most, and how each is had',
    teaches: [
      'Each value that was assumed or left unknown is fixed on trial; a fact scores by the findings that stop being open. Nothing is listed that can change no verdict.',
      'Ties go to what costs least: read it on the part, confirm it against the standard, lay a string, measure standing, measure with the engine running, log a drive.',
    ],
    options: [WIDTH],
    examples: [['loomwright facts van.yaml', 'the whole list, best first']],
  },
  async run(args, context) {
    const { host } = context;
    const paper = paperFor(host, args);
    const file = args.operands[0] ?? '';
    const opened = await openFile(file, context);
    if (opened === null) return BAD_INPUT;
    const { list, judged } = withProgress(host, 'Trying every fact', () => ({
      judged: opened.session.judge(),
      list: opened.session.facts(),
    }));
    const page = new Page(paper.width, paper.style);
    page.text(judged.firstLine, 0, 2);
    if (list.length === 0) page.text('No fact could change a verdict.');
    writeFacts(page, list, list.length);
    writeAssumed(page, judged.assumed, true);
    host.out(page.toString());
    return 0;
  },
};
