import { readFileSync } from 'node:fs';
import type { Session } from '@loomwright/engine';
import Ajv2020 from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import type { Engine } from './engine.ts';
import { engine, main, reportSchemaText, run } from './index.ts';
import { columnsOf } from './print/wrap.ts';
import { memoryHost, type MemoryOptions } from './testing/memory-host.ts';

const scenario = (name: string) =>
  readFileSync(new URL(`../../../tests/scenarios/${name}.yaml`, import.meta.url), 'utf8');

const FILES = {
  'hunts.yaml': scenario('e1-hunting'),
  'sound.yaml': scenario('e13-reference'),
  'folder/': '',
};

/** Opens each text once: judging is what takes time, and a session remembers it. */
const opened = new Map<string, Session>();
const remembering: Engine = {
  ...engine,
  open(text, options) {
    const key = typeof text === 'string' ? text : new TextDecoder('latin1').decode(text);
    const known = opened.get(key);
    if (known !== undefined) return known;
    const session = engine.open(text, options);
    opened.set(key, session);
    return session;
  },
};

async function cli(argv: readonly string[], options: MemoryOptions = {}) {
  const memory = memoryHost({ files: FILES, ...options });
  const code = await main(argv, { host: memory.host, engine: remembering });
  return { code, out: memory.out(), err: memory.err(), files: memory.files };
}

const widest = (text: string) => Math.max(...text.split('\n').map(columnsOf));

