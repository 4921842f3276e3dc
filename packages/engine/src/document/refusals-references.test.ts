/** Names that lead nowhere and contradictions: what is said, with line and column. */
import { describe, expect, it } from 'vitest';
import { formatDiagnostic, readDocument } from './index.ts';
import { testRegistry } from './testing/kinds.ts';

const said = (text: string): string[] =>
  readDocument(text, testRegistry).diagnostics.map((d) => formatDiagnostic(d, 'job.yaml'));

/** What is wrong, the document, what is said. */
const CASES: readonly (readonly [name: string, text: string, lines: readonly string[]])[] = [
  [
    'a wire to a missing part',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: d.+, to: c.in+, length: 1 m }
`,
    ['job.yaml:12:14: found "d.+"; there is no part of the name "d"; parts here: b, c, n, bar, body'],
  ],
  [
    'a wire to a part misspelt',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: boy.+, to: c.in+, length: 1 m }
`,
    ['job.yaml:12:14: found "boy.+"; there is no part of the name "boy"; did you mean body?'],
  ],
  [
    'a wire to a missing terminal',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: b.pos, to: c.in, length: 1 m }
`,
    [
      'job.yaml:12:14: found "b.pos", a terminal that is not there; b has + and -',
      'job.yaml:12:25: found "c.in", a terminal that is not there; did you mean c.in+? (c has in+, in-, out+, out- and enable)',
    ],
  ],
  [
    'a part without terminals',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: b.+, to: body.stud, length: 1 m }
`,
    ['job.yaml:12:23: found "body.stud", a terminal that is not there; body has no terminals'],
  ],
  [
    'a terminal without number',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: bar.0, to: bar.x, length: 1 m }
`,
    [
      'job.yaml:12:14: found "bar.0"; the terminals of bar are numbered: write bar.1, bar.2 and so on',
      'job.yaml:12:25: found "bar.x"; the terminals of bar are numbered: write bar.1, bar.2 and so on',
    ],
  ],
  [
    'no terminal at all',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: b, to: c.in+, length: 1 m }
`,
    ['job.yaml:12:14: found "b", no terminal; write part.terminal, such as b.+'],
  ],
  [
    'a wire with one end',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: b.+, length: 1 m }
`,
    ['job.yaml:12:6: found an entry without to; to: is needed here'],
  ],
  [
    'both ends on one terminal',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: b.+, to: b.+, length: 1 m }
`,
    ['job.yaml:12:23: found both ends of a wire on the same terminal; a wire joins two terminals'],
  ],
  [
    'no length and no way',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: b.+, to: c.in+ }
`,
    [
      'job.yaml:12:6: found a wire with no length, and no way between nose and tail; give a length or a route',
    ],
  ],
  [
    'no length and no place',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: n.+, to: c.in+ }
`,
    [
      'job.yaml:12:6: found a wire with no length, and n has no place; give a length, or say where n is (at:)',
    ],
  ],
  [
    'no way to a place on the way',
    `loomwright: 1
places: { a: {}, b: {}, z: {} }
routes:
  - { from: a, to: b, length: 1 m }
parts:
  x: { kind: busbar, at: a }
  y: { kind: busbar, at: b }
wires:
  w: { from: x.1, to: y.1, via: [a, z, b] }
`,
    ['job.yaml:9:6: found a wire with no length, and no way between a and z; give a length or a route'],
  ],
  [
    'an unknown place',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: b.+, to: c.in+, via: [nose, tale] }
`,
    ['job.yaml:12:42: found "tale"; there is no place of the name "tale"; places here: nose, tail'],
  ],
  [
    'a part at an unknown place',
    `loomwright: 1
places:
  nose: {}
parts:
  b: { kind: battery, at: hose }
`,
    ['job.yaml:5:27: found "hose"; there is no place of the name "hose"; did you mean nose?'],
  ],
  [
    'a route to nowhere',
    `loomwright: 1
places:
  nose: {}
routes:
  - { from: nose, to: tail, length: 1 m }
  - { from: nose, to: nose, length: 1 m }
  - { from: nose }
