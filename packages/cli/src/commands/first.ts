/** `first`: a first answer from six facts, each of which may be "don't know". */
import {
  designText,
  firstAnswer,
  isDontKnow,
  QUESTIONS,
  readFacts,
  type Answers,
  type Design,
  type FactName,
  type FirstRun,
  type Judged,
  type Session,
  type SixFacts,
} from '@loomwright/engine';
import { UsageError, WIDTH, type Arguments, type OptionHelp } from '../args.ts';
import { reasonOf, type Host } from '../host.ts';
import { firstText, roomForFacts, type FirstInput } from '../print/first.ts';
import { Page } from '../print/page.ts';
import { BAD_INPUT, paperFor, type Command, type Context, type Paper } from './command.ts';
import { withProgress } from './progress.ts';

const VALUES: Readonly<Record<FactName, string>> = {
  supply: 'WHAT',
  battery: 'WHERE',
  length: 'LENGTH',
  charger: 'AMPS',
  house: '"CHEMISTRY AH"',
  return: 'WAY',
  stock: '"SIZES"',
  system: 'VOLTS',
  practice: 'NAME',
};

const FACT_OPTIONS: readonly OptionHelp[] = [
  ...QUESTIONS.map((question) => ({
    name: question.name,
    value: VALUES[question.name],
    help: `${question.choices}; not known: ${question.unknown}`,
  })),
  { name: 'system', value: VALUES.system, help: '12 V or 24 V (default 12 V)' },
  { name: 'practice', value: VALUES.practice, help: 'europe or north-america (default europe)' },
];

export const first: Command = {
  help: {
    name: 'first',
    operands: '',
    summary: 'a first answer from six facts, each may be "don\'t know"',
    teaches: [
      "Six facts make a complete first design with published defaults: take-off, protection, charger, run relay, owner's switch, return, house battery, monitor. It is judged like any build, and the answer fits one screen: cable, fuse, hunting, what is left over at idle, whether a run signal is needed, what an hour of driving gives.",
      'On a terminal and without options it asks. With options it asks nothing: a fact that is not given is taken as "don\'t know", and what is not known is a band, not a guess.',
      'With --save the design is kept as a build document; every later fact is one line changed in it.',
    ],
    options: [
      ...FACT_OPTIONS,
      {
        name: 'save',
        value: 'FILE',
        help: 'write the design as a build document (never over an existing file)',
      },
      WIDTH,
    ],
    examples: [
      ['loomwright first', 'asks'],
      ['loomwright first --length medium --charger "30 A"', 'two facts known'],
      [
        'loomwright first --supply alternator --battery bonnet --length "3.6 m" --charger "40 A" --house "lifepo4 200 Ah" --return cable --stock "16 25 35 50 mm2" --save van.yaml',
        'all six, kept',
      ],
    ],
  },
  async run(args, context) {
    const { host } = context;
    const paper = paperFor(host, args);
    const asked = asks(args, host);
    const facts = await gather(args, host, paper, asked);
    if (facts === null) return BAD_INPUT;
    const answer = withProgress(host, 'Trying designs', () => answerFor(facts, context));
    const path = args.value('save');
    const saved = await save(path, answer, host);
    if (saved.failed) return BAD_INPUT;
    const keep = asked && path === null;
    host.out(firstText({ ...answer, facts, saved: saved.path, keep }, paper));
    if (keep) await offerToKeep(answer, host, paper);
    return answer.judged.exitCode;
  },
};

/** Questions are asked on a terminal, when no fact was given as an option. */
function asks(args: Arguments, host: Host): boolean {
  return host.canAsk && QUESTIONS.every((question) => args.value(question.name) === null);
}

/** Asks for a file name until one can be written or the person wants none. */
async function offerToKeep(answer: FirstAnswer, host: Host, paper: Paper): Promise<void> {
  const say = (text: string) => host.out(new Page(paper.width, paper.style).text(text, 0, 2).toString());
  host.out('\n');
  say('Keep it as a build? Type a file name, or press Enter for no.');
  for (;;) {
    // oxlint-disable-next-line no-await-in-loop -- one question after the other
    const name = (await host.ask('> '))?.trim() ?? '';
    if (name === '') return;
    // oxlint-disable-next-line no-await-in-loop -- one question after the other
    const saved = await save(name, answer, host);
    if (saved.path === null) continue;
    say(`Written to ${saved.path}. Next: loomwright check ${saved.path}`);
    return;
  }
}

