/** Writes the files that the built engine and command line make; with `--check` only says which are stale. */
import { reportSchemaText } from '../../packages/cli/src/json/schema.ts';
import { jsonText, type Json } from '../../packages/cli/src/json/write.ts';
import { documentSchema } from '../../packages/engine/src/index.ts';
import { checksText } from './checks.ts';
import { defaultsText } from './defaults.ts';
import { keepFresh } from './fresh.ts';

keepFresh({
  'docs/checks.md': checksText,
  'docs/defaults.md': defaultsText,
  'docs/build-document.schema.json': () => jsonText(documentSchema() as Json),
  'packages/cli/schema/report.schema.json': reportSchemaText,
});
