/** JSON Schema of what `check --json` and `states --json` write. Committed as `schema/report.schema.json`. */
import { CORNER_IDS, STATE_IDS, VERDICTS } from '@loomwright/engine';
import { REPORT_FORMAT, REPORT_VERSION } from './report.ts';
import { STATES_FORMAT, STATES_VERSION } from './states.ts';
import { jsonText, type Json } from './write.ts';

type Schema = { readonly [key: string]: Json };

const text: Schema = { type: 'string' };
const flag: Schema = { type: 'boolean' };
const count: Schema = { type: 'integer', minimum: 0 };
const maybeNumber: Schema = { type: ['number', 'null'] };
const maybeText: Schema = { type: ['string', 'null'] };
const ref = (name: string): Schema => ({ $ref: `#/$defs/${name}` });
const list = (items: Schema): Schema => ({ type: 'array', items });
const oneOf = (values: readonly Json[]): Schema => ({ enum: values });
const orNull = (schema: Schema): Schema => ({ anyOf: [schema, { type: 'null' }] });

function record(properties: Readonly<Record<string, Schema>>, optional: readonly string[] = []): Schema {
  const required = Object.keys(properties).filter((name) => !optional.includes(name));
  return { type: 'object', properties, required, additionalProperties: false };
}

const quantitySchema: Schema = {
  description:
    "A number in SI units (or the trade's own: mm², Ah, °C, s) with the name of its unit. Without a number, null and the reason.",
  ...record({ value: maybeNumber, unit: text, reason: text, words: text }, ['reason', 'words']),
};

const basisFields: Readonly<Record<string, Schema>> = {
  path: text,
  label: text,
  quantity: ref('quantity'),
  band: orNull({ type: 'array', items: maybeNumber, minItems: 2, maxItems: 2 }),
  provenance: oneOf(['given', 'confirmed', 'seen', 'computed', 'practice', 'memory']),
  source: text,
  assumed: flag,
  how: text,
  effort: oneOf(['read', 'confirm', 'tape', 'meter', 'engine', 'log']),
};

const findingSchema = record({
  id: text,
  check: text,
  title: text,
  family: text,
  dangerFamily: flag,
  verdict: oneOf(VERDICTS),
  open: oneOf([null, 'missing', 'undecided', 'unconfirmed']),
  ifNot: oneOf([null, 'danger', 'fault', 'advice']),
  says: text,
  value: ref('quantity'),
  limit: ref('quantity'),
  margin: maybeNumber,
  band: record({ nominal: maybeNumber, slack: maybeNumber, stiff: maybeNumber, unit: text }),
  worst: maybeText,
  others: count,
  working: list(
    record({ what: text, how: text, result: orNull(ref('quantity')), source: maybeText, about: list(text) }),
  ),
  needs: list(record({ why: text, ...basisFields })),
  restsOn: list(ref('basis')),
  statements: list(record({ id: text, text, source: text, prov: text })),
  about: list(text),
  aside: orNull(record({ reason: text, by: maybeText, date: maybeText })),
});

const reportSchema = record({
  format: { const: REPORT_FORMAT },
  version: { const: REPORT_VERSION },
  build: record({
    file: text,
    title: text,
    revision: maybeText,
    practice: maybeText,
    systems: { type: 'object', additionalProperties: { type: 'number' } },
  }),
  firstLine: text,
  exitCode: oneOf([0, 1, 2]),
  tally: record({
    danger: count,
    fault: count,
    open: count,
    advice: count,
    met: count,
    aside: count,
    toGet: record({ read: count, measure: count, log: count, confirm: count }),
  }),
  conditions: record({ count, ids: list(text) }),
  auto: orNull(
    record({
      size: text,
      area: ref('quantity'),
      wires: list(text),
      governedBy: maybeText,
      onceConfirmed: maybeText,
      serves: flag,
    }),
  ),
  findings: list(ref('finding')),
  facts: list(record({ score: maybeNumber, closes: list(text), how: text, value: ref('basis') })),
  assumed: list(ref('basis')),
});

const handsSchema: Schema = { type: 'object', additionalProperties: { type: 'boolean' } };

const statesSchema = record({
  format: { const: STATES_FORMAT },
  version: { const: STATES_VERSION },
  build: record({ file: text, title: text }),
  meter: ref('quantity'),
  states: list(
    record({
      condition: text,
      state: oneOf(STATE_IDS),
      hands: handsSchema,
      cameFrom: list(oneOf(STATE_IDS)),
      outcome: oneOf(['settled', 'running', 'cycle', 'irregular', 'none']),
      supply: oneOf(['off', 'alternator', 'converter']),
      lasts: ref('quantity'),
      posts: orNull(ref('quantity')),
      signals: list(record({ part: text, volts: maybeNumber })),
      chargers: list(
        record({
          part: text,
          charging: oneOf(['yes', 'no', 'hunting']),
          enable: maybeNumber,
          input: maybeNumber,
          inAmps: maybeNumber,
          outAmps: maybeNumber,
          duty: maybeNumber,
          period: maybeNumber,
        }),
      ),
    }),
  ),
  readings: list(
    record({
      condition: text,
      state: oneOf(STATE_IDS),
      hands: handsSchema,
      open: maybeText,
      cameFrom: list(oneOf(STATE_IDS)),
      cells: list(
        record({
          point: text,
          label: text,
          measure: oneOf(['volts', 'amps']),
          red: maybeText,
          black: maybeText,
          reading: ref('quantity'),
          range: orNull({ type: 'array', items: maybeNumber, minItems: 2, maxItems: 2 }),
          note: oneOf([null, 'floating', 'wait 10 s', 'still live']),
          floating: flag,
        }),
      ),
    }),
  ),
});

/** The schema as JSON text, as committed. */
export function reportSchemaText(): string {
  return jsonText({
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'Loomwright results, version 1',
    description: `What "loomwright check --json" and "loomwright states --json" write. Condition ids read state/hands/corner; corners are ${CORNER_IDS.join(', ')}.`,
    oneOf: [reportSchema, statesSchema],
    $defs: { quantity: quantitySchema, basis: record(basisFields), finding: findingSchema },
  });
}