describe('check', () => {
  it('opens with the verdict line, then danger, fault, open, advice, met; exit code 1', async () => {
    const { code, out, err } = await cli(['check', 'hunts.yaml']);
    expect(code).toBe(1);
    expect(err).toBe('');
    expect(out).toMatch(/^1 fault, \d+ open: \d+ to /);
    const order = ['Fault: it will not work', 'Open: cannot be said', 'Advice (', 'Met ('].map((each) =>
      out.indexOf(each),
    );
    expect(order.every((at) => at > 0)).toBe(true);
    expect(order).toEqual(order.toSorted((a, b) => a - b));
    expect(out).toContain('hunting/charger');
    expect(out).toMatch(/Loop resistance\s+27\.10 mΩ \+ 24\.10 mΩ\s+51\.20 mΩ/);
  });

  it('says only with nothing open that nothing was found wrong; exit code 0', async () => {
    const { code, out } = await cli(['check', 'sound.yaml']);
    expect(code).toBe(0);
    expect(out).toMatch(/^Nothing found wrong\. \d+ met\.\n/);
  });

  it.each([30, 40, 60, 80, 132])('keeps inside %i columns, with everything shown', async (width) => {
    for (const name of ['hunts.yaml', 'sound.yaml']) {
      for (const argv of [
        ['check', name, '--all'],
        ['check', name],
        ['states', name, '--all'],
        ['facts', name],
      ]) {
        // oxlint-disable-next-line no-await-in-loop -- one after the other, in memory
        const { out } = await cli([...argv, '--width', String(width)]);
        expect(widest(out), argv.join(' ')).toBeLessThanOrEqual(width);
      }
    }
  });

  it("fits the terminal, is coloured only there, and not against a person's wish", async () => {
    const onPhone = await cli(['check', 'hunts.yaml'], { columns: 40 });
    expect(widest(onPhone.out)).toBeLessThanOrEqual(40);
    expect(onPhone.out).toContain('\u001B[');
    for (const env of [{ NO_COLOR: '1' }, { TERM: 'dumb' }]) {
      // oxlint-disable-next-line no-await-in-loop -- one after the other, in memory
      expect((await cli(['check', 'hunts.yaml'], { columns: 40, env })).out).not.toContain('\u001B');
    }
    const piped = await cli(['check', 'hunts.yaml']);
    expect(piped.out).not.toContain('\u001B');
    expect(widest(piped.out)).toBeLessThanOrEqual(80);
  });

  it('says the same words with and without colour', async () => {
    const plain = await cli(['check', 'hunts.yaml', '--width', '72']);
    const coloured = await cli(['check', 'hunts.yaml', '--width', '72'], { columns: 72 });
    // oxlint-disable-next-line no-control-regex -- escape sequences are what is looked for
    expect(coloured.out.replaceAll(/\u001B\[[0-9;]*m/g, '')).toBe(plain.out);
  });

  it('gives JSON that keeps to its schema, with sorted keys and finite numbers', async () => {
    const { out, code } = await cli(['check', 'hunts.yaml', '--json']);
    expect(code).toBe(1);
    const report = JSON.parse(out) as {
      version: number;
      format: string;
      exitCode: number;
      findings: { id: string }[];
    };
    expect([report.format, report.version, report.exitCode]).toEqual(['loomwright-report', 1, 1]);
    expect(report.findings.map((each) => each.id)).toContain('hunting/charger');
    expect(keysSorted(report)).toBe(true);
    expect(out).not.toMatch(/NaN|Infinity/);
    expectValid(report);
  });

  it('gives the same bytes twice', async () => {
    expect((await cli(['check', 'sound.yaml', '--json'])).out).toBe(
      (await cli(['check', 'sound.yaml', '--json'])).out,
    );
  });
});

describe('states', () => {
  it('prints both tables and every reading of a commissioning sheet', async () => {
    const { out, code } = await cli(['states', 'sound.yaml']);
    expect(code).toBe(0);
    for (const words of [
      'Driving, charge-switch on',
      'charger charges: 30.0 A out',
      'vehicle battery, post to post',
      'enable, supply side of charge-switch',
      'enable, at charger',
      'charger input, + to −',
      'across feed-breaker',
      'engine + post to charger +',
      'charger − to engine − post',
      'clamp on the feed of charger',
      'charger output + to house-battery +',
      'wait 10 s',
      'still live',
    ])
      expect(out).toContain(words);
    expect(out).toMatch(/Parked, charge-switch on or off/);
  });

  it('gives JSON that keeps to its schema', async () => {
    const { out } = await cli(['states', 'sound.yaml', '--all', '--json']);
    expectValid(JSON.parse(out));
  });
});

describe('explain', () => {
  it('shows the working, what it rests on, and remedies with before and after', async () => {
    const { out, code } = await cli(['explain', 'hunts.yaml', 'hunting/charger']);
    expect(code).toBe(0);
    for (const words of [
      'Working',
      'Rests on',
      'Remedies, each tried on a copy',
      'now:',
      'after:',
      'hunting/charger gone',
    ])
      expect(out).toContain(words);
  });

  it('names the nearest finding', async () => {
    const { code, err } = await cli(['explain', 'hunts.yaml', 'huntin/chrger']);
    expect(code).toBe(2);
    expect(err).toContain('has no finding "huntin/chrger"');
    expect(err).toContain('hunting/charger');
  });
});

describe('facts and schema', () => {
  it('lists what would settle most', async () => {
    const { out, code } = await cli(['facts', 'hunts.yaml']);
    expect(code).toBe(0);
    expect(out).toMatch(/Worth getting next[\s\S]*could settle/);
  });

  it('prints both schemas', async () => {
    const { out } = await cli(['schema']);
    expect(JSON.parse(out)).toHaveProperty('properties.parts');
    expect((await cli(['schema', '--report'])).out).toBe(reportSchemaText());
  });

  it('keeps the committed schema of results fresh (npm run generate writes it)', () => {
    const committed = readFileSync(new URL('../schema/report.schema.json', import.meta.url), 'utf8');
    expect(committed).toBe(reportSchemaText());
  });
});

describe('first', () => {
  const SIX = [
    '--supply',
    'converter 60 A',
    '--battery',
    'seat',
    '--length',
    '2 m',
    '--charger',
    '20 A',
    '--house',
    'lifepo4 100 Ah',
    '--return',
    'cable',
    '--stock',
    '16 25 35 mm2',
  ];

  it('answers six questions in one screen, and keeps the design', async () => {
    const { out, code, files } = await cli(['first', ...SIX, '--save', 'van.yaml']);
    expect([0, 1]).toContain(code);
    for (const words of [
      'Cable, each way',
      'Fuse or breaker',
      'Does it hunt?',
      'Left over at hot idle',
      'Run signal needed?',
      'Driving gives, per hour',
      'Worth getting next',
      'Rests on',
    ])
      expect(out).toContain(words);
    expect(out).toContain('Written to van.yaml');
    expect(out.split('\n').length).toBeLessThanOrEqual(50);
    const text = files.get('van.yaml');
    expect(text).toContain('loomwright: 1');
    const again = await cli(['check', 'van.yaml'], { files: { 'van.yaml': text ?? '' } });
    expect(again.out.split('\n')[0]).toBe(out.split('\n')[0]);
  });

  it('never writes over a file', async () => {
    const { code, err, files } = await cli(['first', ...SIX, '--save', 'sound.yaml']);
    expect(code).toBe(2);
    expect(err).toContain('exists already');
    expect(files.get('sound.yaml')).toBe(FILES['sound.yaml']);
    expect((await cli(['first', ...SIX, '--save', '/nowhere/van.yaml'])).err).toContain('was not written');
  });

  it('asks, says again what it did not understand, and takes Enter as "don\'t know"', async () => {
    const answers = [
      'dynamo',
      'converter 60 A',
      'seat',
      '2',
      '2 m',
      '20 A',
      'lifepo4 100 Ah',
      'cable',
      '16 25 mm2',
      'sound.yaml',
      'mine.yaml',
    ];
    const { out, err, files } = await cli(['first'], { columns: 40, env: { NO_COLOR: '1' }, answers });
    expect(out).toContain('"dynamo" is not understood');
    expect(out).toContain('Does it hunt?');
    expect(widest(out)).toBeLessThanOrEqual(40);
    expect(err).toContain('sound.yaml exists already');
    expect(out).toContain('Written to mine.yaml');
    expect(files.get('mine.yaml')).toContain('loomwright: 1');
  });

  it('ends when the person ends the dialogue', async () => {
    const { code, out } = await cli(['first'], { columns: 60, answers: ['alternator'] });
    expect(code).toBe(2);
    expect(out).not.toContain('Does it hunt?');
  });

  it('says which option it did not understand', async () => {
    const { code, err } = await cli(['first', '--length', 'a while', '--return', 'rope']);
    expect(code).toBe(2);
    expect(err).toContain('--length:');
    expect(err).toContain('--return: "rope" is not understood');
  });
});

describe('mistakes', () => {
  it.each([
    [[], 'Commands'],
    [['help'], 'Commands'],
    [['--help'], 'From nothing to a checked build'],
    [['help', 'check'], 'Exit code'],
    [['check', '--help'], 'loomwright check van.yaml'],
  ])('%j gives help', async (argv, words) => {
    const { out, code } = await cli(argv);
    expect(out).toContain(words);
    expect(code).toBe(argv.length === 0 ? 2 : 0);
  });

  it('uses the whole width for the second column of its lists', async () => {
    const { out } = await cli(['help']);
    expect(out).toMatch(/^ {2}first {17}a first answer from six facts, each may be "don't know"$/m);
  });

  it.each([
    [['check'], 'FILE is missing'],
    [['check', 'a', 'b'], '"b" is too much'],
    [['explain', 'sound.yaml'], 'FINDING is missing'],
    [['chek', 'sound.yaml'], 'Near it: check'],
    [['sound.yaml'], 'loomwright check sound.yaml'],
    [['frobnicate'], 'The commands are'],
    [['check', 'sound.yaml', '--jsn'], '"--jsn" is no option of check'],
    [['check', 'sound.yaml', '--width'], '--width needs a value'],
    [['check', 'sound.yaml', '--width', 'wide'], 'whole number of columns'],
    [['check', 'nothere.yaml'], 'there is no such file'],
    [['check', 'folder'], 'that is a directory'],
  ])('%j: %s', async (argv, words) => {
    const { err, out, code } = await cli(argv);
    expect(err).toContain(words);
    expect(out).toBe('');
    expect(code).toBe(2);
    expect(err).not.toMatch(/\bat .*:\d+:\d+\)/);
  });

  it('names file, line and column of every fault of a document, and judges nothing', async () => {
    const wrong = FILES['sound.yaml']
      .replace('size: 25 mm2', 'size: 25')
      .replace('kind: shunt', 'kind: shnt');
    const { err, out, code } = await cli(['check', 'wrong.yaml'], { files: { 'wrong.yaml': wrong } });
    expect(code).toBe(2);
    expect(out).toBe('');
    const places = err.match(/wrong\.yaml:\d+:\d+:/g) ?? [];
    expect(places.length).toBeGreaterThanOrEqual(2);
    expect(err).toContain('was not judged');
  });

  it.each(['check', 'states', 'facts'])('%s: no bytes make it throw', async (command) => {
    for (const bytes of [
      new Uint8Array(),
      new Uint8Array([0xff, 0xfe, 0x00]),
      new TextEncoder().encode('&a [*a]'),
    ]) {
      // oxlint-disable-next-line no-await-in-loop -- one after the other, in memory
      const { code, err } = await cli([command, 'x.yaml'], { files: { 'x.yaml': bytes } });
      expect(code).toBe(2);
      expect(err).toMatch(/x\.yaml:\d+:\d+:/);
    }
  });

  it('turns a defect of its own into one line and a code of its own', async () => {
    const memory = memoryHost({ files: FILES });
    const broken = {
      ...memory.host,
      out: () => {
        throw new Error('no paper');
      },
    };
    expect(await run(['check', 'sound.yaml'], broken)).toBe(3);
    expect(memory.err()).toContain('a defect of the program');
    expect(memory.err()).not.toMatch(/\n\s+at /);
  });
});

function keysSorted(value: unknown): boolean {
  if (Array.isArray(value)) return value.every(keysSorted);
  if (typeof value !== 'object' || value === null) return true;
  const keys = Object.keys(value);
  return keys.join() === keys.toSorted().join() && Object.values(value).every(keysSorted);
}

function expectValid(value: unknown): void {
  const ajv = new Ajv2020.default({ allErrors: true, strict: false });
  const validate = ajv.compile(JSON.parse(reportSchemaText()) as object);
  validate(value);
  expect(validate.errors ?? []).toEqual([]);
}
