/** The JSON Schema accepts what the reader accepts, and refuses plain mistakes. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { mutate } from '../../../../tests/documents/mutate.ts';
import type { Registry } from '../contracts/index.ts';
import { makeRegistry } from '../kinds/registry.ts';
import { jsonSchema, readDocument } from './index.ts';
import { testRegistry } from './testing/kinds.ts';
import { SMALL, VAN } from './testing/van.ts';

function validator(registry: Registry): (text: string) => boolean {
  const ajv = new Ajv2020({ allowUnionTypes: true, strictTypes: false, strictNumbers: false });
  const validate = ajv.compile(jsonSchema(registry) as object);
  return (text) => validate(parse(text, { uniqueKeys: false }));
}

const real = makeRegistry();
const small = validator(testRegistry);
const whole = validator(real);

describe('the schema', () => {
  it('is a valid schema of the draft it names', () => {
    const ajv = new Ajv2020();
    expect(ajv.validateSchema(jsonSchema(real) as object)).toBe(true);
    expect(jsonSchema(real)['$schema']).toBe('https://json-schema.org/draft/2020-12/schema');
  });

  it('is plain data', () => {
    expect(JSON.parse(JSON.stringify(jsonSchema(real)))).toEqual(jsonSchema(real));
  });

  it('describes every field of every kind', () => {
    const defs = jsonSchema(real)['$defs'] as Record<
      string,
      { properties: Record<string, { description?: string }> }
    >;
    for (const kind of real.kinds.values())
      for (const name of Object.keys(kind.fields))
        expect(defs[`part-${kind.name}`]?.properties[name]?.description, `${kind.name}.${name}`).toMatch(
          /\S/,
        );
  });

  it('accepts the documents', () => {
    expect(whole(VAN)).toBe(true);
    expect(small(SMALL)).toBe(true);
    expect(small('loomwright: 1\nparts:\nplaces: { 1: { label: 114, wet: true } }\n')).toBe(true);
  });

  it.each([
    ['no version', 'title: x\n'],
    ['an unknown name at the top', 'loomwright: 1\ntitel: x\n'],
    ['an unknown kind', 'loomwright: 1\nparts: { b: { kind: batery } }\n'],
    ['an unknown field', 'loomwright: 1\nparts: { b: { kind: battery, capacty: 80 Ah } }\n'],
    ['a bare number', 'loomwright: 1\nparts: { b: { kind: battery, capacity: 80 } }\n'],
    ['a word out of a list', 'loomwright: 1\nparts: { b: { kind: battery, role: hous } }\n'],
    ['a part without a kind', 'loomwright: 1\nparts: { b: { capacity: 80 Ah } }\n'],
    ['a name with a dot', 'loomwright: 1\nparts: { a.b: { kind: battery } }\n'],
    ['a list where a map is expected', 'loomwright: 1\nplaces: [a]\n'],
    ['a state that is none', 'loomwright: 1\nsurvey: { idle: {} }\n'],
    ['another requirement', 'loomwright: 1\nrequires: [be safe]\n'],
  ])('refuses %s', (_name, text) => {
    expect(small(text)).toBe(false);
    expect(readDocument(text, testRegistry).build).toBeNull();
  });

  it('accepts every damaged document that the reader still accepts', () => {
    let accepted = 0;
    for (let seed = 1; seed <= 700; seed++) {
      const text = mutate(SMALL, seed);
      if (readDocument(text, testRegistry).build === null) continue;
      accepted++;
      // A document of another version has another schema.
      if (/loomwright: 1\b/.test(text)) expect(small(text), text).toBe(true);
    }
    expect(accepted).toBeGreaterThan(50);
  });

  it('accepts the example of every kind', () => {
    for (const kind of real.kinds.values()) expect(whole(kind.example), kind.name).toBe(true);
  });
});
