/** `schema`: the JSON Schemas, for editors and programs. */
import { reportSchemaText } from '../json/schema.ts';
import { jsonText, type Json } from '../json/write.ts';
import type { Command } from './command.ts';

export const schema: Command = {
  help: {
    name: 'schema',
    operands: '',
    summary: 'the JSON Schema of the build document, or of the results',
    teaches: [
      'With the schema an editor completes and checks a build file while it is typed. Write it beside your builds and put this line at the top of each: # yaml-language-server: $schema=loomwright.schema.json',
    ],
    options: [{ name: 'report', help: 'of what `check --json` and `states --json` write' }],
    examples: [
      ['loomwright schema > loomwright.schema.json', 'for the editor'],
      ['loomwright schema --report', 'for programs that read results'],
    ],
  },
  run(args, { host, engine }) {
    host.out(args.flag('report') ? reportSchemaText() : jsonText(engine.documentSchema() as Json));
    return Promise.resolve(0);
  },
};