async function gather(args: Arguments, host: Host, paper: Paper, asked: boolean): Promise<SixFacts | null> {
  const given: Partial<Record<FactName, string>> = {};
  for (const { name } of FACT_OPTIONS) {
    const value = args.value(name);
    if (value !== null) given[name as FactName] = value;
  }
  const answers = asked ? await dialogue(given, host, paper) : given;
  if (answers === null) return null;
  const { facts, problems } = readFacts(answers);
  if (problems.length === 0) return facts;
  throw new UsageError(problems.map((problem) => `--${problem.name}: ${problem.message}`).join('\n'));
}

/** Asks what was not given; a wrong answer is asked again. Null when the person ends the dialogue. */
async function dialogue(given: Answers, host: Host, paper: Paper): Promise<Answers | null> {
  const answers: Partial<Record<FactName, string>> = { ...given };
  host.out('Six facts. Press Enter for "don\'t know".\n');
  for (const question of QUESTIONS) {
    const page = new Page(paper.width, paper.style);
    page.raw('').text(question.asks, 0, 0, paper.style.bold);
    page.text(question.choices, 2).text(`Enter: ${question.unknown}`, 2, 0, paper.style.dim);
    host.out(page.toString());
    for (;;) {
      // oxlint-disable-next-line no-await-in-loop -- one question after the other
      const answer = await host.ask('> ');
      if (answer === null) return null;
      const problem = isDontKnow(answer.trim())
        ? undefined
        : readFacts({ [question.name]: answer }).problems[0];
      if (problem === undefined) {
        answers[question.name] = answer;
        break;
      }
      host.out(new Page(paper.width, paper.style).text(problem.message, 2).toString());
    }
  }
  host.out('\n');
  return answers;
}

export type FirstAnswer = Omit<FirstInput, 'facts' | 'saved' | 'keep'>;

interface Run extends FirstRun {
  readonly session: Session;
  readonly judged: Judged;
}

/** Designs for every way back that is possible, and the kindest of them for the lower end of the cable. */
function answerFor(facts: SixFacts, context: Context): FirstAnswer {
  const main = judgedRun(designText(facts), context);
  const runs: [Run, ...Run[]] =
    facts.return === null ? [main, judgedRun(designText(facts, { return: 'body' }), context)] : [main];
  const easiest = kindest(facts, context);
  return {
    design: main.design,
    judged: main.judged,
    rows: firstAnswer(facts, runs, easiest),
    // Where three of the six are missing nothing else is shown: then nothing else is looked for.
    known: roomForFacts(facts) > 0 ? main.session.facts() : [],
  };
}

/** With the length at its short end and the return that needs least copper; null where nothing is a band. */
function kindest(facts: SixFacts, context: Context): Run | null {
  const { length } = facts;
  const short = length === null ? '1 m' : length.low < length.high ? `${length.low} m` : null;
  if (short === null) return null;
  return judgedRun(designText(facts, { length: short, return: facts.return ?? 'body' }), context);
}

function judgedRun(design: Design, { engine }: Context): Run {
  const session = engine.open(design.text, { file: 'first design' });
  if (session.build === null) {
    const found = session.diagnostics.map((each) => `${each.line}:${each.column} ${each.message}`).join('; ');
    throw new Error(`the first design does not read: ${found}`);
  }
  const judged = session.judge();
  return {
    design,
    session,
    judged,
    findings: judged.findings,
    operation: judged.operation,
    auto: judged.auto,
  };
}

interface Saved {
  readonly path: string | null;
  readonly failed: boolean;
}

async function save(path: string | null, answer: FirstAnswer, host: Host): Promise<Saved> {
  if (path === null) return { path: null, failed: false };
  try {
    if (await host.write(path, answer.design.text)) return { path, failed: false };
    host.err(`loomwright: ${path} exists already; nothing was written. Choose another name.\n`);
  } catch (error) {
    host.err(`loomwright: ${path} was not written: ${reasonOf(error).replace('read', 'written')}.\n`);
  }
  return { path: null, failed: true };
}
