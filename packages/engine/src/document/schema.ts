/**
 * The JSON Schema (draft 2020-12) of documents, printed from the field tables, so that editors complete and check them. It
 * accepts every document of the present format that the reader accepts; the reader is stricter.
 */
import type { Field, FieldTable, Kind, Registry, Shape } from '../contracts/index.ts';
import { dimensionInfo } from '../quantity/index.ts';
import { ID_PATTERN } from './ids.ts';
import { partFields } from './parts.ts';
import { TOP } from './tables.ts';
import { FORMAT } from './version.ts';

/** A schema, or a part of one. */
export type JsonSchema = { readonly [keyword: string]: unknown };

const UNKNOWN_PATTERN = '^\\s*[Uu][Nn][Kk][Nn][Oo][Ww][Nn]\\s*$';
const UNKNOWN: JsonSchema = { type: 'string', pattern: UNKNOWN_PATTERN };
/** What a word may become when a parser of YAML has read it: `label: 114` is a number to it. */
const ANY_SCALAR = ['string', 'number', 'boolean'];

/** The schema of documents whose parts are of the registry's kinds. */
export function jsonSchema(registry: Registry): JsonSchema {
  const kinds = [...registry.kinds.values()];
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    $id: `urn:loomwright:build:${FORMAT}`,
    title: 'Build document',
    type: 'object',
    required: ['loomwright'],
    additionalProperties: false,
    properties: { ...topProperties(), loomwright: version(), parts: orNull(partsSchema(kinds)) },
    $defs: Object.fromEntries(kinds.map((kind) => [`part-${kind.name}`, partSchema(kind, registry)])),
  };
}

const version = (): JsonSchema => ({ description: TOP['loomwright']?.doc, enum: [FORMAT, String(FORMAT)] });

function topProperties(): Record<string, JsonSchema> {
  return Object.fromEntries(
    Object.entries(TOP).map(([name, field]) => {
      const schema = fieldSchema(field);
      return [name, ['list', 'map', 'record'].includes(field.shape.shape) ? orNull(schema) : schema];
    }),
  );
}

/** A heading with nothing below it is an empty section. */
function orNull({ description, ...schema }: JsonSchema): JsonSchema {
  return { ...(description === undefined ? {} : { description }), anyOf: [schema, { type: 'null' }] };
}

function partsSchema(kinds: readonly Kind[]): JsonSchema {
  return {
    description: TOP['parts']?.doc,
    type: 'object',
    propertyNames: { pattern: ID_PATTERN },
    additionalProperties: {
      type: 'object',
      required: ['kind'],
      properties: { kind: { description: 'What it is.', enum: kinds.map(({ name }) => name) } },
      allOf: kinds.map(({ name }) => ({
        if: { properties: { kind: { const: name } }, required: ['kind'] },
        // oxlint-disable-next-line unicorn/no-thenable -- a keyword of JSON Schema
        then: { $ref: `#/$defs/part-${name}` },
      })),
    },
  };
}

function partSchema(kind: Kind, registry: Registry): JsonSchema {
  return {
    title: kind.title,
    type: 'object',
    properties: {
      kind: { const: kind.name },
      at: { description: 'The place where it sits.', type: ANY_SCALAR, pattern: ID_PATTERN },
      ...properties(partFields(kind, registry)),
    },
    additionalProperties: false,
  };
}

const properties = (fields: FieldTable): Record<string, JsonSchema> =>
  Object.fromEntries(Object.entries(fields).map(([name, field]) => [name, fieldSchema(field)]));

function fieldSchema(field: Field): JsonSchema {
  const wanted = field.wanted === true ? ' Some verdicts stay open without it.' : '';
  return { description: `${field.doc}${wanted}`, ...shapeSchema(field.shape) };
}

function shapeSchema(shape: Shape): JsonSchema {
  switch (shape.shape) {
    case 'quantity':
      return quantitySchema(shape.dimension, shape.never === true);
    case 'number':
      return { type: ['number', 'string'], pattern: `[0-9]|${UNKNOWN_PATTERN}` };
    case 'choice':
      return { enum: [...new Set(['unknown', ...shape.of].flatMap(parsedAs))] };
    case 'flag':
      return { enum: [true, false, 'yes', 'no', 'true', 'false', 'unknown'] };
    case 'text':
      return { type: ANY_SCALAR };
    case 'phrase':
      return {
        type: ANY_SCALAR,
        pattern: `(?:${shape.pattern})|${UNKNOWN_PATTERN}`,
        examples: [shape.expected.replaceAll('"', '')],
      };
    case 'any-of':
      return { anyOf: [...shape.of.map(shapeSchema), UNKNOWN] };
    default:
      return { anyOf: [treeSchema(shape), UNKNOWN] };
  }
}

function quantitySchema(dimension: Parameters<typeof dimensionInfo>[0], never: boolean): JsonSchema {
  const { bare, example } = dimensionInfo(dimension);
  return {
    type: bare ? ['string', 'number'] : 'string',
    pattern: `[0-9]|${UNKNOWN_PATTERN}${never ? '|^\\s*[Nn][Ee][Vv][Ee][Rr]\\s*$' : ''}`,
    examples: [example, 'unknown'],
  };
}

/** A word as text, and as what a parser of YAML makes of it without quotes. */
function parsedAs(word: string): readonly unknown[] {
  if (/^[+-]?\d+(?:\.\d+)?$/.test(word)) return [word, Number(word)];
  return word === 'true' || word === 'false' ? [word, word === 'true'] : [word];
}

function treeSchema(
  shape: Extract<Shape, { readonly shape: 'list' | 'row' | 'record' | 'map' }>,
): JsonSchema {
  switch (shape.shape) {
    case 'list':
      return {
        type: 'array',
        items: shapeSchema(shape.of),
        ...(shape.min === undefined ? {} : { minItems: shape.min }),
      };
    case 'row': {
      const { length } = shape.of;
      return { type: 'array', prefixItems: shape.of.map(shapeSchema), minItems: length, maxItems: length };
    }
    case 'record':
      return { type: 'object', properties: properties(shape.fields), additionalProperties: false };
    default: {
      const names = shape.keys === undefined ? { pattern: ID_PATTERN } : { enum: shape.keys };
      return { type: 'object', propertyNames: names, additionalProperties: shapeSchema(shape.of) };
    }
  }
}