`,
    [
      'job.yaml:5:23: found "tail"; there is no place of the name "tail"; places here: nose',
      'job.yaml:6:23: found a route from a place to itself; a route joins two places',
      'job.yaml:7:5: found an entry without to; to: is needed here',
    ],
  ],
  [
    'an unknown return wire',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: b.+, to: c.in+, length: 1 m, return: v }
`,
    ['job.yaml:12:51: found "v"; there is no wire of the name "v"; wires here: w'],
  ],
  [
    'a wire that returns by itself',
    `loomwright: 1
places:
  nose: {}
  tail: {}
parts:
  b: { kind: battery, at: nose }
  c: { kind: charger, at: tail }
  n: { kind: battery }
  bar: { kind: busbar, at: nose }
  body: { kind: body-section }
wires:
  w: { from: b.+, to: c.in+, length: 1 m, return: w }
`,
    ['job.yaml:12:51: found a wire that is its own return; name the wire that runs beside it'],
  ],
  [
    'an unknown system',
    `loomwright: 1
systems: { vehicle: 12 V, box: 24 V }
parts:
  b: { kind: battery, system: boxx }
`,
    ['job.yaml:4:31: found "boxx"; there is no system of the name "boxx"; did you mean box?'],
  ],
  [
    'weather, a place and posts the wrong way round',
    `loomwright: 1
climate: { coldest: 38 °C, hottest: -10 °C }
survey:
  idling: { posts: { min: 14.5 V, typical: 14.0 V, max: 13.4 V } }
  driving: { posts: { min: 13.5 V, max: 13.5 V } }
places:
  nose: { hottest: -5 °C, coldest: 40 °C }
  tail: { hottest: 40 °C }
`,
    [
      'job.yaml:2:37: found hottest -10 °C below coldest 38 °C; coldest, hottest is the order, from the least to the greatest',
      'job.yaml:4:44: found typical 14.0 V below min 14.5 V; min, typical, max is the order, from the least to the greatest',
      'job.yaml:7:20: found hottest -5 °C below coldest 40 °C; coldest, hottest is the order, from the least to the greatest',
    ],
  ],
  [
    'an unknown system voltage',
    `loomwright: 1
systems: { vehicle: unknown }
`,
    ['job.yaml:2:12: found a system whose nominal voltage is unknown; write 12 V, 24 V or 48 V'],
  ],
  [
    'a section that is none',
    `loomwright: 1
parts:
  b: { kind: battery }
  body: { kind: body-section }
  g: { kind: chassis-point, section: b }
  s: { kind: strap, from: body, to: bodi }
`,
    [
      'job.yaml:5:38: found "b", which is not a body section; write body',
      'job.yaml:6:37: found "bodi"; there is no body section of the name "bodi"; did you mean body?',
    ],
  ],
  [
    'a measurement between nothing',
    `loomwright: 1
measured:
  - { from: a.+, to: b.+, resistance: unknown }
`,
    [
      'job.yaml:3:5: found a measurement whose result is unknown; write the resistance, or take the entry out',
      'job.yaml:3:13: found "a.+"; there is no part of the name "a"; there is no part in this document',
      'job.yaml:3:22: found "b.+"; there is no part of the name "b"; there is no part in this document',
    ],
  ],
  [
    'a finding set aside without a reason',
    `loomwright: 1
aside:
  - { finding: x }
`,
    ['job.yaml:3:5: found an entry without reason; reason: is needed here'],
  ],
  [
    'a confirmation of nothing',
    `loomwright: 1
confirmed:
  - { by: NN }
  - { table: a, figure: b }
`,
    [
      'job.yaml:3:5: found a confirmation of nothing; name either a table or a figure',
      'job.yaml:4:5: found a confirmation of two things; name either a table or a figure',
    ],
  ],
];

describe('references that are refused', () => {
  it.each(CASES)('%s', (_name, text, lines) => {
    expect(said(text)).toEqual(lines);
    expect(readDocument(text, testRegistry).build).toBeNull();
  });
});
