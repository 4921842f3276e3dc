/** `states FILE`: what is live and what charges, and what a meter will read. */
import { WIDTH } from '../args.ts';
import { statesJson } from '../json/states.ts';
import { statesText } from '../print/states.ts';
import { BAD_INPUT, openFile, paperFor, type Command } from './command.ts';
import { withProgress } from './progress.ts';

export const states: Command = {
  help: {
    name: 'states',
    operands: 'FILE',
    summary: 'what is live and charging in each state, and what a meter will read',
    teaches: [
      "First a line for each state of the vehicle and each position of the owner's switches. Then the readings to expect on a typical day with the loads off: key on, engine running, and with each protective device opened.",
      'Readings are those of a meter of 10 MΩ. "wait 10 s": capacitors hold the charger\'s input up for a while. "still live": another source feeds it from behind. "floating": the point hangs on nothing; through the 10 MΩ of the meter it reads 0.00 V.',
    ],
    options: [
      { name: 'all', help: 'readings in every state, not only those of a commissioning sheet' },
      { name: 'json', help: 'the tables for programs' },
      WIDTH,
    ],
    examples: [['loomwright states van.yaml', 'take it to the vehicle, with a meter']],
  },
  async run(args, context) {
    const { host } = context;
    const paper = paperFor(host, args);
    const file = args.operands[0] ?? '';
    const opened = await openFile(file, context);
    if (opened === null) return BAD_INPUT;
    const table = withProgress(host, 'Solving', () => opened.session.states(args.flag('all')));
    const input = { file, build: opened.build, table };
    host.out(args.flag('json') ? statesJson(input) : statesText(input, paper));
    return 0;
  },
};
