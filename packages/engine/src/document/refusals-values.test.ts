/** Values that are refused: what is said, with line and column. */
import { describe, expect, it } from 'vitest';
import { formatDiagnostic, readDocument } from './index.ts';
import { testRegistry } from './testing/kinds.ts';

const said = (text: string): string[] =>
  readDocument(text, testRegistry).diagnostics.map((d) => formatDiagnostic(d, 'job.yaml'));

/** What is wrong, the document, what is said. */
const CASES: readonly (readonly [name: string, text: string, lines: readonly string[]])[] = [
  [
    'an unknown name at the top',
    `loomwright: 1
titel: x
`,
    ['job.yaml:2:1: found "titel", which is not known here; did you mean title?'],
  ],
  [
    'an unknown field of a part',
    `loomwright: 1
parts:
  b: { kind: battery, capacty: 80 Ah }
`,
    ['job.yaml:3:23: found "capacty", which is not known here; did you mean capacity?'],
  ],
  [
    'an unknown field in a record',
    `loomwright: 1
parts:
  b: { kind: battery, reach: { whom: owner } }
`,
    ['job.yaml:3:32: found "whom", which is not known here; did you mean who?'],
  ],
  [
    'a field of another kind',
    `loomwright: 1
parts:
  b: { kind: busbar, capacity: 80 Ah }
`,
    [
      'job.yaml:3:22: found "capacity", which is not known here; known here: kind, at, rating, label, standby or reach',
    ],
  ],
  [
    'an unknown kind',
    `loomwright: 1
parts:
  b: { kind: batery }
`,
    [
      'job.yaml:3:14: found "batery", which is not a kind of part; did you mean battery? (battery, charger, switch, fuse, busbar, body-section, chassis-point, strap, supply-point or base-load)',
    ],
  ],
  [
    'a kind that comes later',
    `loomwright: 1
parts:
  b: { kind: inverter, power: 1000 W }
`,
    [
      'job.yaml:3:14: found "inverter", a kind of part that this version does not judge yet; write kind: load with its power, cut-out and standby',
    ],
  ],
  [
    'a part without a kind',
    `loomwright: 1
parts:
  b: { capacity: 80 Ah }
`,
    ['job.yaml:3:6: found a part without a kind; write kind: and what it is, such as kind: battery'],
  ],
  [
    'a part that is a word',
    `loomwright: 1
parts:
  b: battery
`,
    ['job.yaml:3:6: found "battery"; a part such as { kind: battery } is expected'],
  ],
  [
    'a part without anything',
    `loomwright: 1
parts:
  b:
`,
    ['job.yaml:3:5: found nothing; a part such as { kind: battery } is expected'],
  ],
  [
    'a list where a map is expected',
    `loomwright: 1
parts:
  - { kind: battery }
`,
    ['job.yaml:3:3: found a list; a map of parts by their names is expected'],
  ],
  [
    'a bare number',
    `loomwright: 1
parts:
  b: { kind: battery, capacity: 80 }
`,
    ['job.yaml:3:33: found "80", a charge (capacity) without a unit; write 80 Ah or 80 mAh'],
  ],
  [
    'a foreign unit',
    `loomwright: 1
parts:
  b: { kind: battery, capacity: 80 A }
`,
    ['job.yaml:3:33: found "80 A": A is a current; write a capacity in Ah'],
  ],
  [
    'a number of two meanings',
    `loomwright: 1
parts:
  b:
    kind: battery
    held: 1,300 V
`,
    ['job.yaml:5:11: found "1,300 V", which has two meanings; write 1.300 V or 1300 V'],
  ],
  [
    'a decimal comma in braces',
    `loomwright: 1
parts:
  b: { kind: battery, held: 13,2 V, role: house }
`,
    [
      'job.yaml:3:29: found "13,2 V" in braces, where the comma begins a new entry; write 13.2 V, or quote it: "13,2 V"',
    ],
  ],
  [
    'a band where one value is expected',
    `loomwright: 1
parts:
  b: { kind: battery, held: 13..14 V }
`,
    ['job.yaml:3:29: found "13..14 V", a band: one value is expected here, such as 13.2 V'],
  ],
  [
    'never where a time must end',
    `loomwright: 1
parts:
  b: { kind: battery, held: never }
`,
    ['job.yaml:3:29: found "never", not accepted here: a voltage is expected, such as 13.2 V'],
  ],
  [
    'a quantity out of range',
    `loomwright: 1
places:
  nose: { hottest: 300 °C }
`,
    ['job.yaml:3:20: found "300 °C", too large: at most 200 °C is expected here'],
  ],
  [
    'a word out of a list',
    `loomwright: 1
parts:
  b: { kind: battery, role: hous }
`,
    ['job.yaml:3:29: found "hous"; did you mean house? (vehicle or house)'],
  ],
  [
    'on and off',
    `loomwright: 1
parts:
  s: { kind: switch, momentary: on }
`,
    ['job.yaml:3:33: found "on"; did you mean yes? (yes or no)'],
  ],
  [
    'a capital yes',
    `loomwright: 1
parts:
  s: { kind: switch, momentary: Yes }
`,
    ['job.yaml:3:33: found "Yes"; did you mean yes? (yes or no)'],
  ],
  [
    'a plain number with a unit',
    `loomwright: 1
parts:
  s: { kind: switch, poles: 2 A }
`,
    ['job.yaml:3:29: found "2 A", not a number; write it such as 12 or 13.2'],
  ],
  [
    'a plain number out of range',
    `loomwright: 1
parts:
  s: { kind: switch, poles: 3 }
`,
    ['job.yaml:3:29: found "3", too large: at most 2 is expected here'],
  ],
  [
    'a phrase',
    `loomwright: 1
parts:
  c: { kind: charger, starts: 13.3 after 15 s }
`,
    [
      'job.yaml:3:31: found "13.3 after 15 s": "13.3" is a voltage without a unit; write 13.3 V or 13.3 mV (a threshold is written such as 13.3 V after 15 s)',
    ],
  ],
  [
    'one of two quantities, no unit',
    `loomwright: 1
parts:
  c: { kind: charger, coil: 85 }
`,
    ['job.yaml:3:29: found "85", not understood; write a resistance such as 5 mΩ or a current such as 30 A'],
  ],
  [
    'one of two quantities, other unit',
    `loomwright: 1
parts:
  c: { kind: charger, coil: 85 V }
`,
    [
      'job.yaml:3:29: found "85 V", not understood; write a resistance such as 5 mΩ or a current such as 30 A',
    ],
  ],
  [
    'a row of the wrong length',
    `loomwright: 1
parts:
  c: { kind: charger, efficiency: [[0.5, 0.9, 1]] }
`,
    [
      'job.yaml:3:36: found a row of 3; a row of 2 in brackets (a number without a unit, then a number without a unit) is expected',
    ],
  ],
  [
    'a word where a list is expected',
    `loomwright: 1
parts:
  f: { kind: fuse, curve: slow }
`,
    ['job.yaml:3:27: found "slow"; a list in brackets is expected: write [slow]'],
  ],
  [
    'faults deep in a list',
    `loomwright: 1
parts:
  f: { kind: fuse, curve: [{ at: 135 %, opens: 3600 }, { att: 2 }] }
`,
    [
      'job.yaml:3:48: found "3600", a time without a unit; write 3600 s, 3600 min, 3600 h or 3600 days',
      'job.yaml:3:58: found "att", which is not known here; did you mean at?',
    ],
  ],
  [
    'a state that is none',
    `loomwright: 1
parts:
  p: { kind: supply-point, live: [idling, drivng] }
`,
    [
      'job.yaml:3:43: found "drivng"; did you mean driving? (parked, woken, after-run, ignition-on, cranking, idling, driving, overrun, automatic-stop, ready, plugged-in or stored)',
    ],
  ],
  [
    'a survey of no state',
    `loomwright: 1
survey:
  idle: { load: 20 A }
`,
    [
      'job.yaml:3:3: found "idle", which is not known here; known here: parked, woken, after-run, ignition-on, cranking, idling, driving, overrun, automatic-stop, ready, plugged-in or stored',
    ],
  ],
  [
    'a requirement in other words',
    `loomwright: 1
requires: [the owner can stop the charging]
`,
    [
      'job.yaml:2:12: found "the owner can stop the charging"; did you mean the owner can stop charging? (charges only while the engine runs, the owner can stop charging or a tripped breaker leaves nothing live beyond it)',
    ],
  ],
  [
    'fields that contradict each other',
    `loomwright: 1
parts:
  c: { kind: charger, starts: 12 V, stops: 13 V }
`,
    ['job.yaml:3:44: found a stop threshold above the start threshold; exchange them'],
  ],
  [
    'an empty value',
    `loomwright: 1
parts:
  b: { kind: battery, capacity: }
`,
    ['job.yaml:3:33: found nothing; a charge (capacity) such as 200 Ah is expected, or write unknown'],
  ],
  [
    'an empty value before a comment with digits',
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
  w:
    from: b.+
    to: c.in+
    length: 1 m
    size: #4
`,
    [
      'job.yaml:16:11: found nothing: "#4" is a comment because of its #; write 4 AWG for a wire size, or put it in quotes',
    ],
  ],
  [
    'the same in braces',
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
  w: { from: b.+, to: c.in+, length: 1 m, size: #4 }
`,
    [
      'job.yaml:12:49: found "#4 }", which is a comment because of its #, so that the closing brace is lost; write 4 AWG for a wire size, or put it in quotes',
    ],
  ],
  [
    'an empty value before a comment',
    `loomwright: 1
title: # later
`,
    ['job.yaml:2:8: found nothing: "# later" is a comment because of its #; a text is expected'],
  ],
  [
    'a size without a unit',
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
  w: { from: b.+, to: c.in+, length: 1 m, size: 25 }
`,
    ['job.yaml:12:49: found "25", a size without a unit; write 25 mm2, 25 AWG or 25 SAE'],
  ],
  [
    'a diameter',
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
  w: { from: b.+, to: c.in+, length: 1 m, size: 6 mm }
`,
    [
      'job.yaml:12:49: found "6 mm" may be a copper area or an outside diameter; write 6 mm2 or 6 mm auto (sold by outside diameter, about 4.6 mm² of copper)',
    ],
  ],
  [
    'gauge',
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
  w: { from: b.+, to: c.in+, length: 1 m, size: 4 ga }
`,
    [
      'job.yaml:12:49: found "4 ga": gauge is sold by two rules that differ; write 4 AWG (21.2 mm²) or 4 SAE (18.9 mm²)',
    ],
  ],
  [
    'a band of sizes',
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
  w: { from: b.+, to: c.in+, length: 1 m, size: 16..25 mm2 }
`,
    [
      'job.yaml:12:49: found "16..25 mm2", a band: one size is expected here, such as 25 mm2, 4 AWG, 4 SAE or 6 mm auto',
    ],
  ],
];

describe('values that are refused', () => {
  it.each(CASES)('%s', (_name, text, lines) => {
    expect(said(text)).toEqual(lines);
    expect(readDocument(text, testRegistry).build).toBeNull();
  });
});
